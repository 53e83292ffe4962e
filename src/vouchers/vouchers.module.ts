import { Module } from '@nestjs/common';
import { RoomModule } from '../room/room.module.js';
import { SittingsModule } from '../sittings/sittings.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { VouchersService } from './vouchers.service.js';

@Module({
  imports: [StudiosModule, RoomModule, SittingsModule],
  providers: [VouchersService],
  exports: [VouchersService],
})
export class VouchersModule {}
