// What people change on their own page beside the place itself: what they agree to.
import { Body, Controller, Param, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { seeOther } from '../platform/http.js';
import { AppError } from '../platform/problems.js';
import { ConsentsService } from './consents.service.js';

@Controller('s/:slug/place/:token')
export class PlaceWeb {
  constructor(
    private readonly visits: Visits,
    private readonly consents: ConsentsService,
  ) {}

  @Post('consents')
  async answer(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    const own = `/s/${slug}/place/${token}`;
    try {
      await this.consents.answer(studio.id, { token }, body ?? {});
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'wrong_state') throw error;
      return seeOther(reply, `${own}?done=words-changed`);
    }
    return seeOther(reply, `${own}?done=consent`);
  }
}
