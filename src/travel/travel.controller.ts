// Looking a place up by name, for type-ahead and for programs.
import { Controller, Get, Query } from '@nestjs/common';
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
  constructor(private readonly gazetteer: Gazetteer) {}

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
