import { Module } from '@nestjs/common';
import { StudiosModule } from '../studios/studios.module.js';
import { DaylightController } from './daylight.controller.js';
import { DaylightService } from './daylight.service.js';

@Module({
  imports: [StudiosModule],
  controllers: [DaylightController],
  providers: [DaylightService],
  exports: [DaylightService],
})
export class DaylightModule {}
