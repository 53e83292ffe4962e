import { Module } from '@nestjs/common';
import { SolverService } from './solver.service.js';
import { WaitingService } from './waiting.service.js';

@Module({ providers: [WaitingService, SolverService], exports: [WaitingService, SolverService] })
export class WaitingModule {}
