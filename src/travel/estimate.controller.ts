// A journey reckoned for programs; the page for people is journey.web.ts.
import { Body, Controller, HttpCode, Post } from '@nestjs/common';
import type { z } from 'zod';
import { wallToInstant, withOffset } from '../lib/zoned-time.js';
import { readInput } from '../platform/input.js';
import { Describe } from '../platform/openapi.js';
import { AppError } from '../platform/problems.js';
import { StudiosService } from '../studios/studios.service.js';
import { ESTIMATE_EXAMPLES, estimateAnswer, estimateBody } from './estimate.schemas.js';
import { type Journey, journeyOf, type Travel, travelOf } from './journey.calc.js';
import { type NamedSpot, Spots } from './spots.service.js';
import { crossingInWords, JOURNEY_RECKONING, leaveByInWords, nightInWords } from './words.calc.js';

type Asked = z.output<typeof estimateBody>;
type Answer = z.output<typeof estimateAnswer>;

@Controller('api/v1/travel')
export class EstimateController {
  constructor(
    private readonly spots: Spots,
    private readonly studios: StudiosService,
  ) {}

  @Describe({
    summary: 'How to travel, how long from door to door, a night’s stay, and by when to leave',
    body: estimateBody,
    examples: ESTIMATE_EXAMPLES,
    answer: estimateAnswer,
    status: 200,
    problems: ['unknown_studio'],
  })
  @Post('estimate')
  @HttpCode(200)
  async estimateJourney(@Body() sent: unknown): Promise<Answer> {
    const asked = readInput(estimateBody, sent);
    const from = this.spot('from', asked.from);
    const to = asked.to.studio === undefined ? this.spot('to', asked.to) : await this.studio(asked.to.studio);
    const journey =
      asked.startsAt === undefined ? null : journeyOf(from, to, visitOf(asked, to.zone), asked.plan);
    return toAnswer(from, to, journey ?? travelOf(from, to, asked.plan), journey);
  }

  private async studio(slug: string): Promise<NamedSpot> {
    const { name, lat, lon, zone } = await this.studios.at(slug);
    return { name, lat, lon, zone };
  }

  private spot(which: 'from' | 'to', said: Asked['from']): NamedSpot {
    const refuse = (field: string, message: string): never => {
      throw new AppError('bad_input', undefined, [{ field: `${which}/${field}`, message }]);
    };
    const { lat, lon, place = '', placeId, zone = '' } = said;
    if (lat !== undefined && lon !== undefined) {
      const near = this.spots.at({ lat, lon });
      if (zone !== '') return { lat, lon, name: near?.name ?? `${lat}°, ${lon}°`, zone };
      return near ?? refuse('zone', 'No town is near this point; please give its time zone.');
    }
    const found = this.spots.find({ place, placeId: placeId === undefined ? '' : String(placeId), zone });
    if (found.ok) return found.spot;
    const [problem] = found.problems;
    if (found.places.length > 0)
      return refuse('placeId', 'Several places are called so: GET /api/v1/places has their ids.');
    return refuse(problem?.field ?? 'place', problem?.message ?? 'Please check this answer.');
  }
}

function visitOf({ startsAt, lastsMinutes }: Asked, zone: string) {
  const answer = startsAt && wallToInstant(zone, startsAt, 'earlier');
  if (!answer?.ok)
    throw new AppError('bad_input', undefined, [
      { field: 'startsAt', message: 'Clocks skip this hour there that day.' },
    ]);
  return { startsAt: answer.instant, endsAt: answer.instant.add({ minutes: lastsMinutes }) };
}

function toAnswer(from: NamedSpot, to: NamedSpot, way: Travel, journey: Journey | null): Answer {
  const { kind, railKm } = way.crossing;
  return {
    from,
    to,
    straightKm: Math.round(way.km * 10) / 10,
    crossing: { kind, byRail: railKm !== null, words: crossingInWords(way.crossing) },
    ways: way.ways,
    mode: way.mode,
    minutes: way.minutes,
    own: (['mode', 'minutes', 'night', 'margin'] as const).filter((one) => way.own[one]),
    night: { before: way.night, words: nightInWords(way) },
    bookDaysBefore: way.bookDaysBefore,
    day: journey && {
      leaveBy: withOffset(from.zone, journey.leaveBy),
      leaveByInWords: leaveByInWords(journey),
      thereBy: withOffset(to.zone, journey.thereBy),
      atStudioBy: withOffset(to.zone, journey.atStudioBy),
      homeBy: withOffset(from.zone, journey.homeBy),
      nightsOnTheWay: journey.nightsOnTheWay,
      nightAfter: journey.nightAfter,
      hoursOutAndBack: Math.round(journey.dayHours * 100) / 100,
      clockDifferenceMinutes: journey.clockDifference,
    },
    notes: [...JOURNEY_RECKONING],
  };
}
