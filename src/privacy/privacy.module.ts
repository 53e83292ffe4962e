import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { ErasureLog } from './erasure-log.service.js';
import { ErasureService } from './erasure.service.js';
import { ExportService } from './export.service.js';
import { KeepingJobs } from './keeping.jobs.js';
import { KeepingService } from './keeping.service.js';
import { PrivacyWeb } from './privacy.web.js';

@Module({
  imports: [StudiosModule, AccountsModule],
  controllers: [PrivacyWeb],
  providers: [ErasureLog, ErasureService, ExportService, KeepingService, KeepingJobs],
  exports: [ErasureLog, ErasureService, ExportService, KeepingService],
})
export class PrivacyModule {}
