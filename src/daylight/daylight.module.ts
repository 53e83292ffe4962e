import { Module } from '@nestjs/common';
import { StudiosModule } from '../studios/studios.module.js';
import { DaylightController } from './daylight.controller.js';

@Module({ imports: [StudiosModule], controllers: [DaylightController] })
export class DaylightModule {}
