// The form about the journey to a sitting, behind the contact's own link.
import { Body, Controller, Get, Param, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { journeyAnswers, OwnJourneys } from '../people/own-journey.service.js';
import { page, seeOther } from '../platform/http.js';
import { AppError } from '../platform/problems.js';
import { refuseChanged } from '../platform/seen.js';
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
    const shown = journeyAnswers(view.contact);
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
    const { view } = await this.list.behindLink(studio.id, token);
    const back = `/s/${slug}/place/${token}`;
    const answers = body ?? {};
    const read = this.journeys.read(answers, view.contact);
    const props = { studio, formToken, back, spoken, shown: journeyAnswers(view.contact) };
    if (!read.ok) {
      return page(reply, OwnJourneyPage({ ...props, ...read }), new AppError('bad_input').status);
    }
    try {
      await this.own.tell(studio.id, token, read.journey, (stands) =>
        refuseChanged(answers, journeyAnswers(stands)),
      );
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'changed_meanwhile') throw error;
      return page(reply, OwnJourneyPage({ ...props, answers, errors: error.fields }), error.status);
    }
    return seeOther(reply, `${back}?done=journey`);
  }
}
