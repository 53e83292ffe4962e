// The gazetteer, opened once, and what is reckoned of journeys.
import { join } from 'node:path';
import { Module } from '@nestjs/common';
import { packageRoot } from '../platform/package-root.js';
import { AccountsModule } from '../accounts/accounts.module.js';
import { StudiosModule } from '../studios/studios.module.js';
import { EstimateController } from './estimate.controller.js';
import { Gazetteer, openGazetteer } from './gazetteer.service.js';
import { JourneyWeb } from './journey.web.js';
import { Spots } from './spots.service.js';
import { TravelController } from './travel.controller.js';

@Module({
  imports: [AccountsModule, StudiosModule],
  controllers: [TravelController, EstimateController, JourneyWeb],
  providers: [
    { provide: Gazetteer, useFactory: () => openGazetteer(join(packageRoot, 'dist/places.bin')) },
    Spots,
  ],
  exports: [Gazetteer, Spots],
})
export class TravelModule {}
