// The doors of the bench card: looking at it for a batch, and "I mixed this".
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../../accounts/visits.service.js';
import { parseQuantity } from '../../lib/quantity-text.js';
import { Random } from '../../platform/clock.js';
import { formKeyOf } from '../../platform/html/kit/form.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, type FieldProblem } from '../../platform/problems.js';
import { takenFrom, tooMuch } from '../../stock/bench.calc.js';
import { type BenchView, FormulaViews } from '../../stock/formula-views.service.js';
import { PouringService } from '../../stock/pouring.service.js';
import { ACT_PROBLEMS, amountProblem } from '../../stock/words.calc.js';
import { BenchCardPage } from './bench-card.pages.js';
import { withUnits } from './words.calc.js';

const formulaId = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This formula is not known here.'),
});

type Sent = Record<string, unknown>;
const TOO_MUCH = ACT_PROBLEMS['more than is in it'].message;

@Controller('s/:slug/desk/shelf/formulas/:id')
export class BenchCardWeb {
  constructor(
    private readonly visits: Visits,
    private readonly random: Random,
    private readonly views: FormulaViews,
    private readonly pouring: PouringService,
  ) {}

  /** `batch` with its unit, or in mL; without one a batch as the formula has it. */
  @Get('bench-card')
  async show(
    @Param('slug') slug: string,
    @Param('id', formulaId) id: string,
    @Query() query: Sent,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const asked = readBatch(query.batch);
    const view = await this.views.bench(visit.studio.id, id, asked.batch);
    const sent = asked.problem
      ? { form: 'batch' as const, values: query, errors: [asked.problem] }
      : undefined;
    const status = sent ? 422 : 200;
    return page(reply, BenchCardPage({ visit, view, formKey: this.random.id(), sent }), status);
  }

  @Post('mixed')
  async mixed(
    @Param('slug') slug: string,
    @Param('id', formulaId) id: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const values = body ?? {};
    const formKey = formKeyOf(values, this.random);
    const answers = withUnits(values);
    const from = takenFrom(answers);
    const { batch } = readBatch(answers.quantity);
    try {
      const view = await this.views.bench(visit.studio.id, id, batch);
      const itemId = values.itemId ?? view.items[0]?.id;
      const mix = { itemId, quantity: answers.quantity, label: answers.label, note: answers.note, from };
      const made = await this.pouring.mixBatch(visit.studio.id, visit.account, mix, formKey);
      return seeOther(reply, `/s/${slug}/desk/shelf/bottles/${made.lotId}?done=mix`);
    } catch (error) {
      if (!(error instanceof AppError) || !['bad_input', 'wrong_state'].includes(error.code)) throw error;
      const view = await this.views.bench(visit.studio.id, id, batch);
      const errors = atBottles(error.fields, from, view);
      const notice = errors.length > 0 ? undefined : ({ tone: 'bad', text: error.detail } as const);
      const sent = { form: 'mixed' as const, values, errors };
      return page(reply, BenchCardPage({ visit, view, formKey, sent, notice }), error.status);
    }
  }
}

/** Microlitres; null with a problem, or without one where nothing is said. */
function readBatch(sent: unknown): { batch: bigint | null; problem?: FieldProblem } {
  const typed = typeof sent === 'string' ? sent.trim() : '';
  if (typed === '') return { batch: null };
  const read = parseQuantity(/^[\d.,' ]+$/.test(typed) ? `${typed} ml` : typed, 'uL');
  const message = read.ok ? 'Please say how much.' : amountProblem(read.reason, 'uL');
  if (read.ok && read.amount > 0n) return { batch: read.amount };
  return { batch: null, problem: { field: 'batch', message } };
}

/** Problems of bottles at their boxes on the card; where one holds too little, all that do are told. */
function atBottles(
  fields: FieldProblem[],
  from: { lotId: string; quantity: string }[],
  view: BenchView,
): FieldProblem[] {
  const short = fields.some(({ message }) => message === TOO_MUCH) ? tooMuch(from, view.lines) : [];
  if (short.length > 0) return short;
  const shown = new Set(view.lines.flatMap((line) => line.from.map(({ lot }) => lot.id)));
  return fields.map((one) => {
    const at = /^from\/(\d+)\//.exec(one.field)?.[1];
    const lotId = at === undefined ? undefined : from[Number(at)]?.lotId;
    if (lotId !== undefined) return { ...one, field: shown.has(lotId) ? `from-${lotId}` : '' };
    return one.field === 'lots' || one.field === 'itemId' ? { ...one, field: '' } : one;
  });
}
