// The form about the journey to a day of teaching, behind the link of who signed up.
import { Body, Controller, Get, Param, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { journeyAnswers, OwnJourneys } from '../people/own-journey.service.js';
import { page, seeOther } from '../platform/http.js';
import { AppError } from '../platform/problems.js';
import { OwnJourneyPage } from './own-journey.pages.js';
import { OwnSignUpService } from './own-sign-up.service.js';
import { TeachingViews } from './views.service.js';

@Controller('s/:slug/student/:token/journey')
export class StudentJourneyWeb {
  constructor(
    private readonly visits: Visits,
    private readonly views: TeachingViews,
    private readonly journeys: OwnJourneys,
    private readonly own: OwnSignUpService,
  ) {}

  @Get()
  async form(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<string> {
    const { studio, formToken, spoken } = await this.visits.guest(slug, request, reply);
    const { contact } = await this.views.behindLink(studio.id, token);
    const back = `/s/${slug}/student/${token}`;
    const props = { studio, formToken, back, spoken };
    return page(reply, OwnJourneyPage({ ...props, answers: journeyAnswers(contact) }));
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
    const { contact } = await this.views.behindLink(studio.id, token);
    const back = `/s/${slug}/student/${token}`;
    const read = this.journeys.read(body ?? {}, contact);
    if (!read.ok) {
      const props = { studio, formToken, back, spoken, ...read };
      return page(reply, OwnJourneyPage(props), new AppError('bad_input').status);
    }
    await this.own.tellJourney(studio.id, token, read.journey);
    return seeOther(reply, `${back}?done=journey`);
  }
}
