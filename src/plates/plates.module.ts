import { Module } from '@nestjs/common';
import { RoomModule } from '../room/room.module.js';
import { ChemistryModule } from '../chemistry/chemistry.module.js';
import { DaylightModule } from '../daylight/daylight.module.js';
import { SittingsModule } from '../sittings/sittings.module.js';
import { StockModule } from '../stock/stock.module.js';
import { AccountsModule } from '../accounts/accounts.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { BookService } from './book.service.js';
import { BroughtPlates } from './brought.service.js';
import { HandOverService } from './hand-over.service.js';
import { MadeService } from './made.service.js';
import { MadeChoices } from './made-choices.service.js';
import { MadeFeeds } from './made-feeds.service.js';
import { MadeController } from './made.controller.js';
import { MadeLight } from './made-light.service.js';
import { MadeStockService } from './made-stock.service.js';
import { LabelsService } from './labels.service.js';
import { OwedService } from './owed.service.js';
import { PlatesController } from './plates.controller.js';
import { RecordService } from './record.service.js';
import { SeriesService } from './series.service.js';

@Module({
  imports: [
    StudiosModule,
    AccountsModule,
    DaylightModule,
    ChemistryModule,
    RoomModule,
    StockModule,
    SittingsModule,
  ],
  controllers: [PlatesController, MadeController],
  providers: [
    OwedService,
    MadeService,
    MadeChoices,
    MadeFeeds,
    MadeLight,
    MadeStockService,
    RecordService,
    BookService,
    BroughtPlates,
    LabelsService,
    SeriesService,
    HandOverService,
  ],
  exports: [
    OwedService,
    MadeService,
    RecordService,
    BookService,
    BroughtPlates,
    LabelsService,
    SeriesService,
    HandOverService,
  ],
})
export class PlatesModule {}
