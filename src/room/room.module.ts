import { Module } from '@nestjs/common';
import { StudiosModule } from '../studios/studios.module.js';
import { RederiveService } from './rederive.service.js';
import { RoomService } from './room.service.js';

@Module({
  imports: [StudiosModule], providers: [RoomService, RederiveService], exports: [RoomService, RederiveService] })
export class RoomModule {}
