// The copy that is made every night.
import { Injectable, type OnModuleInit } from '@nestjs/common';
import { Jobs } from '../platform/jobs/registry.js';
import { BackupService } from './backup.service.js';

@Injectable()
export class BackupJobs implements OnModuleInit {
  constructor(
    private readonly jobs: Jobs,
    private readonly backup: BackupService,
  ) {}

  onModuleInit(): void {
    this.jobs.handle('copy', ({ studioId }) => this.backup.keepTonight(studioId));
  }
}
