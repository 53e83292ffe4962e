import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { SittingsModule } from '../sittings/sittings.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { WaitingModule } from '../waiting/waiting.module.js';
import { Composing } from './composing.service.js';
import { OutboxService } from './outbox.service.js';
import { RemindersJobs } from './reminders.jobs.js';
import { Sending } from './sending.service.js';
import { TelephoneService } from './telephone.service.js';

@Module({
  imports: [StudiosModule, AccountsModule, WaitingModule, SittingsModule],
  providers: [Composing, Sending, OutboxService, TelephoneService, RemindersJobs],
  exports: [OutboxService, TelephoneService],
})
export class RemindersModule {}
