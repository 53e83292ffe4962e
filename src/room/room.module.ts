import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { OutsideModule } from '../outside/outside.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { TravelModule } from '../travel/travel.module.js';
import { CalculatorWeb } from './calculator.web.js';
import { ClosuresService } from './closures.service.js';
import { ElsewhereService } from './elsewhere.service.js';
import { HoldingService } from './holding.service.js';
import { RederiveService } from './rederive.service.js';
import { RemovalService } from './removal.service.js';
import { RoomService } from './room.service.js';
import { SettingsController } from './settings.controller.js';
import { SettingsService } from './settings.service.js';

@Module({
  imports: [StudiosModule, AccountsModule, TravelModule, OutsideModule],
  controllers: [SettingsController, CalculatorWeb],
  providers: [
    RoomService,
    ClosuresService,
    SettingsService,
    RederiveService,
    RemovalService,
    HoldingService,
    ElsewhereService,
  ],
  exports: [RoomService, SettingsService, RederiveService, RemovalService, HoldingService, ElsewhereService],
})
export class RoomModule {}
