// The rules of keeping, kept to every night.
import { Injectable, type OnModuleInit } from '@nestjs/common';
import { Jobs } from '../platform/jobs/registry.js';
import { KeepingService } from './keeping.service.js';

@Injectable()
export class KeepingJobs implements OnModuleInit {
  constructor(
    private readonly jobs: Jobs,
    private readonly keeping: KeepingService,
  ) {}

  onModuleInit(): void {
    this.jobs.handle('keep to rules', ({ studioId }) => this.keeping.night(studioId));
  }
}
