import { Module } from '@nestjs/common';
import { ActualsService } from './actuals.service.js';

@Module({ providers: [ActualsService], exports: [ActualsService] })
export class ChemistryModule {}
