// An outside calendar's turn to be read.
import { Injectable, type OnModuleInit } from '@nestjs/common';
import { Jobs } from '../platform/jobs/registry.js';
import { OutsideService } from './outside.service.js';

@Injectable()
export class OutsideJobs implements OnModuleInit {
  constructor(
    private readonly jobs: Jobs,
    private readonly outside: OutsideService,
  ) {}

  onModuleInit(): void {
    this.jobs.handle('outside.due', ({ studioId }) => this.outside.readDue(studioId));
  }
}
