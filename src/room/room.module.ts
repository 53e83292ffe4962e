import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { TravelModule } from '../travel/travel.module.js';
import { CalculatorWeb } from './calculator.web.js';
import { ClosuresService } from './closures.service.js';
import { RederiveService } from './rederive.service.js';
import { RemovalService } from './removal.service.js';
import { RoomService } from './room.service.js';
import { SettingsController } from './settings.controller.js';
import { SettingsService } from './settings.service.js';

@Module({
  imports: [StudiosModule, AccountsModule, TravelModule],
  controllers: [SettingsController, CalculatorWeb],
  providers: [RoomService, ClosuresService, SettingsService, RederiveService, RemovalService],
  exports: [RoomService, SettingsService, RederiveService, RemovalService],
})
export class RoomModule {}
