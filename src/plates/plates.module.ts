import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { RoomModule } from '../room/room.module.js';
import { SittingsModule } from '../sittings/sittings.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { BookService } from './book.service.js';
import { HandOverService } from './hand-over.service.js';
import { LabelsService } from './labels.service.js';
import { OwedService } from './owed.service.js';
import { PlatesController } from './plates.controller.js';
import { RecordService } from './record.service.js';
import { SeriesService } from './series.service.js';

@Module({
  imports: [StudiosModule, AccountsModule, RoomModule, SittingsModule],
  controllers: [PlatesController],
  providers: [OwedService, RecordService, BookService, LabelsService, SeriesService, HandOverService],
  exports: [OwedService, RecordService, BookService, LabelsService, SeriesService, HandOverService],
})
export class PlatesModule {}
