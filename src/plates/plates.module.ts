import { Module } from '@nestjs/common';
import { RoomModule } from '../room/room.module.js';
import { SittingsModule } from '../sittings/sittings.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { HandOverService } from './hand-over.service.js';
import { OwedService } from './owed.service.js';
import { RecordsService } from './records.service.js';
import { SeriesService } from './series.service.js';

@Module({
  imports: [StudiosModule, RoomModule, SittingsModule],
  providers: [OwedService, RecordsService, SeriesService, HandOverService],
  exports: [OwedService, RecordsService, SeriesService, HandOverService],
})
export class PlatesModule {}
