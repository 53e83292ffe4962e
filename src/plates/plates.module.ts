import { Module } from '@nestjs/common';
import { RoomModule } from '../room/room.module.js';
import { ChemistryModule } from '../chemistry/chemistry.module.js';
import { DaylightModule } from '../daylight/daylight.module.js';
import { SittingsModule } from '../sittings/sittings.module.js';
import { StockModule } from '../stock/stock.module.js';
import { AccountsModule } from '../accounts/accounts.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { MadeService } from './made.service.js';
import { MadeChoices } from './made-choices.service.js';
import { MadeFeeds } from './made-feeds.service.js';
import { MadeController } from './made.controller.js';
import { MadeLight } from './made-light.service.js';
import { MadeStockService } from './made-stock.service.js';
import { OwedService } from './owed.service.js';

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
  controllers: [MadeController],
  providers: [OwedService, MadeService, MadeChoices, MadeFeeds, MadeLight, MadeStockService],
  exports: [OwedService, MadeService],
})
export class PlatesModule {}
