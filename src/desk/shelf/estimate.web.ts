// What plates would take, by the studio's own figures: works from its address alone and changes nothing.
import { Controller, Get, Param, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../../accounts/visits.service.js';
import { page } from '../../platform/http.js';
import { AppError } from '../../platform/problems.js';
import { EstimatePage } from './estimate.pages.js';
import { EstimateService } from './estimate.service.js';

@Controller('s/:slug/desk/shelf/estimate')
export class EstimateWeb {
  constructor(
    private readonly visits: Visits,
    private readonly estimates: EstimateService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Query() sent: Record<string, unknown>,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    const now = await this.estimates.reckon(visit.studio.id, sent);
    const status = now.problems.length > 0 ? new AppError('bad_input').status : 200;
    return page(reply, EstimatePage({ visit, now, answers: sent }), status);
  }
}
