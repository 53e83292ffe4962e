// The doors of "they come later": what is open, and taking one of it in the stead of the place they have.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Temporal } from 'temporal-polyfill';
import { Visits } from '../accounts/visits.service.js';
import { timeInWords } from '../lib/words.js';
import { readDay } from '../platform/day-in-path.js';
import { page, seeOther } from '../platform/http.js';
import { readInput } from '../platform/input.js';
import { AppError, type FieldProblem, TOLD_BESIDE } from '../platform/problems.js';
import { refuseChanged } from '../platform/seen.js';
import { DelaysService } from '../sittings/delays.service.js';
import { EndingsService } from '../sittings/endings.service.js';
import { hourAnswers, LaterPage } from './day-later.pages.js';
import { approveForm } from './desk.schemas.js';
import { shortDay } from './words.calc.js';

const sittingId = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This sitting is not known here.'),
});
const STAFF = ['owner', 'assistant'] as const;
/** Refusals that are answered with what is open now. */
const SHOWN_AGAIN = ['place_taken', 'not_an_opening', 'short_of_stock'];

@Controller('s/:slug/desk/days/:date/:id/later')
export class DayLaterWeb {
  constructor(
    private readonly visits: Visits,
    private readonly delays: DelaysService,
    private readonly endings: EndingsService,
  ) {}

  @Get()
  async form(
    @Param('slug') slug: string,
    @Param('date') date: string,
    @Param('id', sittingId) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, [...STAFF]);
    const day = dayOf(slug, date);
    return page(reply, LaterPage({ visit, day, later: await this.delays.placesFor(visit.studio.id, id) }));
  }

  @Post()
  async delay(
    @Param('slug') slug: string,
    @Param('date') date: string,
    @Param('id', sittingId) id: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, [...STAFF]);
    const day = dayOf(slug, date);
    const values = body ?? {};
    try {
      const { start } = readInput(approveForm, values);
      await this.endings.delay(visit.studio.id, visit.account, id, start, (stands) =>
        refuseChanged(values, hourAnswers(stands), inWords(stands)),
      );
      const there = `/s/${slug}/desk/days/${start.toPlainDate()}`;
      return seeOther(reply, `${there}?done=later#sitting-${id}`);
    } catch (error) {
      const errors = answerable(error);
      if (!errors) throw error;
      const later = await this.delays.placesFor(visit.studio.id, id);
      const status = error instanceof AppError && error.code === 'changed_meanwhile' ? error.status : 422;
      return page(reply, LaterPage({ visit, day, later, values, errors }), status);
    }
  }
}

function answerable(error: unknown): FieldProblem[] | null {
  if (!(error instanceof AppError)) return null;
  if (TOLD_BESIDE.includes(error.code)) return error.fields;
  return SHOWN_AGAIN.includes(error.code) ? [{ field: 'start', message: error.detail }] : null;
}

const inWords = (wall: Temporal.PlainDateTime | undefined): Record<string, string> =>
  wall ? { [hourAnswers(wall).start ?? '']: `${shortDay(wall)}, ${timeInWords(wall)}` } : {};

const dayOf = (slug: string, date: string) => `/s/${slug}/desk/days/${readDay(date)}`;
