// The door of what is to be mixed.
import { Controller, Get, Param, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../../accounts/visits.service.js';
import { page } from '../../platform/http.js';
import { PlanningService } from '../../stock/planning.service.js';
import { MixingPage } from './mixing.pages.js';

@Controller('s/:slug/desk/shelf/mixing')
export class MixingWeb {
  constructor(
    private readonly visits: Visits,
    private readonly planning: PlanningService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    return page(reply, MixingPage({ visit, horizon: await this.planning.ahead(visit.studio.id) }));
  }
}
