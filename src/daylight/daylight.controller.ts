// The light of a day at any place, for programs; the page for people is room/calculator.
import { Controller, Get, Query } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { z } from 'zod';
import { withOffset } from '../lib/zoned-time.js';
import { readInput } from '../platform/input.js';
import { Describe } from '../platform/openapi.js';
import { type DayOfLight, dayOfLight } from './day.calc.js';
import { daylightAnswer, type DaylightQuery, daylightQuery } from './daylight.schemas.js';
import { skyCoefficientsConfirmed, WEATHERS } from './exposure.calc.js';
import { RECKONING } from './words.calc.js';

type Answer = z.output<typeof daylightAnswer>;

@Controller('api/v1/daylight')
export class DaylightController {
  @Describe({
    summary: 'Sunrise, sunset, light window, and the exposure of a plate through a day at a place',
    query: daylightQuery,
    answer: daylightAnswer,
    problems: ['bad_input'],
  })
  @Get()
  daylight(@Query() sent: Record<string, unknown>): Answer {
    const asked = readInput(daylightQuery, sent);
    const studio = {
      windowKind: asked.window,
      referenceSeconds: asked.referenceSeconds,
      referenceAltitudeDegrees: asked.referenceAltitude,
    };
    const assumed = !(sent.referenceSeconds && sent.referenceAltitude);
    return toAnswer(asked, assumed, dayOfLight(asked, asked.date, asked.floor, studio));
  }
}

function toAnswer(asked: DaylightQuery, assumed: boolean, { times, window, moments }: DayOfLight): Answer {
  const { lat, lon, zone, date, floor } = asked;
  const written = (at: Temporal.Instant) => withOffset(zone, at);
  return {
    lat,
    lon,
    zone,
    date: date.toString(),
    sunrise: times.sunrise && written(times.sunrise),
    solarNoon: written(times.solarNoon),
    noonAltitude: rounded(times.noonAltitude, 3),
    sunset: times.sunset && written(times.sunset),
    state: times.state,
    floor,
    lightWindow: window && { start: written(window.start), end: written(window.end) },
    window: asked.window,
    reference: { seconds: asked.referenceSeconds, altitude: asked.referenceAltitude, assumed },
    halfHours: moments.map(({ at, altitude, azimuth, exposure }) => ({
      at: written(at),
      altitude: rounded(altitude, 3),
      azimuth: rounded(azimuth, 2),
      exposure:
        exposure &&
        Object.fromEntries(
          WEATHERS.map((weather) => {
            const { from, to } = exposure[weather];
            return [weather, { from: rounded(from, 2), to: rounded(to, 2) }];
          }),
        ),
    })),
    skyCoefficientsConfirmed,
    notes: [...RECKONING],
  };
}

const rounded = (value: number, places: number) => Math.round(value * 10 ** places) / 10 ** places;
