import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { RoomModule } from '../room/room.module.js';
import { SittingsModule } from '../sittings/sittings.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { FeedsService } from './feeds.service.js';
import { FeedsWeb } from './feeds.web.js';

@Module({
  imports: [StudiosModule, AccountsModule, RoomModule, SittingsModule],
  controllers: [FeedsWeb],
  providers: [FeedsService],
  exports: [FeedsService],
})
export class CalendarModule {}
