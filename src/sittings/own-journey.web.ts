// The form about the journey to a sitting, behind the contact's own link.
import { Body, Controller, Get, Param, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { journeyAnswers, OwnJourneys } from '../people/own-journey.service.js';
import { page, seeOther } from '../platform/http.js';
import { AppError } from '../platform/problems.js';
import { ListService } from './list.service.js';
import { OwnJourneyPage } from './own-journey.pages.js';
import { OwnJourneyService } from './own-journey.service.js';

@Controller('s/:slug/place/:token/journey')
export class OwnJourneyWeb {
  constructor(
    private readonly visits: Visits,
    private readonly list: ListService,
    private readonly journeys: OwnJourneys,
    private readonly own: OwnJourneyService,
  ) {}

  @Get()
  async form(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<string> {
    const { studio, formToken, spoken } = await this.visits.guest(slug, request, reply);
    const { view } = await this.list.behindLink(studio.id, token);
    const back = `/s/${slug}/place/${token}`;
    const props = { studio, formToken, back, spoken };
    return page(reply, OwnJourneyPage({ ...props, answers: journeyAnswers(view.contact) }));
  }

  @Post()
  async tell(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<string> {
    const { studio, formToken, spoken } = await this.visits.guest(slug, request, reply);
    const { view } = await this.list.behindLink(studio.id, token);
    const back = `/s/${slug}/place/${token}`;
    const read = this.journeys.read(body ?? {}, view.contact);
    if (!read.ok) {
      const props = { studio, formToken, back, spoken, ...read };
      return page(reply, OwnJourneyPage(props), new AppError('bad_input').status);
    }
    await this.own.tell(studio.id, token, read.journey);
    return seeOther(reply, `${back}?done=journey`);
  }
}
