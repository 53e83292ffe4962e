// The doors of orders: what is to be ordered, that it was, and that it will not come.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../../accounts/visits.service.js';
import { Random } from '../../platform/clock.js';
import { readDateField } from '../../platform/html/kit/date-field.js';
import { formKeyOf } from '../../platform/html/kit/form.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError } from '../../platform/problems.js';
import { PlanningService } from '../../stock/planning.service.js';
import { ReceiptsService } from '../../stock/receipts.service.js';
import type { Notice } from '../frame.pages.js';
import { ANYTHING_ELSE, OrdersPage } from './orders.pages.js';
import { withUnits } from './words.calc.js';

const orderId = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This order is not known here.'),
});
const DONE = new Map<unknown, Notice>([
  ['ordered', { tone: 'good', text: 'It is noted as ordered and counted on from the day it should come.' }],
  [
    'over',
    {
      tone: 'warn',
      text: 'It is noted as ordered. With what is here and on its way that is more than you keep at most.',
    },
  ],
  ['off', { tone: 'good', text: 'Nobody waits for it any more.' }],
]);

type Sent = Record<string, unknown>;

@Controller('s/:slug/desk/shelf/orders')
export class OrdersWeb {
  constructor(
    private readonly visits: Visits,
    private readonly random: Random,
    private readonly planning: PlanningService,
    private readonly receipts: ReceiptsService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const ahead = await this.planning.orders(visit.studio.id);
    return page(reply, OrdersPage({ visit, ahead, formKey: this.random.id(), notice: DONE.get(done) }));
  }

  @Post()
  async order(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const values = body ?? {};
    const formKey = formKeyOf(values, this.random);
    const of = typeof values.of === 'string' ? values.of : ANYTHING_ELSE;
    const read = withUnits(values);
    const answers = {
      itemId: read[`itemId-${of}`],
      supplierId: read[`supplierId-${of}`],
      quantity: read[`quantity-${of}`],
      expectedOn: readDateField(values, `expectedOn-${of}`),
    };
    try {
      const { overMost } = await this.receipts.order(
        visit.studio.id,
        visit.account,
        answers,
        `${formKey} ${of}`,
      );
      return seeOther(reply, `/s/${slug}/desk/shelf/orders?done=${overMost ? 'over' : 'ordered'}`);
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'bad_input') throw error;
      const errors = error.fields.map((one) => ({ ...one, field: `${one.field}-${of}` }));
      const ahead = await this.planning.orders(visit.studio.id);
      return page(reply, OrdersPage({ visit, ahead, formKey, sent: { of, values, errors } }), error.status);
    }
  }

  /** It will not come. */
  @Post(':id/off')
  async off(
    @Param('slug') slug: string,
    @Param('id', orderId) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    await this.receipts.callOff(visit.studio.id, visit.account, id);
    return seeOther(reply, `/s/${slug}/desk/shelf/orders?done=off`);
  }
}
