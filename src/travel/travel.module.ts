// The gazetteer, opened once.
import { join } from 'node:path';
import { Module } from '@nestjs/common';
import { packageRoot } from '../platform/package-root.js';
import { Gazetteer, openGazetteer } from './gazetteer.service.js';
import { TravelController } from './travel.controller.js';

@Module({
  controllers: [TravelController],
  providers: [
    { provide: Gazetteer, useFactory: () => openGazetteer(join(packageRoot, 'dist/places.tsv.gz')) },
  ],
  exports: [Gazetteer],
})
export class TravelModule {}
