// The jobs of offers: letting lapse what has run out, and passing on what came free.
import { Injectable, type OnModuleInit } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { Jobs } from '../platform/jobs/registry.js';
import { OffersService } from './offers.service.js';

@Injectable()
export class OffersJobs implements OnModuleInit {
  constructor(
    private readonly jobs: Jobs,
    private readonly offers: OffersService,
  ) {}

  onModuleInit(): void {
    this.jobs.handle('offer.lapsed', ({ studioId, offerId }) => this.offers.lapse(studioId, offerId));
    this.jobs.handle('place.freed', ({ studioId, wallStart }) =>
      this.offers.passOn(studioId, Temporal.PlainDateTime.from(wallStart)),
    );
  }
}
