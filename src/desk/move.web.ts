// The doors of moving days: the form, the preview with proposals, and carrying out what was chosen for each.
import { Body, Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../accounts/visits.service.js';
import { readDateField } from '../platform/html/kit/date-field.js';
import { page } from '../platform/http.js';
import { readInput } from '../platform/input.js';
import { AppError, type FieldProblem } from '../platform/problems.js';
import { MoveProposalsService } from '../sittings/move-proposals.service.js';
import { daysToMove, type MoveChoice, moveChoice, whyMoved } from '../sittings/moving.schemas.js';
import { MovingService } from '../sittings/moving.service.js';
import { SittingViews } from '../sittings/views.service.js';
import { MovedPage, MovePage, MovePreviewPage } from './move.pages.js';

type Sent = Record<string, unknown>;

@Controller('s/:slug/desk/move')
export class MoveWeb {
  constructor(
    private readonly visits: Visits,
    private readonly moving: MovingService,
    private readonly proposals: MoveProposalsService,
    private readonly views: SittingViews,
  ) {}

  /** `from` in the address fills in the first day, for links from a sitting or a day. */
  @Get()
  async form(
    @Param('slug') slug: string,
    @Query('from') from: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const [, year, month, day] = (typeof from === 'string' && /^(\d{4})-(\d\d)-(\d\d)$/.exec(from)) || [];
    const values = day ? { 'from-day': Number(day), 'from-month': Number(month), 'from-year': year } : {};
    return page(reply, MovePage({ visit, values }));
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
        const choices = choicesOf(sent);
        const done = await this.moving.carryOut(visit.studio.id, visit.account, why, choices);
        const ids = done.map((one) => one.sittingId);
        const views = await this.views.some(visit.studio.id, ids);
        const names = new Map(views.map(({ sitting, contact }) => [sitting.id, contact.name]));
        const outcomes = done.map((one) => ({ ...one, name: names.get(one.sittingId) ?? 'Somebody' }));
        return page(reply, MovedPage({ visit, outcomes }));
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
    const props = { visit, days, proposals, fields: fieldsOf(sent), values: sent, errors };
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

/** One choice per sitting, in the order of the page. @throws AppError bad_input at the field of the choice */
function choicesOf(sent: Sent): MoveChoice[] {
  return Object.entries(sent).flatMap(([name, value]) => {
    const sittingId = /^do-([0-9a-f-]{36})$/.exec(name)?.[1];
    if (sittingId === undefined) return [];
    const to = typeof value === 'string' && value.startsWith('to ') ? value.slice(3) : null;
    return [
      readInput(moveChoice, {
        sittingId,
        from: sent[`from-${sittingId}`],
        act: to === null ? value : { to },
      }),
    ];
  });
}
