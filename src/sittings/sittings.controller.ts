// The JSON door of sittings: open places, asking, the contact's own view, the owner's decisions.
import {
  Body,
  Controller,
  Get,
  Headers,
  HttpCode,
  Param,
  ParseUUIDPipe,
  Post,
  Query,
  Req,
} from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { Visits } from '../accounts/visits.service.js';
import { toReminders } from '../people/letters-to-come.schemas.js';
import { LettersToCome } from '../people/letters-to-come.service.js';
import { Clock } from '../platform/clock.js';
import { readKey } from '../platform/idempotency.js';
import { readInput } from '../platform/input.js';
import { Describe } from '../platform/openapi.js';
import { AppError } from '../platform/problems.js';
import { StudiosService } from '../studios/studios.service.js';
import {
  approveBody,
  declineBody,
  openingsAnswer,
  openingsQuery,
  ownSittingAnswer,
  requestAnswer,
  sittingAnswer,
  toOpenings,
  toSittingAnswer,
} from './api.schemas.js';
import { DecisionsService } from './decisions.service.js';
import { firmPlace } from './firm-place.calc.js';
import { ListService } from './list.service.js';
import { OffersService } from './offers.service.js';
import { OpeningsService } from './openings.service.js';
import { sittingRequest } from './request.schemas.js';
import { RequestsService } from './requests.service.js';
import type { SittingState } from './states.calc.js';
import { SittingViews } from './views.service.js';

const uuid = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This request is not known here.'),
});

@Controller('api/v1/s/:slug')
export class SittingsController {
  constructor(
    private readonly visits: Visits,
    private readonly studios: StudiosService,
    private readonly openings: OpeningsService,
    private readonly clock: Clock,
    private readonly requests: RequestsService,
    private readonly decisions: DecisionsService,
    private readonly views: SittingViews,
    private readonly list: ListService,
    private readonly offers: OffersService,
    private readonly letters: LettersToCome,
  ) {}

  @Describe({
    summary: 'Every open place up to the booking horizon',
    query: openingsQuery,
    answer: openingsAnswer,
  })
  @Get('openings')
  async listOpenings(@Param('slug') slug: string, @Query() query: unknown) {
    const { plates, sitters, kind } = readInput(openingsQuery, query);
    const { studio, days } = await this.openings.all(await this.studios.idAt(slug), plates, {
      sitters,
      kindId: kind,
    });
    return toOpenings(studio.zone, days);
  }

  @Describe({
    summary: 'Ask for a sitting',
    body: sittingRequest,
    answer: requestAnswer,
    keyed: 'needed',
  })
  @Post('requests')
  async ask(
    @Param('slug') slug: string,
    @Headers('idempotency-key') key: string | undefined,
    @Body() body: unknown,
  ) {
    const goodKey = readKey(key);
    if (goodKey === undefined)
      throw new AppError(
        'unreadable',
        'An Idempotency-Key header is needed, so that a repeat does not ask twice.',
      );
    const done = await this.requests.ask(await this.studios.idAt(slug), body, goodKey);
    return { sittingId: done.sittingId, page: `/s/${slug}/place/${done.token}` };
  }

  @Describe({
    summary: 'A contact’s own request or place',
    answer: ownSittingAnswer,
    problems: ['not_found', 'link_expired'],
  })
  @Get('place/:token')
  async ownPlace(@Param('slug') slug: string, @Param('token') token: string) {
    const { studio, offer, ...found } = await this.list.behindLink(await this.studios.idAt(slug), token);
    const letters = await this.letters.of(studio, firmPlace(found));
    const reminders = toReminders(found.view.contact, letters);
    return { ...toSittingAnswer(found.view, offer), reminders };
  }

  @Describe({
    summary: 'Give a request or a place up',
    status: 204,
    keyed: 'honoured',
    problems: ['wrong_state', 'not_found', 'link_expired'],
  })
  @Post('place/:token/give-up')
  @HttpCode(204)
  async giveUp(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Headers('idempotency-key') key: string | undefined,
  ) {
    await this.requests.giveUp(await this.studios.idAt(slug), token, readKey(key));
  }

  @Describe({
    summary: 'Take the place offered',
    status: 204,
    keyed: 'honoured',
    problems: ['offer_ran_out', 'wrong_state', 'place_taken', 'not_found', 'link_expired'],
  })
  @Post('place/:token/accept')
  @HttpCode(204)
  async accept(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Headers('idempotency-key') key: string | undefined,
  ) {
    await this.offers.accept(await this.studios.idAt(slug), { token, key: readKey(key) });
  }

  @Describe({
    summary: 'Say no to the place offered and stay on the waiting list',
    status: 204,
    keyed: 'honoured',
    problems: ['offer_ran_out', 'wrong_state', 'not_found', 'link_expired'],
  })
  @Post('place/:token/refuse')
  @HttpCode(204)
  async refuse(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Headers('idempotency-key') key: string | undefined,
  ) {
    await this.offers.refuse(await this.studios.idAt(slug), { token, key: readKey(key) });
  }

  @Describe({
    summary: 'Give an offered or confirmed place back and wait for another day',
    status: 204,
    keyed: 'honoured',
    problems: ['offer_ran_out', 'wrong_state', 'not_found', 'link_expired'],
  })
  @Post('place/:token/another-day')
  @HttpCode(204)
  async anotherDay(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Headers('idempotency-key') key: string | undefined,
  ) {
    await this.offers.askAnotherDay(await this.studios.idAt(slug), { token, key: readKey(key) });
  }

  @Describe({
    summary: 'Requests, the waiting list, open offers, and confirmed sittings to come',
    staff: true,
    answer: z.array(sittingAnswer),
  })
  @Get('requests')
  async listRequests(@Param('slug') slug: string, @Req() request: FastifyRequest) {
    const { studioId } = await this.visits.apiStaff(slug, request);
    const states: SittingState[] = ['requested', 'waiting', 'offered', 'confirmed'];
    const { views } = await this.views.list(studioId, states, this.clock.now());
    return views.map((view) => toSittingAnswer(view));
  }

  @Describe({
    summary: 'Approve a request to an open place',
    staff: true,
    body: approveBody,
    status: 204,
    problems: ['not_found', 'wrong_state', 'not_an_opening', 'place_taken', 'short_of_stock'],
  })
  @Post('requests/:id/approve')
  @HttpCode(204)
  async approve(
    @Param('slug') slug: string,
    @Param('id', uuid) id: string,
    @Body() body: unknown,
    @Req() request: FastifyRequest,
  ) {
    const { studioId, account } = await this.visits.apiStaff(slug, request);
    const { start } = readInput(approveBody, body);
    await this.decisions.approve(studioId, account, id, readStart(start));
  }

  @Describe({
    summary: 'Give a confirmed place back for somebody who says so on the telephone',
    staff: true,
    status: 204,
    problems: ['wrong_state', 'not_found'],
  })
  @Post('requests/:id/give-back')
  @HttpCode(204)
  async giveBack(@Param('slug') slug: string, @Param('id', uuid) id: string, @Req() request: FastifyRequest) {
    const { studioId, account } = await this.visits.apiStaff(slug, request);
    await this.requests.giveBackFor(studioId, account, id);
  }

  @Describe({
    summary: 'Decline a request with a message',
    staff: true,
    body: declineBody,
    status: 204,
    problems: ['wrong_state', 'not_found'],
  })
  @Post('requests/:id/decline')
  @HttpCode(204)
  async decline(
    @Param('slug') slug: string,
    @Param('id', uuid) id: string,
    @Body() body: unknown,
    @Req() request: FastifyRequest,
  ) {
    const { studioId, account } = await this.visits.apiStaff(slug, request);
    await this.decisions.decline(studioId, account, id, readInput(declineBody, body).message);
  }
}

/** @throws AppError bad_input for a day or hour that is not in the calendar */
function readStart(text: string): Temporal.PlainDateTime {
  try {
    return Temporal.PlainDateTime.from(text, { overflow: 'reject' });
  } catch {
    throw new AppError('bad_input', undefined, [
      { field: 'start', message: 'Please choose one of the places.' },
    ]);
  }
}
