// The doors of the shelf as a whole: how it stands, what has come, and from whom things are bought.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../../accounts/visits.service.js';
import { Random } from '../../platform/clock.js';
import { readDateField } from '../../platform/html/kit/date-field.js';
import { formKeyOf } from '../../platform/html/kit/form.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { refuseChanged } from '../../platform/seen.js';
import { ItemsService } from '../../stock/items.service.js';
import { ReceiptsService } from '../../stock/receipts.service.js';
import { ShelfService } from '../../stock/shelf.service.js';
import { ShelfViews } from '../../stock/shelf-views.service.js';
import { itemKind } from '../../stock/stock.schemas.js';
import type { Notice } from '../frame.pages.js';
import { ShelfPage } from './overview.pages.js';
import { ReceivePage } from './receive.pages.js';
import { answersOf, SuppliersPage } from './suppliers.pages.js';
import { withUnits } from './words.calc.js';

const orderId = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This order is not known here.'),
});
const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;
const DONE = new Map<unknown, Notice>([['supplier', { tone: 'good', text: 'The supplier is saved.' }]]);

type Sent = Record<string, unknown>;

@Controller('s/:slug/desk/shelf')
export class ShelfWeb {
  constructor(
    private readonly visits: Visits,
    private readonly random: Random,
    private readonly views: ShelfViews,
    private readonly shelf: ShelfService,
    private readonly receipts: ReceiptsService,
    private readonly items: ItemsService,
  ) {}

  @Get()
  async all(
    @Param('slug') slug: string,
    @Query('kind') asked: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const kind = itemKind.options.find((one) => one === asked);
    return page(reply, ShelfPage({ visit, shelf: await this.views.all(visit.studio.id), kind }));
  }

  @Get('receive')
  async receiving(
    @Param('slug') slug: string,
    @Query('item') item: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const shelf = await this.views.all(visit.studio.id);
    const itemId = typeof item === 'string' ? item : undefined;
    return page(reply, ReceivePage({ visit, shelf, itemId, formKey: this.random.id() }));
  }

  @Post('receive')
  async receive(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const values = body ?? {};
    const formKey = formKeyOf(values, this.random);
    try {
      const answers = { ...withUnits(values), usableUntil: readDateField(values, 'usableUntil') };
      const { lotId } = await this.shelf.receive(visit.studio.id, visit.account, answers, formKey);
      return seeOther(reply, `/s/${slug}/desk/shelf/bottles/${lotId}?done=receive`);
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'bad_input') throw error;
      const shelf = await this.views.all(visit.studio.id);
      // The form with one thing known in advance is shown again as it was.
      const itemId = 'quantity-in' in values && typeof values.itemId === 'string' ? values.itemId : undefined;
      const again = { visit, shelf, itemId, formKey, sent: { values, errors: error.fields } };
      return page(reply, ReceivePage(again), error.status);
    }
  }

  /** What was ordered has come, as much as was ordered. */
  @Post('receive/:id')
  async arrive(
    @Param('slug') slug: string,
    @Param('id', orderId) id: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const key = `${formKeyOf(body, this.random)} ${id}`;
    const { lotId } = await this.receipts.arrive(visit.studio.id, visit.account, id, {}, key);
    return seeOther(reply, `/s/${slug}/desk/shelf/bottles/${lotId}?done=arrive`);
  }

  @Get('suppliers')
  async suppliers(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const shelf = await this.views.all(visit.studio.id);
    return page(reply, SuppliersPage({ visit, shelf, formKey: this.random.id(), notice: DONE.get(done) }));
  }

  /** `of` is a supplier's id, or "new". */
  @Post('suppliers/:of')
  async supplier(
    @Param('slug') slug: string,
    @Param('of') of: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    if (of !== 'new' && !UUID.test(of)) throw new AppError('not_found', 'This supplier is not known here.');
    const values = body ?? {};
    const formKey = formKeyOf(values, this.random);
    const id = of === 'new' ? null : of;
    try {
      const own = Object.entries(values).filter(([name]) => name.startsWith(`${of}-`));
      const answers = Object.fromEntries(own.map(([name, value]) => [name.slice(of.length + 1), value]));
      await this.items.editSupplier(visit.studio.id, visit.account, id, answers, formKey, (supplier) =>
        refuseChanged(values, answersOf(supplier)),
      );
      return seeOther(reply, `/s/${slug}/desk/shelf/suppliers?done=supplier`);
    } catch (error) {
      if (!(error instanceof AppError) || !TOLD_BESIDE.includes(error.code)) throw error;
      const shelf = await this.views.all(visit.studio.id);
      const named = (field: string) => (field.startsWith(`${of}-`) ? field : `${of}-${field}`);
      const errors = error.fields.map((one) => ({ ...one, field: named(one.field) }));
      const again = { visit, shelf, formKey, sent: { of, values, errors } };
      return page(reply, SuppliersPage(again), error.status);
    }
  }
}
