// The doors of one bottle, batch or box: looking at it, and the acts with it.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { Random } from '../../platform/clock.js';
import { readDateField } from '../../platform/html/kit/date-field.js';
import { formKeyOf } from '../../platform/html/kit/form.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError } from '../../platform/problems.js';
import { PouringService } from '../../stock/pouring.service.js';
import { ShelfService } from '../../stock/shelf.service.js';
import { ShelfViews } from '../../stock/shelf-views.service.js';
import type { Notice } from '../frame.pages.js';
import { BottlePage } from './lot.pages.js';
import { blendParts, withUnits } from './words.calc.js';

const lotId = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This bottle is not known here.'),
});

const good = (text: string): Notice => ({ tone: 'good', text });
const DONE = new Map<unknown, Notice>([
  ['receive', good('It is on the shelf.')],
  ['arrive', good('It is on the shelf.')],
  ['mix', good('The batch is on the shelf.')],
  ['count', good('Counted.')],
  ['take', good('Taken.')],
  ['open', good('It is opened.')],
  ['suspect', good('It is put aside, and what was set aside of it is looked for elsewhere.')],
  ['good', good('It counts as good again.')],
  ['discard', good('It is thrown away.')],
  ['decant', good('Poured off into this bottle.')],
  ['blend', good('Poured together into this bottle.')],
  ['thin', good('Thinned.')],
  ['correct', good('Corrected.')],
]);

type Sent = Record<string, unknown>;

@Controller('s/:slug/desk/shelf/bottles/:id')
export class LotsWeb {
  constructor(
    private readonly visits: Visits,
    private readonly random: Random,
    private readonly views: ShelfViews,
    private readonly shelf: ShelfService,
    private readonly pouring: PouringService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Param('id', lotId) id: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const view = await this.views.bottle(visit.studio.id, id);
    return page(reply, BottlePage({ visit, view, formKey: this.random.id(), notice: DONE.get(done) }));
  }

  /** `act` is one of those of DONE but the first three. After pouring into a new bottle that one is shown. */
  @Post(':act')
  async act(
    @Param('slug') slug: string,
    @Param('id', lotId) id: string,
    @Param('act') act: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const sent = body ?? {};
    const formKey = formKeyOf(sent, this.random);
    try {
      const made = await this.perform(act, visit, id, withUnits(answersOf(act, sent)), formKey);
      return seeOther(reply, `/s/${slug}/desk/shelf/bottles/${made?.lotId ?? id}?done=${act}`);
    } catch (error) {
      if (!(error instanceof AppError) || !['bad_input', 'wrong_state'].includes(error.code)) throw error;
      const view = await this.views.bottle(visit.studio.id, id);
      const named = act === 'blend' ? atParts(error, answersOf(act, sent)) : error.fields;
      const errors = named.map((one) => ({ ...one, field: `${act}-${one.field}` }));
      const notice = errors.length > 0 ? undefined : ({ tone: 'bad', text: error.detail } as const);
      const again = { visit, view, formKey, notice, sent: { act, values: sent, errors } };
      return page(reply, BottlePage(again), error.status);
    }
  }

  private perform(act: string, visit: StaffVisit, id: string, answers: Sent, key: string) {
    const [studioId, who] = [visit.studio.id, visit.account];
    switch (act) {
      case 'count':
        return this.shelf.count(studioId, who, id, answers, key);
      case 'take':
        return this.shelf.take(studioId, who, id, answers, key);
      case 'open':
        return this.shelf.open(studioId, who, id, key);
      case 'suspect':
        return this.shelf.suspect(studioId, who, id, answers, key);
      case 'good':
        return this.shelf.foundGood(studioId, who, id, key);
      case 'discard':
        return this.shelf.discard(studioId, who, id, answers, key);
      case 'decant':
        return this.pouring.decant(studioId, who, id, answers, key);
      case 'blend':
        return this.pouring.blend(studioId, who, { ...answers, parts: blendParts(answers) }, key);
      case 'thin':
        return this.pouring.thin(studioId, who, id, answers, key);
      case 'correct':
        return this.shelf.correct(studioId, who, id, { ...answers, ...dates(answers) }, key);
      default:
        throw new AppError('not_found');
    }
  }
}

/** The answers of one of the page's forms, whose fields are named by the act. */
function answersOf(act: string, sent: Sent): Sent {
  const own = Object.entries(sent).filter(([name]) => name.startsWith(`${act}-`));
  return Object.fromEntries(own.map(([name, value]) => [name.slice(act.length + 1), value]));
}

const dates = (answers: Sent) => ({
  usableUntil: readDateField(answers, 'usableUntil'),
  peroxideCheckedOn: readDateField(answers, 'peroxideCheckedOn'),
});

/** The problems of a blend at the fields as the page names them: those of the parts that were filled in. */
function atParts(error: AppError, sent: Sent) {
  const parts = blendParts(sent);
  const first = parts[0]?.lotId ?? '';
  return error.fields.map((one) => {
    const at = /^parts\/(\d+)\//.exec(one.field)?.[1];
    const lot = at === undefined ? first : (parts[Number(at)]?.lotId ?? first);
    return one.field === 'label' || one.field === 'class' ? one : { ...one, field: `part-${lot}` };
  });
}
