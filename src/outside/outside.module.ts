import { Module } from '@nestjs/common';
import { StudiosModule } from '../studios/studios.module.js';
import { Network } from './network.js';
import { OutsideJobs } from './outside.jobs.js';
import { OutsideService } from './outside.service.js';
import { CalendarReader } from './reader.service.js';

@Module({
  imports: [StudiosModule],
  providers: [Network, CalendarReader, OutsideService, OutsideJobs],
  exports: [OutsideService],
})
export class OutsideModule {}
