// The doors of preparation: the list with its ticks, the owner's rules, and what a studio day takes besides.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../accounts/visits.service.js';
import { readDateField } from '../platform/html/kit/date-field.js';
import { page, seeOther } from '../platform/http.js';
import { AppError, TOLD_BESIDE } from '../platform/problems.js';
import { namesOf, refuseChanged } from '../platform/seen.js';
import { DaysService } from '../stock/days.service.js';
import { DueService } from '../stock/due.service.js';
import { PreparationService } from '../stock/preparation.service.js';
import type { Notice } from './frame.pages.js';
import { PreparePage, roomValues } from './prepare.pages.js';
import { DAYS_SHOWN, type SentForm } from './prepare-task.pages.js';
import { answersOf, RulesPage, ruleWords, takesAnswers } from './prepare-rules.pages.js';

const ruleId = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This rule is not here any more.'),
});

const good = (text: string): Notice => ({ tone: 'good', text });
const DONE = new Map<unknown, Notice>([
  ['ticked', good('Done.')],
  ['unticked', good('It stands on the list again.')],
  ['moved', good('It is put there.')],
  ['noted', good('The room of the day is written down.')],
  ['rule', good('The rule is saved.')],
  ['gone', good('The rule is put away.')],
  ['takes', good('What a day takes is saved, and set aside for the days to come.')],
]);

type Sent = Record<string, unknown>;

@Controller('s/:slug/desk/prepare')
export class PrepareWeb {
  constructor(
    private readonly visits: Visits,
    private readonly preparation: PreparationService,
    private readonly days: DaysService,
    private readonly due: DueService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const found = await this.preparation.list(visit.studio.id);
    const due = await this.due.soon(visit.studio.id, DAYS_SHOWN);
    return page(reply, PreparePage({ visit, found, due, notice: DONE.get(done) }));
  }

  @Post('tick')
  async tick(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const sent = body ?? {};
    await this.preparation.tick(visit.studio.id, visit.account, sent);
    const done = sent.done === 'yes' ? 'ticked' : 'unticked';
    return seeOther(
      reply,
      `/s/${slug}/desk/prepare?done=${done}#task-${String(sent.day)}-${String(sent.rule)}`,
    );
  }

  @Post('move')
  async move(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const sent = body ?? {};
    const form = `move ${String(sent.day)} ${String(sent.rule)}`;
    const act = () =>
      this.preparation.move(visit.studio.id, visit.account, { ...sent, to: readDateField(sent, 'to') });
    return this.orAgain(reply, visit, { form, sent, act, done: 'moved' });
  }

  @Post('day')
  async day(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const sent = body ?? {};
    const act = () =>
      this.preparation.noteDay(visit.studio.id, visit.account, sent, (known) =>
        refuseChanged(sent, roomValues(known)),
      );
    return this.orAgain(reply, visit, { form: `day ${String(sent.day)}`, sent, act, done: 'noted' });
  }

  @Get('rules')
  async rules(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Query('form') form: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.rulesPage(reply, visit, {
      form: typeof form === 'string' ? form : '',
      notice: DONE.get(done),
    });
  }

  @Post('rules/new')
  async addRule(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const act = () => this.preparation.saveRule(visit.studio.id, visit.account, null, body ?? {});
    return this.orRulesAgain(reply, visit, { form: 'new', sent: body ?? {}, act, done: 'rule' });
  }

  @Post('takes')
  async takes(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const sent = body ?? {};
    const { sizes } = await this.days.takes(visit.studio.id);
    const act = () =>
      this.days.saveTakes(visit.studio.id, visit.account, sent, (stands) =>
        refuseChanged(sent, takesAnswers(stands), namesOf(sizes)),
      );
    return this.orRulesAgain(reply, visit, { form: 'takes', sent, act, done: 'takes' });
  }

  @Post('rules/:id')
  async changeRule(
    @Param('slug') slug: string,
    @Param('id', ruleId) id: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const sent = body ?? {};
    const act = () =>
      this.preparation.saveRule(visit.studio.id, visit.account, id, sent, (rule) =>
        refuseChanged(sent, answersOf(rule), ruleWords()),
      );
    return this.orRulesAgain(reply, visit, { form: id, sent, act, done: 'rule' });
  }

  @Post('rules/:id/remove')
  async removeRule(
    @Param('slug') slug: string,
    @Param('id', ruleId) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    await this.preparation.removeRule(visit.studio.id, visit.account, id);
    return seeOther(reply, `/s/${slug}/desk/prepare/rules?done=gone`);
  }

  private async orAgain(reply: FastifyReply, visit: StaffVisit, o: Trying): Promise<string | undefined> {
    const errors = await problemsOf(o.act);
    if (!errors) return seeOther(reply, `/s/${visit.studio.slug}/desk/prepare?done=${o.done}`);
    const found = await this.preparation.list(visit.studio.id);
    const due = await this.due.soon(visit.studio.id, DAYS_SHOWN);
    const sent: SentForm = { form: o.form, values: o.sent, errors: errors.fields };
    return page(reply, PreparePage({ visit, found, due, sent }), errors.status);
  }

  private async orRulesAgain(reply: FastifyReply, visit: StaffVisit, o: Trying): Promise<string | undefined> {
    const errors = await problemsOf(o.act);
    if (!errors) return seeOther(reply, `/s/${visit.studio.slug}/desk/prepare/rules?done=${o.done}`);
    const sent = { form: o.form, values: o.sent, errors: errors.fields };
    return this.rulesPage(reply, visit, { form: o.form, sent, status: errors.status });
  }

  private async rulesPage(
    reply: FastifyReply,
    visit: StaffVisit,
    {
      status = 200,
      ...props
    }: { form: string; sent?: SentForm; notice?: Notice | undefined; status?: number },
  ): Promise<string> {
    const rules = await this.preparation.rules(visit.studio.id);
    const takes = await this.days.takes(visit.studio.id);
    return page(reply, RulesPage({ visit, rules, ...takes, ...props }), status);
  }
}

interface Trying {
  form: string;
  sent: Sent;
  act: () => Promise<void>;
  done: string;
}

/** What is wrong with the answers of a form; null when it was done. Anything else is thrown on. */
async function problemsOf(act: () => Promise<void>): Promise<AppError | null> {
  try {
    await act();
    return null;
  } catch (error) {
    if (error instanceof AppError && TOLD_BESIDE.includes(error.code)) return error;
    throw error;
  }
}
