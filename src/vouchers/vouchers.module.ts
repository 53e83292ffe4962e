import { Global, Module } from '@nestjs/common';
import { RoomModule } from '../room/room.module.js';
import { SittingsModule } from '../sittings/sittings.module.js';
import { VoucherBook } from '../sittings/voucher-book.service.js';
import { StudiosModule } from '../studios/studios.module.js';
import { VouchersService } from './vouchers.service.js';

/** Global for `VoucherBook` only: sittings ask for it, and may not import what stands to their right. */
@Global()
@Module({
  imports: [StudiosModule, RoomModule, SittingsModule],
  providers: [VouchersService, { provide: VoucherBook, useExisting: VouchersService }],
  exports: [VouchersService, VoucherBook],
})
export class VouchersModule {}
