// The JSON door of the plates of a day: looking at them, and typing them in.
import { Body, Controller, Get, Param, Put, Req } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { readDay } from '../platform/day-in-path.js';
import { Describe } from '../platform/openapi.js';
import { madeDayAnswer, toMadeDay } from './made-api.schemas.js';
import { typedDay } from './made.schemas.js';
import { MadeService } from './made.service.js';

@Controller('api/v1/s/:slug/desk/days/:date/plates')
export class MadeController {
  constructor(
    private readonly visits: Visits,
    private readonly made: MadeService,
  ) {}

  @Describe({
    summary: 'The plates made on a day, and what can be chosen for them',
    staff: true,
    answer: madeDayAnswer,
    problems: ['not_found'],
  })
  @Get()
  async show(@Param('slug') slug: string, @Param('date') date: string, @Req() request: FastifyRequest) {
    const { studioId } = await this.visits.apiStaff(slug, request, ['owner', 'assistant']);
    return toMadeDay(await this.made.day(studioId, readDay(date)));
  }

  @Describe({
    summary:
      'Type plates of a day in: a new id is a new plate with the next number, a known one is corrected; sent again it changes nothing',
    staff: true,
    body: typedDay,
    answer: madeDayAnswer,
    problems: ['not_found', 'wrong_state'],
  })
  @Put()
  async save(
    @Param('slug') slug: string,
    @Param('date') date: string,
    @Body() body: unknown,
    @Req() request: FastifyRequest,
  ) {
    const { studioId, account } = await this.visits.apiStaff(slug, request, ['owner', 'assistant']);
    const day = readDay(date);
    await this.made.save(studioId, account, day, body);
    return toMadeDay(await this.made.day(studioId, day));
  }
}
