// The public journey calculator: works from its address alone, so a result can be kept and sent.
import { Controller, Get, Param, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Temporal } from 'temporal-polyfill';
import { Visits } from '../accounts/visits.service.js';
import { wallToInstant } from '../lib/zoned-time.js';
import { readDateField } from '../platform/html/kit/date-field.js';
import { page } from '../platform/http.js';
import { AppError, type FieldProblem } from '../platform/problems.js';
import type { Studio } from '../studios/studios.schemas.js';
import { journeyOf, travelOf } from './journey.calc.js';
import { type FormAnswers, readPlan, readTime, textOf } from './journey-form.calc.js';
import { JourneyPage, type JourneyPageProps } from './journey.pages.js';
import { Spots } from './spots.service.js';

/** Nobody knows yet how long; the longest usual sitting. Assumption. */
const VISIT_HOURS = 2;

type When = { start: Temporal.PlainDateTime | null; at: Temporal.Instant | null; problems: FieldProblem[] };

@Controller('s/:slug/journey')
export class JourneyWeb {
  constructor(
    private readonly visits: Visits,
    private readonly spots: Spots,
  ) {}

  @Get()
  async calculator(
    @Param('slug') slug: string,
    @Query() { lang: _, ...sent }: FormAnswers,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<string> {
    const { studio, spoken } = await this.visits.guest(slug, request, reply);
    if (Object.keys(sent).length === 0)
      return page(reply, JourneyPage({ studio, answers: {}, errors: [], places: [], found: null, spoken }));
    const props = { ...this.reckon(studio, sent), spoken };
    return page(reply, JourneyPage(props), props.errors.length > 0 ? new AppError('bad_input').status : 200);
  }

  private reckon(studio: Studio, sent: FormAnswers): Omit<JourneyPageProps, 'spoken'> {
    const typed = { place: textOf(sent.place), placeId: textOf(sent.placeId), zone: textOf(sent.zone) };
    const from = this.spots.find(typed);
    const when = readWhen(sent, studio.zone);
    const { plan, problems } = readPlan(sent);
    const errors = [...(from.ok ? [] : from.problems), ...when.problems, ...problems];
    const props = { studio, answers: sent, errors, places: from.ok ? [] : from.places };
    if (!from.ok || errors.length > 0) return { ...props, found: null };
    const { spot: home } = from;
    const travel =
      when.at === null
        ? travelOf(home, studio, plan)
        : journeyOf(home, studio, { startsAt: when.at, endsAt: when.at.add({ hours: VISIT_HOURS }) }, plan);
    return { ...props, found: { home, travel, start: when.start } };
  }
}

/** Day and hour are given both or neither. */
function readWhen(sent: FormAnswers, zone: string): When {
  const refuse = (field: string, message: string): When => ({
    start: null,
    at: null,
    problems: [{ field, message }],
  });
  const [date, time] = [readDateField(sent, 'date'), textOf(sent.time)];
  if (date === '' && time === '') return { start: null, at: null, problems: [] };
  if (date === '') return refuse('date', 'Please give the day as well.');
  let day: Temporal.PlainDate;
  try {
    if (!/^(19[7-9]\d|20\d\d)-\d{2}-\d{2}$/.test(date)) throw new RangeError();
    day = Temporal.PlainDate.from(date, { overflow: 'reject' });
  } catch {
    return refuse('date', 'Please give a date that the calendar has, with day, month and year.');
  }
  if (time === '') return refuse('time', 'Please give the time as well.');
  const hour = readTime(time);
  if (!hour) return refuse('time', 'Please give a time of day, such as 10:00.');
  const start = day.toPlainDateTime(hour);
  const answer = wallToInstant(zone, start, 'earlier');
  return answer.ok
    ? { start, at: answer.instant, problems: [] }
    : refuse('time', 'Clocks at the studio skip this hour that day.');
}
