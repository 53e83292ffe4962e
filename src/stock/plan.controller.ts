// The JSON door of the shelf ahead.
import { Controller, Get, Param, Req } from '@nestjs/common';
import type { FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { Describe } from '../platform/openapi.js';
import { planAnswer, toPlanAnswer } from './plan-api.schemas.js';
import { PlanningService } from './planning.service.js';

@Controller('api/v1/s/:slug/shelf/plan')
export class PlanController {
  constructor(
    private readonly visits: Visits,
    private readonly planning: PlanningService,
  ) {}

  @Describe({
    summary:
      'The shelf ahead: every item day by day, what to mix and order by when, and how each place stands',
    staff: true,
    answer: planAnswer,
  })
  @Get()
  async plan(@Param('slug') slug: string, @Req() request: FastifyRequest) {
    const { studioId } = await this.visits.apiStaff(slug, request, ['owner', 'assistant']);
    return toPlanAnswer(await this.planning.ahead(studioId));
  }
}
