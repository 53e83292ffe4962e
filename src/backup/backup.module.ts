import { Module } from '@nestjs/common';
import { PrivacyModule } from '../privacy/privacy.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { BackupJobs } from './backup.jobs.js';
import { BackupService } from './backup.service.js';
import { RestoreService } from './restore.service.js';

@Module({
  imports: [StudiosModule, PrivacyModule],
  providers: [BackupService, RestoreService, BackupJobs],
  exports: [BackupService, RestoreService],
})
export class BackupModule {}
