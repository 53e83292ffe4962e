import { Module } from '@nestjs/common';
import { StudiosModule } from '../studios/studios.module.js';
import { ActsService } from './acts.service.js';
import { StockService } from './stock.service.js';

@Module({ imports: [StudiosModule], providers: [ActsService, StockService], exports: [StockService] })
export class StockModule {}
