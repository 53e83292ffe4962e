// The form about the journey to a day of teaching, behind the link of who signed up.
import { Body, Controller, Get, Param, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { journeyAnswers, OwnJourneys } from '../people/own-journey.service.js';
import { page, seeOther } from '../platform/http.js';
import { AppError } from '../platform/problems.js';
import { refuseChanged } from '../platform/seen.js';
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
    const shown = journeyAnswers(contact);
    return page(reply, OwnJourneyPage({ studio, formToken, back, spoken, shown, answers: shown }));
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
    const answers = body ?? {};
    const read = this.journeys.read(answers, contact);
    const props = { studio, formToken, back, spoken, shown: journeyAnswers(contact) };
    if (!read.ok) {
      return page(reply, OwnJourneyPage({ ...props, ...read }), new AppError('bad_input').status);
    }
    try {
      await this.own.tellJourney(studio.id, token, read.journey, (stands) =>
        refuseChanged(answers, journeyAnswers(stands)),
      );
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'changed_meanwhile') throw error;
      return page(reply, OwnJourneyPage({ ...props, answers, errors: error.fields }), error.status);
    }
    return seeOther(reply, `${back}?done=journey`);
  }
}
