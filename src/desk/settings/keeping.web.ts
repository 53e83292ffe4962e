// The doors of the rules of keeping. For the owner alone.
import { Body, Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../../accounts/visits.service.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { refuseChanged } from '../../platform/seen.js';
import { KeepingService } from '../../privacy/keeping.service.js';
import type { Answers } from './forms.calc.js';
import { answersOf, KeepingPage } from './keeping.pages.js';

@Controller('s/:slug/desk/settings/keeping')
export class KeepingWeb {
  constructor(
    private readonly visits: Visits,
    private readonly keeping: KeepingService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const found = await this.keeping.found(visit.studio.id);
    const notice =
      done === 'kept' ? ({ tone: 'good', text: 'These rules hold from tonight.' } as const) : undefined;
    return page(reply, KeepingPage({ visit, found, notice }));
  }

  @Post()
  async save(
    @Param('slug') slug: string,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const answers = body ?? {};
    try {
      await this.keeping.save(visit.studio.id, visit.account, answers, (rules) =>
        refuseChanged(answers, answersOf(rules)),
      );
    } catch (error) {
      if (!(error instanceof AppError) || !TOLD_BESIDE.includes(error.code)) throw error;
      const found = await this.keeping.found(visit.studio.id);
      return page(
        reply,
        KeepingPage({ visit, found, sent: { answers, problems: error.fields } }),
        error.status,
      );
    }
    return seeOther(reply, `/s/${slug}/desk/settings/keeping?done=kept`);
  }
}
