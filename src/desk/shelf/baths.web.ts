// The doors of silver baths: how they stand, their ledgers, and "the chemistry is off".
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { Random } from '../../platform/clock.js';
import { readDateField } from '../../platform/html/kit/date-field.js';
import { formKeyOf } from '../../platform/html/kit/form.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { namesOf, refuseChanged } from '../../platform/seen.js';
import { BathLedgerService } from '../../stock/bath-ledger.service.js';
import { BathsService } from '../../stock/baths.service.js';
import type { Notice } from '../frame.pages.js';
import { BathPage } from './bath.pages.js';
import { isDoing } from './bath-forms.pages.js';
import { answersOf, BathsPage } from './baths.pages.js';

const bathId = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This bath is not known here.'),
});

const good = (text: string): Notice => ({ tone: 'good', text });
const DONE = new Map<unknown, Notice>([
  ['entered', good('The bath is entered.')],
  ['changed', good('The bath is changed.')],
  ['written', good('It is written down.')],
  ['back', good('The line is taken back.')],
  ['put-back', good('The line is taken back, and its crystals stand in their bottle again.')],
  [
    'crystals',
    good('The line is taken back. If crystals came from a bottle for it, please count that bottle.'),
  ],
]);

type Sent = Record<string, unknown>;

@Controller('s/:slug/desk/shelf/baths')
export class BathsWeb {
  constructor(
    private readonly visits: Visits,
    private readonly random: Random,
    private readonly baths: BathsService,
    private readonly ledger: BathLedgerService,
  ) {}

  @Get()
  async all(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const found = await this.baths.all(visit.studio.id);
    return page(reply, BathsPage({ visit, found, formKey: this.random.id(), notice: DONE.get(done) }));
  }

  @Post()
  async add(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const [values, formKey] = [body ?? {}, formKeyOf(body, this.random)];
    const wrong = await problemsOf(() => this.baths.add(visit.studio.id, visit.account, formKey, values));
    if (!wrong) return seeOther(reply, `/s/${slug}/desk/shelf/baths/${formKey}?done=entered`);
    const found = await this.baths.all(visit.studio.id);
    const sent = { form: 'new', values, errors: wrong.fields };
    return page(reply, BathsPage({ visit, found, formKey, sent }), wrong.status);
  }

  @Get(':id')
  async one(
    @Param('slug') slug: string,
    @Param('id', bathId) id: string,
    @Query('done') done: unknown,
    @Query('do') doing: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const form = isDoing(doing) || doing === 'edit' ? doing : '';
    return this.bathPage(reply, visit, id, { form, notice: DONE.get(done) });
  }

  @Post(':id')
  async change(
    @Param('slug') slug: string,
    @Param('id', bathId) id: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const answers = body ?? {};
    const { sizes, crystals } = await this.baths.one(visit.studio.id, id);
    const words = namesOf([...sizes, ...crystals.map((lot) => ({ id: lot.id, name: lot.label }))]);
    const wrong = await problemsOf(() =>
      this.baths.change(visit.studio.id, visit.account, id, answers, (bath) =>
        refuseChanged(answers, answersOf(bath), words),
      ),
    );
    if (!wrong) return seeOther(reply, `/s/${slug}/desk/shelf/baths/${id}?done=changed`);
    return this.bathPage(reply, visit, id, { form: 'edit', body: answers, wrong });
  }

  @Post(':id/enter')
  async enter(
    @Param('slug') slug: string,
    @Param('id', bathId) id: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const sent = body ?? {};
    const answers = { ...sent, day: readDateField(sent, 'day'), until: readDateField(sent, 'until') };
    const formKey = formKeyOf(body, this.random);
    const wrong = await problemsOf(() =>
      this.ledger.enter(visit.studio.id, visit.account, id, formKey, answers),
    );
    if (!wrong) return seeOther(reply, `/s/${slug}/desk/shelf/baths/${id}?done=written`);
    const doing = sent.do === 'measured' ? (isDoing(sent.method) ? sent.method : 'hydrometer') : sent.do;
    const form = isDoing(doing) ? doing : 'note';
    return this.bathPage(reply, visit, id, { form, body, wrong, formKey });
  }

  @Post(':id/take-back')
  async takeBack(
    @Param('slug') slug: string,
    @Param('id', bathId) id: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const { kind, putBack } = await this.ledger.takeBack(
      visit.studio.id,
      visit.account,
      id,
      String(body?.line),
    );
    const done = putBack ? 'put-back' : kind === 'topped up' ? 'crystals' : 'back';
    return seeOther(reply, `/s/${slug}/desk/shelf/baths/${id}?done=${done}`);
  }

  private async bathPage(
    reply: FastifyReply,
    visit: StaffVisit,
    id: string,
    o: {
      form: Parameters<typeof BathPage>[0]['form'];
      notice?: Notice | undefined;
      body?: Sent | undefined;
      wrong?: AppError;
      formKey?: string;
    },
  ): Promise<string> {
    const found = await this.baths.one(visit.studio.id, id);
    const sent = o.wrong && { form: o.form, values: o.body ?? {}, errors: o.wrong.fields };
    const formKey = o.formKey ?? this.random.id();
    const props = { visit, found, formKey, form: o.form, notice: o.notice, sent };
    return page(reply, BathPage(props), o.wrong?.status ?? 200);
  }
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
