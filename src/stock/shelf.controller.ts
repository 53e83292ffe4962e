// The JSON door of the shelf: how it stands, what has come, counting, throwing away, mixing.
import { Body, Controller, Get, Headers, HttpCode, Param, ParseUUIDPipe, Post, Req } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { readKey } from '../platform/idempotency.js';
import { Describe } from '../platform/openapi.js';
import { AppError } from '../platform/problems.js';
import { PouringService } from './pouring.service.js';
import { ShelfService } from './shelf.service.js';
import { bottleMade, shelfAnswer, toShelfAnswer } from './shelf-api.schemas.js';
import { countForm, mixForm, reasonForm, receiveForm } from './shelf-forms.schemas.js';
import { ShelfViews } from './shelf-views.service.js';

const bottle = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This bottle is not known here.'),
});

@Controller('api/v1/s/:slug/shelf')
export class ShelfController {
  constructor(
    private readonly visits: Visits,
    private readonly views: ShelfViews,
    private readonly shelf: ShelfService,
    private readonly pouring: PouringService,
  ) {}

  @Describe({ summary: 'What is on the shelf, with every bottle and box', staff: true, answer: shelfAnswer })
  @Get()
  async wholeShelf(@Param('slug') slug: string, @Req() request: FastifyRequest) {
    const { studioId } = await this.visits.apiStaff(slug, request, ['owner', 'assistant']);
    return toShelfAnswer(await this.views.all(studioId));
  }

  @Describe({
    summary: 'Put a new bottle, batch or box on the shelf',
    staff: true,
    body: receiveForm,
    answer: bottleMade,
    keyed: 'honoured',
    problems: ['bad_input'],
  })
  @Post('bottles')
  async receiveBottle(
    @Param('slug') slug: string,
    @Headers('idempotency-key') key: string | undefined,
    @Body() body: unknown,
    @Req() request: FastifyRequest,
  ) {
    const { studioId, account } = await this.visits.apiStaff(slug, request, ['owner', 'assistant']);
    const { lotId } = await this.shelf.receive(studioId, account, body, readKey(key));
    return { bottleId: lotId };
  }

  @Describe({
    summary: 'Note how much was counted or weighed in a bottle',
    staff: true,
    body: countForm,
    status: 204,
    keyed: 'honoured',
    problems: ['bad_input', 'not_found'],
  })
  @Post('bottles/:id/count')
  @HttpCode(204)
  async countBottle(
    @Param('slug') slug: string,
    @Param('id', bottle) id: string,
    @Headers('idempotency-key') key: string | undefined,
    @Body() body: unknown,
    @Req() request: FastifyRequest,
  ) {
    const { studioId, account } = await this.visits.apiStaff(slug, request, ['owner', 'assistant']);
    await this.shelf.count(studioId, account, id, body, readKey(key));
  }

  @Describe({
    summary: 'Throw away all that is in a bottle',
    staff: true,
    body: reasonForm,
    status: 204,
    keyed: 'honoured',
    problems: ['not_found', 'wrong_state'],
  })
  @Post('bottles/:id/discard')
  @HttpCode(204)
  async discardBottle(
    @Param('slug') slug: string,
    @Param('id', bottle) id: string,
    @Headers('idempotency-key') key: string | undefined,
    @Body() body: unknown,
    @Req() request: FastifyRequest,
  ) {
    const { studioId, account } = await this.visits.apiStaff(slug, request, ['owner', 'assistant']);
    await this.shelf.discard(studioId, account, id, body ?? {}, readKey(key));
  }

  @Describe({
    summary:
      'Mix a batch: its ingredients are taken from their bottles, and it is usable once it has ripened',
    staff: true,
    body: mixForm,
    answer: bottleMade,
    keyed: 'honoured',
    problems: ['bad_input', 'not_found', 'wrong_state'],
  })
  @Post('batches')
  async mixBatch(
    @Param('slug') slug: string,
    @Headers('idempotency-key') key: string | undefined,
    @Body() body: unknown,
    @Req() request: FastifyRequest,
  ) {
    const { studioId, account } = await this.visits.apiStaff(slug, request, ['owner', 'assistant']);
    const { lotId } = await this.pouring.mixBatch(studioId, account, body, readKey(key));
    return { bottleId: lotId };
  }
}
