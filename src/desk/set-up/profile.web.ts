// What visitors read of the studio: its name, its words, and how to reach it. For the owner.
import { Body, Controller, Get, Post, Param, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../../accounts/visits.service.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { ProfilePage } from './profile.pages.js';
import { profileOf } from './set-up.calc.js';
import { SetUpService } from './set-up.service.js';

@Controller('s/:slug/desk/settings/studio')
export class ProfileWeb {
  constructor(
    private readonly visits: Visits,
    private readonly setUp: SetUpService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const notice = done === 'yes' ? ({ tone: 'good', text: 'Done.' } as const) : undefined;
    return page(reply, ProfilePage({ visit, values: { ...profileOf(visit.studio) }, notice }));
  }

  @Post()
  async save(
    @Param('slug') slug: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const values = body ?? {};
    try {
      await this.setUp.saveProfile(visit.studio.id, visit.account, values);
      return seeOther(reply, `/s/${slug}/desk/settings/studio?done=yes`);
    } catch (error) {
      if (!(error instanceof AppError) || !TOLD_BESIDE.includes(error.code)) throw error;
      return page(reply, ProfilePage({ visit, values, problems: error.fields }), error.status);
    }
  }
}
