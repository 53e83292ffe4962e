import { Module } from '@nestjs/common';
import { RoomModule } from '../room/room.module.js';
import { SittingsModule } from '../sittings/sittings.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { OwedService } from './owed.service.js';

@Module({
  imports: [StudiosModule, RoomModule, SittingsModule],
  providers: [OwedService],
  exports: [OwedService],
})
export class PlatesModule {}
