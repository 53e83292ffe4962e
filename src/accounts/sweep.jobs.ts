// What is swept each night: answers kept for repeats, and sign-in links whose time is long over.
import { Injectable, type OnModuleInit } from '@nestjs/common';
import { SweepService } from './sweep.service.js';
import { Jobs } from '../platform/jobs/registry.js';

@Injectable()
export class SweepJobs implements OnModuleInit {
  constructor(
    private readonly jobs: Jobs,
    private readonly sweep: SweepService,
  ) {}

  onModuleInit(): void {
    this.jobs.handle('night', ({ studioId }) => this.sweep.night(studioId));
  }
}
