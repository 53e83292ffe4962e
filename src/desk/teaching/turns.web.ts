// The doors of a teaching day's turns and of its bench.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { page, seeOther } from '../../platform/http.js';
import { readInput } from '../../platform/input.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { refuseChanged } from '../../platform/seen.js';
import { BenchService } from '../../teaching/bench.service.js';
import { WEATHERS } from '../../teaching/bench.schemas.js';
import { WEATHER_WORDS } from '../../teaching/turns-words.calc.js';
import { lateBody, type Telling } from '../../teaching/turns.schemas.js';
import { TurnsService } from '../../teaching/turns.service.js';
import { readPlate } from '../../teaching/turns-words.calc.js';
import { BenchPage } from './bench.pages.js';
import { benchFields, toBench, toStations } from './bench-form.calc.js';
import { namesIn, TURNS_DONE, TurnsPage, type TurnsProps } from './turns.pages.js';
import { RedTurnsPage } from './turns-red.pages.js';

type Sent = Record<string, unknown>;

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This is not known here.'),
});
const weatherIn = z.enum(WEATHERS).optional().catch(undefined);
const STAFF = ['owner', 'assistant'] as const;
const text = (value: unknown): string => (typeof value === 'string' ? value : '');
const plateForm = z.object({
  plate: z.string().regex(/^[0-9a-f-]{36} \d{1,3}$/, 'Please choose a plate.'),
  what: z.enum(['done', 'skip'], 'Please say what became of it.'),
});
const againForm = z.object({
  again: z.string().regex(/^[0-9a-f-]{36}( \d{1,3})?$/, 'Please choose who is here, or which plate is made.'),
});
const leftForm = z.object({ leaverId: z.uuid('Please choose a student.') });

@Controller('s/:slug/desk/teaching/:id')
export class TurnsWeb {
  constructor(
    private readonly visits: Visits,
    private readonly turns: TurnsService,
    private readonly benches: BenchService,
  ) {}

  @Get('turns')
  async show(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Query() query: Sent,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, [...STAFF]);
    const weather = weatherIn.parse(query.weather);
    return this.showTurns(visit, sessionId, reply, { weather, notice: TURNS_DONE.get(query.done) });
  }

  @Get('turns/red')
  async red(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, [...STAFF]);
    const found = await this.turns.kept(visit.studio.id, sessionId);
    if (!found) throw new AppError('not_found', 'No turns are kept for this day yet.');
    return page(reply, RedTurnsPage({ visit, view: found, nameOf: namesIn(found) }));
  }

  @Post('turns/keep')
  async keep(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply);
    const weather = weatherIn.parse(body?.weather);
    const [studioId, who] = [visit.studio.id, visit.account];
    return this.orAgain(visit, sessionId, 'keep', body ?? {}, reply, async () => {
      if (await this.turns.keep(studioId, who, sessionId, weather, text(body?.basis))) return 'kept';
      throw new AppError('wrong_state', 'Something went on meanwhile; this is how it stands now.');
    });
  }

  @Post('turns/late')
  async late(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.tell(slug, sessionId, 'late', body ?? {}, request, reply, () => {
      const minutes = text(body?.minutes) === '' ? undefined : body?.minutes;
      return { what: 'late', ...readInput(lateBody, { ...body, minutes }) };
    });
  }

  @Post('turns/plate')
  async plate(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.tell(slug, sessionId, 'plate', body ?? {}, request, reply, () => {
      const { plate, what } = readInput(plateForm, body ?? {});
      const { student, round } = readPlate(plate);
      return { what, studentId: student, round };
    });
  }

  @Post('turns/left')
  async left(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.tell(slug, sessionId, 'left', body ?? {}, request, reply, () => ({
      what: 'skip',
      studentId: readInput(leftForm, body ?? {}).leaverId,
    }));
  }

  @Post('turns/again')
  async again(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.tell(slug, sessionId, 'again', body ?? {}, request, reply, () => {
      const [studentId = '', round] = readInput(againForm, body ?? {}).again.split(' ');
      return { what: 'again', studentId, ...(round !== undefined && { round: Number(round) }) };
    });
  }

  @Get('bench')
  async bench(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply);
    const day = await this.turns.day(visit.studio.id, sessionId);
    return page(reply, BenchPage({ visit, day, values: benchFields(day.session.course) }));
  }

  @Post('bench')
  async saveBench(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply);
    const values = body ?? {};
    const input = { stations: toStations(values), bench: toBench(values) };
    try {
      await this.benches.save(visit.studio.id, visit.account, sessionId, input, (course) =>
        refuseChanged(values, benchFields(course), WEATHER_WORDS),
      );
    } catch (error) {
      if (!(error instanceof AppError) || !TOLD_BESIDE.includes(error.code)) throw error;
      const day = await this.turns.day(visit.studio.id, sessionId);
      return page(reply, BenchPage({ visit, day, values, errors: error.fields }), error.status);
    }
    return seeOther(reply, `/s/${slug}/desk/teaching/${sessionId}/turns?done=bench`);
  }

  private async tell(
    slug: string,
    sessionId: string,
    form: string,
    values: Sent,
    request: FastifyRequest,
    reply: FastifyReply,
    read: () => Telling,
  ): Promise<string> {
    const visit = await this.visits.staff(slug, request, reply, [...STAFF]);
    return this.orAgain(visit, sessionId, form, values, reply, async () => {
      const telling = read();
      await this.turns.tell(visit.studio.id, visit.account, sessionId, telling);
      return telling.what;
    });
  }

  /** Acts, and goes back to the turns, bright or red; what is wrong is told on the bright page with what was sent. */
  private async orAgain(
    visit: StaffVisit,
    sessionId: string,
    form: string,
    values: Sent,
    reply: FastifyReply,
    act: () => Promise<string>,
  ): Promise<string> {
    const own = `/s/${visit.studio.slug}/desk/teaching/${sessionId}/turns`;
    try {
      const done = await act();
      return seeOther(reply, values.from === 'red' ? `${own}/red` : `${own}?done=${done}`);
    } catch (error) {
      if (!(error instanceof AppError) || !['bad_input', 'wrong_state', 'busy'].includes(error.code))
        throw error;
      const errors = error.fields.map((one) => (one.field === 'round' ? { ...one, field: 'plate' } : one));
      const told = errors.length > 0 ? undefined : ({ tone: 'bad', text: error.detail } as const);
      const shown = { notice: told, sent: { form, values, errors } };
      return this.showTurns(visit, sessionId, reply, shown, error.status);
    }
  }

  private async showTurns(
    visit: StaffVisit,
    sessionId: string,
    reply: FastifyReply,
    shown: Pick<TurnsProps, 'weather' | 'notice' | 'sent'>,
    status = 200,
  ): Promise<string> {
    const view = await this.turns.view(visit.studio.id, sessionId, shown.weather);
    return page(reply, TurnsPage({ visit, view, ...shown }), status);
  }
}
