// The JSON door of a teaching day's turns: reading them, and telling on the day who is late, has left, or is done.
import { Body, Controller, Get, Headers, HttpCode, Param, ParseUUIDPipe, Post, Req } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { Visits } from '../accounts/visits.service.js';
import { withOffset } from '../lib/zoned-time.js';
import { readKey } from '../platform/idempotency.js';
import { readInput } from '../platform/input.js';
import { Describe } from '../platform/openapi.js';
import { AppError } from '../platform/problems.js';
import { timetableOf } from './rota-timetable.calc.js';
import { lateBody, plateBody, skipBody, type Telling } from './turns.schemas.js';
import { TurnsService, type TurnsView } from './turns.service.js';
import { readPlate } from './turns-words.calc.js';

const uuid = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This teaching day is not known here.'),
});

const line = z.object({
  from: z.string(),
  until: z.string(),
  doing: z.enum(['plate', 'step', 'sit', 'varnish', 'break']),
  step: z.string().nullable(),
  round: z.int().nullable(),
  withStudentId: z.string().nullable(),
});
const turnsAnswer = z.object({
  kept: z.boolean(),
  /** Kept for other people, or another bench, than the day has now. */
  stale: z.boolean(),
  /** Why there are none; null where there are. */
  none: z.string().nullable(),
  fits: z.boolean(),
  endsAt: z.string().nullable(),
  /** No order of turns ends before; null where that is not known. */
  atBestAt: z.string().nullable(),
  students: z.array(z.object({ studentId: z.string(), name: z.string(), lines: z.array(line) })),
  withoutATurn: z.array(z.object({ studentId: z.string(), round: z.int() })),
});
const PROBLEMS = ['not_found', 'wrong_state', 'busy'] as const;

@Controller('api/v1/s/:slug/teaching/:id/turns')
export class TurnsController {
  constructor(
    private readonly visits: Visits,
    private readonly turns: TurnsService,
  ) {}

  @Describe({
    summary: 'The turns of a teaching day: those kept, or those that would be laid now',
    staff: true,
    answer: turnsAnswer,
    problems: ['not_found'],
  })
  @Get()
  async readTurns(
    @Param('slug') slug: string,
    @Param('id', uuid) id: string,
    @Req() request: FastifyRequest,
  ) {
    const { studioId } = await this.visits.apiStaff(slug, request);
    return toAnswer(await this.turns.view(studioId, id));
  }

  @Describe({
    summary: 'Tell that a student is late by some minutes; the rest of the day is planned anew',
    staff: true,
    body: lateBody,
    status: 204,
    keyed: 'honoured',
    problems: [...PROBLEMS],
  })
  @HttpCode(204)
  @Post('late')
  async tellLate(
    @Param('slug') slug: string,
    @Param('id', uuid) id: string,
    @Headers('idempotency-key') key: string | undefined,
    @Body() body: unknown,
    @Req() request: FastifyRequest,
  ): Promise<void> {
    await this.tell(slug, id, key, request, () => ({ what: 'late', ...readInput(lateBody, body) }));
  }

  @Describe({
    summary: 'Tell that a plate is skipped, or without one that a student has left',
    staff: true,
    body: skipBody,
    status: 204,
    keyed: 'honoured',
    problems: [...PROBLEMS],
  })
  @HttpCode(204)
  @Post('skip')
  async tellSkip(
    @Param('slug') slug: string,
    @Param('id', uuid) id: string,
    @Headers('idempotency-key') key: string | undefined,
    @Body() body: unknown,
    @Req() request: FastifyRequest,
  ): Promise<void> {
    await this.tell(slug, id, key, request, () => ({ what: 'skip', ...readInput(skipBody, body) }));
  }

  @Describe({
    summary: 'Tell that a plate is made after all, or without one that a student is here after all',
    staff: true,
    body: skipBody,
    status: 204,
    keyed: 'honoured',
    problems: [...PROBLEMS],
  })
  @HttpCode(204)
  @Post('again')
  async tellAgain(
    @Param('slug') slug: string,
    @Param('id', uuid) id: string,
    @Headers('idempotency-key') key: string | undefined,
    @Body() body: unknown,
    @Req() request: FastifyRequest,
  ): Promise<void> {
    await this.tell(slug, id, key, request, () => ({ what: 'again', ...readInput(skipBody, body) }));
  }

  @Describe({
    summary: 'Tell that a plate is done; what it held is free',
    staff: true,
    body: plateBody,
    status: 204,
    keyed: 'honoured',
    problems: [...PROBLEMS],
  })
  @HttpCode(204)
  @Post('done')
  async tellDone(
    @Param('slug') slug: string,
    @Param('id', uuid) id: string,
    @Headers('idempotency-key') key: string | undefined,
    @Body() body: unknown,
    @Req() request: FastifyRequest,
  ): Promise<void> {
    await this.tell(slug, id, key, request, () => ({ what: 'done', ...readInput(plateBody, body) }));
  }

  private async tell(
    slug: string,
    id: string,
    key: string | undefined,
    request: FastifyRequest,
    read: () => Telling,
  ): Promise<void> {
    const { studioId, account } = await this.visits.apiStaff(slug, request);
    await this.turns.tell(studioId, account, id, read(), readKey(key));
  }
}

function toAnswer(view: TurnsView): z.output<typeof turnsAnswer> {
  const { shown, no, day, names } = view;
  const { startsAt, zone } = day.place;
  /** Seconds of a bench run on from the beginning of the day. */
  const at = (seconds: number): string =>
    withOffset(zone, startsAt.add({ seconds: Math.round(seconds - (shown?.bench.day.from ?? 0)) }));
  const base = { kept: view.kept !== null, stale: view.stale, none: no?.reason ?? null };
  if (!shown) return { ...base, fits: false, endsAt: null, atBestAt: null, students: [], withoutATurn: [] };
  const { bench, rota } = shown;
  return {
    ...base,
    fits: rota.fits,
    endsAt: at(rota.end),
    atBestAt: rota.bound === null ? null : at(rota.bound),
    students: bench.students.map(({ id }) => ({
      studentId: id,
      name: names.get(id) ?? '',
      lines: timetableOf(bench, rota, id).map((one) => ({
        from: at(one.from),
        until: at(one.until),
        doing: one.doing,
        step: one.step,
        round: one.round,
        withStudentId: one.with,
      })),
    })),
    withoutATurn: rota.unplaced.map((one) => {
      const { student, round } = readPlate(one);
      return { studentId: student, round };
    }),
  };
}
