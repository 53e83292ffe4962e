import { Module } from '@nestjs/common';
import { WaitingService } from './waiting.service.js';

@Module({ providers: [WaitingService], exports: [WaitingService] })
export class WaitingModule {}
