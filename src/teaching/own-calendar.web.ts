// "Put this on my phone": the page of a student’s own calendar, behind their link, and what they do with it.
import { Body, Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { feedPath } from '../accounts/links.service.js';
import { Visits } from '../accounts/visits.service.js';
import { Config } from '../platform/config.js';
import { page, seeOther } from '../platform/http.js';
import { OwnCalendarPage } from './own-calendar.pages.js';
import { OwnSignUpCalendar } from './own-calendar.service.js';

@Controller('s/:slug/student/:token/calendar')
export class StudentCalendarWeb {
  constructor(
    private readonly config: Config,
    private readonly visits: Visits,
    private readonly own: OwnSignUpCalendar,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<string> {
    const { studio, formToken, spoken } = await this.visits.guest(slug, request, reply);
    const { feedToken, contact, travel } = await this.own.show(studio.id, token);
    const feedUrl = `${this.config.publicUrl}${feedPath(slug, feedToken)}`;
    const back = `/s/${slug}/student/${token}`;
    const props = { feedUrl, formToken, back, travel, homeKnown: contact.home !== null };
    return page(reply, OwnCalendarPage({ studio, done, spoken, ...props }));
  }

  @Post()
  async act(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<string> {
    const { studio } = await this.visits.visitor(slug, request, reply);
    const act = await this.own.act(studio.id, token, body ?? {});
    return seeOther(reply, `/s/${slug}/student/${token}/calendar?done=${act.replace(' ', '-')}`);
  }
}
