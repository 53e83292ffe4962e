// The doors at which somebody stops their reminders: one for mail programs and people alike, and those of their own pages.
import { Body, Controller, Get, Param, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { page, seeOther } from '../platform/http.js';
import { OneClick } from '../platform/security/one-click.js';
import { StopPage } from './stop.pages.js';
import { StopsService } from './stops.service.js';

@Controller('s/:slug')
export class StopsWeb {
  constructor(
    private readonly visits: Visits,
    private readonly stops: StopsService,
  ) {}

  @Get('reminders/:token')
  show(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.stands(slug, token, request, reply);
  }

  /** RFC 8058 3.1: acts at once, without a cookie, and sends nobody on. */
  @Post('reminders/:token')
  @OneClick()
  async stop(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    await this.stops.set(studio.id, token, false);
    return this.stands(slug, token, request, reply);
  }

  @Post('reminders/:token/again')
  async again(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    await this.stops.set(studio.id, token, true);
    return seeOther(reply, `/s/${slug}/reminders/${token}`);
  }

  @Post('place/:token/reminders')
  async ofSitting(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Body() body: { wanted?: unknown } | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    await this.stops.setOwn(studio.id, 'sitting', token, body?.wanted === 'yes');
    return seeOther(reply, `/s/${slug}/place/${token}?done=reminders`);
  }

  @Post('student/:token/reminders')
  async ofTeaching(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Body() body: { wanted?: unknown } | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    await this.stops.setOwn(studio.id, 'teaching', token, body?.wanted === 'yes');
    return seeOther(reply, `/s/${slug}/student/${token}?done=reminders`);
  }

  private async stands(
    slug: string,
    token: string,
    request: FastifyRequest,
    reply: FastifyReply,
  ): Promise<string> {
    const { studio, formToken, spoken } = await this.visits.guest(slug, request, reply);
    const { remindersStoppedAt } = await this.stops.behind(studio.id, token);
    const path = `/s/${slug}/reminders/${token}`;
    return page(reply, StopPage({ studio, stopped: remindersStoppedAt !== null, formToken, path, spoken }));
  }
}
