// The doors of what is kept on the shelf: one item, its settings, and a new one.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../../accounts/visits.service.js';
import { Random } from '../../platform/clock.js';
import { formKeyOf } from '../../platform/html/kit/form.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { namesOf, refuseChanged } from '../../platform/seen.js';
import { ItemsService } from '../../stock/items.service.js';
import { ShelfViews } from '../../stock/shelf-views.service.js';
import type { Notice } from '../frame.pages.js';
import { ItemPage } from './item.pages.js';
import { answersOf, type SentItem } from './item-settings.pages.js';
import { NewItemPage } from './new-item.pages.js';
import { withUnits } from './words.calc.js';

const itemId = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This is not kept on the shelf.'),
});

const DONE = new Map<unknown, Notice>([
  ['added', { tone: 'good', text: 'It is kept from now on.' }],
  ['changed', { tone: 'good', text: 'Saved, and what is set aside of it is planned anew.' }],
]);

type Sent = Record<string, unknown>;

@Controller('s/:slug/desk/shelf/items')
export class ItemsWeb {
  constructor(
    private readonly visits: Visits,
    private readonly random: Random,
    private readonly views: ShelfViews,
    private readonly items: ItemsService,
  ) {}

  @Get('new')
  async empty(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const { sizes, suppliers } = await this.views.all(visit.studio.id);
    return page(reply, NewItemPage({ visit, sizes, suppliers, formKey: this.random.id() }));
  }

  @Post('new')
  async add(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const sent = body ?? {};
    const formKey = formKeyOf(sent, this.random);
    try {
      const made = await this.items.addItem(visit.studio.id, visit.account, withUnits(sent), formKey);
      return seeOther(reply, `/s/${slug}/desk/shelf/items/${made.itemId}?done=added`);
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'bad_input') throw error;
      const { sizes, suppliers } = await this.views.all(visit.studio.id);
      const again = { visit, sizes, suppliers, formKey, sent: { values: sent, errors: error.fields } };
      return page(reply, NewItemPage(again), error.status);
    }
  }

  @Get(':id')
  async show(
    @Param('slug') slug: string,
    @Param('id', itemId) id: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const view = await this.views.item(visit.studio.id, id);
    return page(reply, ItemPage({ visit, view, notice: DONE.get(done) }));
  }

  @Post(':id')
  async edit(
    @Param('slug') slug: string,
    @Param('id', itemId) id: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const values = body ?? {};
    const { suppliers } = await this.views.all(visit.studio.id);
    try {
      await this.items.editItem(visit.studio.id, visit.account, id, withUnits(values), (item) =>
        refuseChanged(values, answersOf(item), namesOf(suppliers)),
      );
      return seeOther(reply, `/s/${slug}/desk/shelf/items/${id}?done=changed`);
    } catch (error) {
      if (!(error instanceof AppError) || !TOLD_BESIDE.includes(error.code)) throw error;
      const view = await this.views.item(visit.studio.id, id);
      const sent: SentItem = { values, errors: error.fields };
      return page(reply, ItemPage({ visit, view, sent }), error.status);
    }
  }
}
