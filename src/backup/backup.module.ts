import { Module } from '@nestjs/common';
import { StudiosModule } from '../studios/studios.module.js';
import { BackupJobs } from './backup.jobs.js';
import { BackupService } from './backup.service.js';
import { RestoreService } from './restore.service.js';

@Module({
  imports: [StudiosModule],
  providers: [BackupService, RestoreService, BackupJobs],
  exports: [BackupService, RestoreService],
})
export class BackupModule {}
