// The doors of formulas: the list, the library, one formula, the owner's forms, and the bench card.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { starterFormula } from '../../chemistry/starter-formulas.calc.js';
import { Random } from '../../platform/clock.js';
import { FORM_KEY_FIELD, formKeyOf } from '../../platform/html/kit/form.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError } from '../../platform/problems.js';
import { type FormulaView, FormulaViews } from '../../stock/formula-views.service.js';
import { formValues } from '../../stock/formulas.calc.js';
import { canBeMixed, FormulasService } from '../../stock/formulas.service.js';
import type { Notice } from '../frame.pages.js';
import { EditFormulaPage, FormulaPage } from './formula.pages.js';
import { FormulasPage, LibraryPage, StarterPage } from './formulas.pages.js';

const formulaId = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This formula is not known here.'),
});

const good = (text: string): Notice => ({ tone: 'good', text });
const DONE = new Map<unknown, Notice>([
  ['taken', good('It is among your formulas. What it is mixed of stands on the shelf’s list.')],
  ['study', good('It is among your formulas, for study; nothing is mixed by it yet.')],
  ['same', good('Nothing was changed; there is no new version.')],
  ['written', good('The formula is saved.')],
  ['changed', good('It is changed; the earlier version stays to be read.')],
  ['items', good('Saved, and what is set aside is planned anew.')],
  ['away', good('It is put away.')],
  ['out', good('It is taken out again.')],
]);

type Sent = Record<string, unknown>;

@Controller('s/:slug/desk/shelf/formulas')
export class FormulasWeb {
  constructor(
    private readonly visits: Visits,
    private readonly random: Random,
    private readonly views: FormulaViews,
    private readonly formulas: FormulasService,
  ) {}

  @Get()
  async all(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    return page(reply, FormulasPage({ visit, found: await this.views.list(visit.studio.id) }));
  }

  @Get('library')
  async library(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    return page(reply, LibraryPage({ visit, found: await this.views.list(visit.studio.id) }));
  }

  @Get('library/:key')
  async starter(
    @Param('slug') slug: string,
    @Param('key') key: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    return this.starterPage(reply, visit, key, {});
  }

  @Post('library/:key')
  async take(
    @Param('slug') slug: string,
    @Param('key') key: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const values = body ?? {};
    const formKey = formKeyOf(values, this.random);
    const answers = { starterKey: key, bromide: values.bromide, itemId: values.itemId };
    const done = await told(() => this.formulas.take(visit.studio.id, visit.account, answers, formKey));
    if (done.ok) {
      const { formulaId: id, instead } = done.made;
      const how = instead ? `taken&instead=${instead}` : values.itemId === 'study' ? 'study' : 'taken';
      return seeOther(reply, `/s/${slug}/desk/shelf/formulas/${id}?done=${how}`);
    }
    return this.starterPage(reply, visit, key, { values, wrong: done.wrong, formKey });
  }

  @Get('new')
  async empty(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const { items } = await this.views.list(visit.studio.id);
    const values = { ripenDays: '0' };
    return page(reply, EditFormulaPage({ visit, changes: null, items, values, formKey: this.random.id() }));
  }

  @Post('new')
  async write(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const values = body ?? {};
    const formKey = formKeyOf(values, this.random);
    const { [FORM_KEY_FIELD]: _, ...answers } = values;
    const done = await told(() => this.formulas.create(visit.studio.id, visit.account, answers, formKey));
    if (done.ok) return seeOther(reply, `/s/${slug}/desk/shelf/formulas/${done.made.formulaId}?done=written`);
    const { items } = await this.views.list(visit.studio.id);
    const again = { visit, changes: null, items, values, formKey, ...failure(done.wrong) };
    return page(reply, EditFormulaPage(again), done.wrong.status);
  }

  @Get(':id')
  async one(
    @Param('slug') slug: string,
    @Param('id', formulaId) id: string,
    @Query('done') done: unknown,
    @Query('instead') instead: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const view = await this.views.one(visit.studio.id, id);
    const before = instead
      ? (await this.views.list(visit.studio.id)).formulas.find((one) => one.id === instead)
      : undefined;
    const notice = before && done === 'taken' ? replacedInWords(view, before.name) : DONE.get(done);
    return page(reply, FormulaPage({ visit, view, notice }));
  }

  @Get(':id/change')
  async form(
    @Param('slug') slug: string,
    @Param('id', formulaId) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const { formula, current, items } = await this.views.one(visit.studio.id, id);
    const changes = { id, name: formula.name, version: formula.currentVersion };
    return page(reply, EditFormulaPage({ visit, changes, items, values: formValues(formula, current) }));
  }

  @Post(':id/change')
  async change(
    @Param('slug') slug: string,
    @Param('id', formulaId) id: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const values = body ?? {};
    const done = await told(() => this.formulas.change(visit.studio.id, visit.account, id, values));
    if (done.ok)
      return seeOther(
        reply,
        `/s/${slug}/desk/shelf/formulas/${id}?done=${done.made.changed ? 'changed' : 'same'}`,
      );
    const { formula, items } = await this.views.one(visit.studio.id, id);
    const changes = { id, name: formula.name, version: formula.currentVersion };
    const again = { visit, changes, items, values, ...failure(done.wrong) };
    return page(reply, EditFormulaPage(again), done.wrong.status);
  }

  @Post(':id/items')
  async items(
    @Param('slug') slug: string,
    @Param('id', formulaId) id: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const ids = [body?.itemIds ?? []].flat().filter((one) => typeof one === 'string');
    const done = await told(() => this.formulas.setItems(visit.studio.id, visit.account, id, ids));
    if (done.ok) return seeOther(reply, `/s/${slug}/desk/shelf/formulas/${id}?done=items`);
    return this.formulaPage(reply, visit, id, done.wrong);
  }

  @Post(':id/archive')
  async archive(
    @Param('slug') slug: string,
    @Param('id', formulaId) id: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const away = body?.archived === 'yes';
    const done = await told(() => this.formulas.archive(visit.studio.id, visit.account, id, away));
    if (!done.ok) return this.formulaPage(reply, visit, id, done.wrong);
    return seeOther(reply, `/s/${slug}/desk/shelf/formulas/${id}?done=${away ? 'away' : 'out'}`);
  }

  private async formulaPage(reply: FastifyReply, visit: StaffVisit, id: string, wrong: AppError) {
    const view = await this.views.one(visit.studio.id, id);
    return page(reply, FormulaPage({ visit, view, ...failure(wrong) }), wrong.status);
  }

  private async starterPage(
    reply: FastifyReply,
    visit: StaffVisit,
    key: string,
    { values = {}, wrong, formKey = this.random.id() }: { values?: Sent; wrong?: AppError; formKey?: string },
  ): Promise<string> {
    const starter = starterFormula(key);
    if (!starter) throw new AppError('not_found', 'This formula is not in the library.');
    const { formulas, items } = await this.views.list(visit.studio.id);
    const wet = items.some((item) => item.substance === 'cadmium bromide, tetrahydrate' && !item.archived);
    const props = {
      visit,
      starter,
      able: items
        .filter((item) => canBeMixed(item, starter.kind))
        .map((item) => ({ item, by: formulas.find((one) => one.id === item.formulaId)?.name ?? null })),
      taken: formulas.find((one) => one.starterKey === key && !one.archived)?.id ?? null,
      bromide: wet ? ('tetrahydrate' as const) : ('anhydrous' as const),
      formKey,
    };
    const failed = wrong && failure(wrong);
    const sent = failed && { values, errors: failed.errors };
    return page(reply, StarterPage({ ...props, notice: failed?.notice, sent }), wrong?.status ?? 200);
  }
}

/** "It is among your formulas. Iodised collodion is mixed by this now, instead of Quick collodion." */
function replacedInWords({ formula, items }: FormulaView, before: string): Notice {
  const mixed = items.filter((item) => item.formulaId === formula.id).map(({ name }) => name);
  return good(
    `It is among your formulas. ${mixed.join(', ')} is mixed by this now, instead of ${before}, which stays among your formulas.`,
  );
}

type Told<T> = { ok: true; made: T } | { ok: false; wrong: AppError };

/** What came of an act, or what a person must be told on its form. Anything else is thrown on. */
async function told<T>(act: () => Promise<T>): Promise<Told<T>> {
  try {
    return { ok: true, made: await act() };
  } catch (error) {
    if (error instanceof AppError && ['bad_input', 'wrong_state'].includes(error.code))
      return { ok: false, wrong: error };
    throw error;
  }
}

/** Mistakes at their fields; what no field is at fault for stands above the page. */
function failure(wrong: AppError) {
  const notice = wrong.fields.length > 0 ? undefined : ({ tone: 'bad', text: wrong.detail } as const);
  return { errors: wrong.fields, notice };
}
