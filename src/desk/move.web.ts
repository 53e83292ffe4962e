// The doors of moving days: the form, the preview with proposals, and carrying out what was chosen for each.
import { Body, Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../accounts/visits.service.js';
import { readDateField } from '../platform/html/kit/date-field.js';
import { page } from '../platform/http.js';
import { readInput } from '../platform/input.js';
import { AppError, type FieldProblem } from '../platform/problems.js';
import { MoveCheckService } from '../sittings/move-check.service.js';
import { MoveProposalsService } from '../sittings/move-proposals.service.js';
import { daysToMove, type MoveChoice, moveChoice, whyMoved } from '../sittings/moving.schemas.js';
import { MovingService } from '../sittings/moving.service.js';
import { SittingViews } from '../sittings/views.service.js';
import { TeachingMoving } from '../teaching/moving-days.service.js';
import { InboxService } from './inbox.service.js';
import { teachingChosen } from './teaching/move-form.calc.js';
import { MovedPage, MovePage, MovePreviewPage } from './move.pages.js';

type Sent = Record<string, unknown>;

@Controller('s/:slug/desk/move')
export class MoveWeb {
  constructor(
    private readonly visits: Visits,
    private readonly moving: MovingService,
    private readonly proposals: MoveProposalsService,
    private readonly check: MoveCheckService,
    private readonly teaching: TeachingMoving,
    private readonly inbox: InboxService,
    private readonly views: SittingViews,
  ) {}

  /** `from` and `reason` in the address fill in the first day and why, for links from a sitting or a day. */
  @Get()
  async form(
    @Param('slug') slug: string,
    @Query('from') from: unknown,
    @Query('reason') reason: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const [, year, month, day] = (typeof from === 'string' && /^(\d{4})-(\d\d)-(\d\d)$/.exec(from)) || [];
    const date = day ? { 'from-day': Number(day), 'from-month': Number(month), 'from-year': year } : {};
    const values = { ...date, ...(typeof reason === 'string' && { reason }) };
    const toMove = await this.inbox.allToMove(visit.studio.id);
    return page(reply, MovePage({ visit, values, toMove }));
  }

  @Post('preview')
  async preview(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const sent = body ?? {};
    return this.orAgain(
      () => this.showPreview(visit, sent, reply),
      (errors) => page(reply, MovePage({ visit, values: sent, errors }), 422),
    );
  }

  /** Back to the form, with everything that was typed. */
  @Post('again')
  async again(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return page(reply, MovePage({ visit, values: body ?? {} }));
  }

  @Post('confirm')
  async confirm(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const sent = body ?? {};
    return this.orAgain(
      async () => {
        const why = readInput(whyMoved, sent);
        const { choices, typed } = choicesOf(sent);
        const learning = teachingChosen(sent);
        if (learning.errors.length > 0) throw new AppError('bad_input', undefined, learning.errors);
        const wrong = await this.check.problems(visit.studio.id, choices, typed);
        if (wrong.length > 0)
          throw new AppError(
            'bad_input',
            undefined,
            wrong.map(({ sittingId, message }) => ({ field: `other-${sittingId}`, message })),
          );
        const done = await this.moving.carryOut(visit.studio.id, visit.account, why, choices);
        const { id } = visit.studio;
        const calledOff = await this.teaching.callOff(id, visit.account, why.words, learning.chosen);
        const ids = done.map((one) => one.sittingId);
        const views = await this.views.some(visit.studio.id, ids);
        const names = new Map(views.map(({ sitting, contact }) => [sitting.id, contact.name]));
        const outcomes = done.map((one) => ({ ...one, name: names.get(one.sittingId) ?? 'Somebody' }));
        return page(reply, MovedPage({ visit, outcomes, calledOff }));
      },
      (errors) => this.showPreview(visit, sent, reply, errors),
    );
  }

  /** What would happen; with `errors` once more, with what was chosen. */
  private async showPreview(
    visit: StaffVisit,
    sent: Sent,
    reply: FastifyReply,
    errors: FieldProblem[] = [],
  ): Promise<string> {
    const days = readInput(daysToMove, datesOf(sent));
    readInput(whyMoved, sent);
    const ids = await this.moving.standing(visit.studio.id, days);
    const proposals = await this.proposals.propose(visit.studio.id, ids, days);
    const teaching = await this.teaching.standing(visit.studio.id, days);
    const props = { visit, days, proposals, teaching, fields: fieldsOf(sent), values: sent, errors };
    return page(reply, MovePreviewPage(props), errors.length > 0 ? 422 : 200);
  }

  private async orAgain(
    act: () => Promise<string>,
    again: (errors: FieldProblem[]) => string | Promise<string>,
  ): Promise<string> {
    try {
      return await act();
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'bad_input') throw error;
      return again(error.fields);
    }
  }
}

const datesOf = (sent: Sent) => ({
  from: readDateField(sent, 'from'),
  until: readDateField(sent, 'until'),
});

/** What the form of the days sent, without what belongs to this one sending. */
function fieldsOf(sent: Sent): Record<string, string> {
  const own = /^(from|until)-(day|month|year)$|^(reason|words)$/;
  return Object.fromEntries(
    Object.entries(sent).filter(
      (one): one is [string, string] => own.test(one[0]) && typeof one[1] === 'string',
    ),
  );
}

/**
 * One choice per sitting, in the order of the page, and for whom another start was typed.
 * @throws AppError bad_input with every mistake, at the fields as the page names them
 */
function choicesOf(sent: Sent): { choices: MoveChoice[]; typed: Set<string> } {
  const errors: FieldProblem[] = [];
  const typed = new Set<string>();
  const choices = Object.entries(sent).flatMap(([name, value]) => {
    const sittingId = /^do-([0-9a-f-]{36})$/.exec(name)?.[1];
    if (sittingId === undefined) return [];
    const start = typedStart(sent, sittingId);
    const other = value === 'other';
    if (!other && start.sent)
      errors.push({ field: name, message: 'You typed another start: choose it here, or leave it empty.' });
    if (other && start.error) errors.push(start.error);
    if ((other && start.error) || (!other && start.sent)) return [];
    if (other) typed.add(sittingId);
    const to = other
      ? start.to
      : typeof value === 'string' && value.startsWith('to ')
        ? value.slice(3)
        : null;
    try {
      const act = to === null ? value : { to };
      return [readInput(moveChoice, { sittingId, from: sent[`from-${sittingId}`], act })];
    } catch (error) {
      if (!(error instanceof AppError)) throw error;
      errors.push(...error.fields.map(({ message }) => ({ field: name, message })));
      return [];
    }
  });
  if (errors.length > 0) throw new AppError('bad_input', undefined, errors);
  return { choices, typed };
}

/** The start typed for a sitting as "2027-05-14T11:15", or what is wrong with it. */
function typedStart(sent: Sent, sittingId: string) {
  const [date, clock] = [`other-${sittingId}`, `time-${sittingId}`];
  const day = readDateField(sent, date);
  const time = typeof sent[clock] === 'string' ? sent[clock].trim() : '';
  const wrong = (field: string, message: string) => ({ sent: true, to: '', error: { field, message } });
  const [, hour = '', minute = ''] = /^(\d{1,2})[:.](\d\d)$/.exec(time) ?? [];
  if (!/^\d{4}-\d\d-\d\d$/.test(day))
    return {
      ...wrong(date, 'Please give a date with day, month and year.'),
      sent: day !== '' || time !== '',
    };
  if (hour === '' || Number(hour) > 23 || Number(minute) > 59)
    return wrong(clock, 'Please give a time like 11:15.');
  return { sent: true, to: `${day}T${hour.padStart(2, '0')}:${minute}`, error: null };
}
