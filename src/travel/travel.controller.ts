// Looking a place up by name, for type-ahead and for programs. Once pages are answered the list is read
// beforehand, so that nobody waits for it.
import { Controller, Get, Logger, Query } from '@nestjs/common';
import { HttpAdapterHost } from '@nestjs/core';
import type { FastifyAdapter } from '@nestjs/platform-fastify';
import { z } from 'zod';
import { readInput } from '../platform/input.js';
import { Describe } from '../platform/openapi.js';
import { Gazetteer } from './gazetteer.service.js';
import { placeLabel } from './place-label.calc.js';

const MOST = 8;
const query = z.object({ q: z.string().trim().max(100, 'A place has at most 100 characters.').default('') });
const answer = z.object({ places: z.array(z.object({ id: z.int(), label: z.string(), zone: z.string() })) });

@Controller('api/v1/places')
export class TravelController {
  constructor(
    private readonly gazetteer: Gazetteer,
    host: HttpAdapterHost<FastifyAdapter>,
  ) {
    const pages = host.httpAdapter as FastifyAdapter | undefined; // none in a worker
    pages?.getInstance().addHook('onListen', (done) => {
      gazetteer.warm().catch((error: Error) => new Logger('Places').warn(error.message));
      done(); // the first page does not wait for it
    });
  }

  @Describe({ summary: 'Places by the beginning of their name (GeoNames, CC BY 4.0)', query, answer })
  @Get()
  search(@Query() asked: unknown): z.output<typeof answer> {
    const { q } = readInput(query, asked);
    if (q === '') return { places: [] };
    return {
      places: this.gazetteer
        .search(q, MOST)
        .map((place) => ({ id: place.id, label: placeLabel(place), zone: place.zone })),
    };
  }
}
