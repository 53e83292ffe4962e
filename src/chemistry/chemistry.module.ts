import { Module } from '@nestjs/common';
import { ActualsService } from './actuals.service.js';
import { BathWeb } from './bath.web.js';
import { ChemistryController } from './chemistry.controller.js';
import { ChemistryWeb } from './chemistry.web.js';

@Module({
  controllers: [ChemistryController, ChemistryWeb, BathWeb],
  providers: [ActualsService],
  exports: [ActualsService],
})
export class ChemistryModule {}
