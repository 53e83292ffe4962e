import { Module } from '@nestjs/common';
import { RoomModule } from '../room/room.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { ActsService } from './acts.service.js';
import { DaysService } from './days.service.js';
import { PreparationService } from './preparation.service.js';
import { StockService } from './stock.service.js';

@Module({
  imports: [StudiosModule, RoomModule],
  providers: [ActsService, StockService, DaysService, PreparationService],
  exports: [StockService, DaysService, PreparationService],
})
export class StockModule {}
