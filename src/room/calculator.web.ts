// The public daylight calculator: works from its address alone, so a result can be kept and sent. It stands
// here and not in daylight because it asks the gazetteer, which stands beside daylight.
import { Controller, Get, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { dayOfLight, USUAL_FLOOR, USUAL_REFERENCE } from '../daylight/day.calc.js';
import { daylightQuery } from '../daylight/daylight.schemas.js';
import { Clock } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import { readDateField } from '../platform/html/kit/date-field.js';
import type { Spoken } from '../platform/html/kit/spoken.js';
import { page } from '../platform/http.js';
import { fieldProblems } from '../platform/input.js';
import { spokenTo } from '../platform/language.js';
import { AppError, type FieldProblem } from '../platform/problems.js';
import { Gazetteer } from '../travel/gazetteer.service.js';
import type { Place } from '../travel/place.calc.js';
import { placeLabel } from '../travel/place-label.calc.js';
import type { Words } from '../words/words-for.js';
import { type CalculatorProps, CalculatorPage } from './calculator.pages.js';

const MOST_PLACES = 8;

type Answers = Record<string, unknown>;
type Spot = { lat: string; lon: string; zone: string; where: string };
type Where = { ok: true; spot: Spot } | { ok: false; problem: FieldProblem; places: Place[] };

@Controller('daylight')
export class CalculatorWeb {
  constructor(
    private readonly config: Config,
    private readonly clock: Clock,
    private readonly gazetteer: Gazetteer,
  ) {}

  @Get()
  calculator(
    @Query() { lang: _, ...sent }: Answers,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): string {
    const spoken = spokenTo(this.config, request, reply);
    if (Object.keys(sent).length === 0) {
      const answers = this.first(spoken.words);
      return page(reply, CalculatorPage({ answers, errors: [], places: [], found: null, spoken }));
    }
    const props = this.reckon(sent, spoken);
    const status = props.errors.length > 0 ? new AppError('bad_input').status : 200;
    return page(reply, CalculatorPage(props), status);
  }

  private first({ dates }: Words): Answers {
    const [year, month, day] = this.clock.now().toString().slice(0, 10).split('-');
    return {
      'date-year': year,
      'date-month': dates.month(Number(month)),
      'date-day': String(Number(day)),
      window: 'north window',
      floor: String(USUAL_FLOOR),
      referenceSeconds: String(USUAL_REFERENCE.seconds),
      referenceAltitude: String(USUAL_REFERENCE.altitude),
    };
  }

  private reckon(sent: Answers, spoken: Spoken): CalculatorProps {
    const answers = { ...this.first(spoken.words), ...withDateBoxes(sent, spoken.words) };
    const where = this.where(answers);
    const spot = where.ok ? where.spot : { lat: '0', lon: '0', zone: 'Etc/UTC', where: '' };
    const parsed = daylightQuery.safeParse({ ...answers, ...spot, date: readDateField(answers, 'date') });
    const errors = [
      ...(where.ok ? [] : [where.problem]),
      ...(parsed.success ? [] : fieldProblems(parsed.error)),
    ];
    const places = where.ok
      ? []
      : where.places.map((place) => ({ value: String(place.id), label: placeLabel(place) }));
    if (!where.ok || !parsed.success) return { answers, errors, places, found: null, spoken };
    const asked = parsed.data;
    const day = dayOfLight(asked, asked.date, asked.floor, {
      windowKind: asked.window,
      referenceSeconds: asked.referenceSeconds,
      referenceAltitudeDegrees: asked.referenceAltitude,
    });
    return { answers, errors, places, spoken, found: { asked, where: spot.where, day } };
  }

  /** Coordinates win when given; else the place chosen, or the only one of that name. */
  private where(answers: Answers): Where {
    const [lat, lon, zone, typed] = ['lat', 'lon', 'zone', 'place'].map((name) => textOf(answers[name]));
    if (lat || lon)
      return {
        ok: true,
        spot: { lat: lat ?? '', lon: lon ?? '', zone: zone ?? '', where: `${lat}°, ${lon}°` },
      };
    const refuse = (field: string, message: string, places: Place[] = []): Where => ({
      ok: false,
      problem: { field, message },
      places,
    });
    const id = [answers.placeId]
      .flat()
      .map(textOf)
      .find((one) => /^\d{1,9}$/.test(one));
    // an address kept by hand may have the id alone
    const { place, found } = typed
      ? this.gazetteer.meant(typed.slice(0, 100), id ? Number(id) : null, MOST_PLACES)
      : { place: id ? this.gazetteer.byId(Number(id)) : null, found: [] };
    if (place) return { ok: true, spot: spotOf(place) };
    if (!typed) return refuse('place', 'Please give a place, or its coordinates.');
    if (found.length === 0)
      return refuse('place', 'This place is not known here; please give the nearest town, or coordinates.');
    return refuse('placeId', 'Please choose which of these places it is.', found);
  }
}

function spotOf(place: Place): Spot {
  return { lat: String(place.lat), lon: String(place.lon), zone: place.zone, where: placeLabel(place) };
}

/** An address may carry the day as the form's three boxes or, kept by hand, as date=2027-05-14. */
function withDateBoxes(sent: Answers, { dates }: Words): Answers {
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(textOf(sent.date)) ?? [];
  return year
    ? { ...sent, 'date-year': year, 'date-month': dates.month(Number(month)), 'date-day': day }
    : sent;
}

const textOf = (answer: unknown): string => (typeof answer === 'string' ? answer.trim() : '');
