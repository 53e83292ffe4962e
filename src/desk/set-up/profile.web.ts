// What visitors read of the studio: its name, its words, and how to reach it. For the owner.
import { Body, Controller, Get, Post, Param, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../../accounts/visits.service.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError, TOLD_BESIDE } from '../../platform/problems.js';
import { markAgain, seenOf } from '../../platform/seen.js';
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
    const shown = profileOf(visit.studio);
    const notice = done === 'yes' ? ({ tone: 'good', text: 'Done.' } as const) : undefined;
    return page(reply, ProfilePage({ visit, values: { ...shown }, seen: seenOf(shown), notice }));
  }

  @Post()
  async save(
    @Param('slug') slug: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    try {
      await this.setUp.saveProfile(visit.studio.id, visit.account, body ?? {});
      return seeOther(reply, `/s/${slug}/desk/settings/studio?done=yes`);
    } catch (error) {
      if (!(error instanceof AppError) || !TOLD_BESIDE.includes(error.code)) throw error;
      // what stands there now, since it is told beside the boxes
      const { studio } = await this.visits.staff(slug, request, reply, ['owner']);
      const seen = markAgain(profileOf(studio), body ?? {}, error.code);
      const props = { visit, values: body ?? {}, seen, problems: error.fields };
      return page(reply, ProfilePage(props), error.status);
    }
  }
}
