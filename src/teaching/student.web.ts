// The page of who signed up, by the secret of its address, and what is done on it.
import { Body, Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { feedPath } from '../accounts/links.service.js';
import { Visits } from '../accounts/visits.service.js';
import { LettersToCome } from '../people/letters-to-come.service.js';
import { Config } from '../platform/config.js';
import { page, seeOther } from '../platform/http.js';
import { AppError, TOLD_BESIDE } from '../platform/problems.js';
import { refuseChanged } from '../platform/seen.js';
import { firmPlace } from './firm-place.calc.js';
import { OwnSignUpService } from './own-sign-up.service.js';
import { type Answers, sizesShown, toDetails } from './sign-up-form.calc.js';
import { StudentPage } from './student.pages.js';
import { TurnsService } from './turns.service.js';
import { TeachingViews } from './views.service.js';

const LATE = new Map([
  ['wrong_state', 'already'],
  ['offer_ran_out', 'ran-out'],
]);

@Controller('s/:slug')
export class StudentWeb {
  constructor(
    private readonly config: Config,
    private readonly visits: Visits,
    private readonly views: TeachingViews,
    private readonly own: OwnSignUpService,
    private readonly turns: TurnsService,
    private readonly letters: LettersToCome,
  ) {}

  @Get('student/:token')
  async page(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.showOwn(slug, token, request, reply, { done }, 200);
  }

  /** What the day needs to know of all students of the sign-up, in one go. */
  @Post('student/:token/students')
  async tell(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    const values = body ?? {};
    try {
      await this.own.tellDetailsOfSeveral(studio.id, token, toDetails(values), (students) =>
        refuseChanged(values, sizesShown(students)),
      );
    } catch (error) {
      if (!(error instanceof AppError)) throw error;
      const late = LATE.get(error.code);
      if (late) return seeOther(reply, `/s/${slug}/student/${token}?done=${late}`);
      if (!TOLD_BESIDE.includes(error.code)) throw error;
      const sent = { values, errors: error.fields };
      return this.showOwn(slug, token, request, reply, { sent }, error.status);
    }
    return seeOther(reply, `/s/${slug}/student/${token}?done=told`);
  }

  @Post('student/:token/accept')
  accept(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.act(slug, token, request, reply, 'accepted', (id) => this.own.accept(id, token));
  }

  @Post('student/:token/refuse')
  refuse(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.act(slug, token, request, reply, 'refused', (id) => this.own.refuse(id, token));
  }

  @Post('student/:token/leave')
  leave(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.act(slug, token, request, reply, 'left', (id) => this.own.leave(id, token));
  }

  /** Acts, and goes back to the person's page, which tells what was done or that it was too late. */
  private async act(
    slug: string,
    token: string,
    request: FastifyRequest,
    reply: FastifyReply,
    done: string,
    act: (studioId: string) => Promise<void>,
  ): Promise<string> {
    const { studio } = await this.visits.visitor(slug, request, reply);
    const own = `/s/${slug}/student/${token}`;
    try {
      await act(studio.id);
    } catch (error) {
      const late = error instanceof AppError ? LATE.get(error.code) : undefined;
      if (late === undefined) throw error;
      return seeOther(reply, `${own}?done=${late}`);
    }
    return seeOther(reply, `${own}?done=${done}`);
  }

  private async showOwn(
    slug: string,
    token: string,
    request: FastifyRequest,
    reply: FastifyReply,
    shown: Pick<Parameters<typeof StudentPage>[0], 'done' | 'sent'>,
    status: number,
  ): Promise<string> {
    const { studio, formToken, spoken } = await this.visits.guest(slug, request, reply);
    const { safety, sizes, after, feedToken, ...view } = await this.views.behindLink(studio.id, token);
    const begun = view.day !== null && this.views.begun(view.day.place);
    const path = `/s/${slug}/student/${token}`;
    const feedUrl = feedToken && `${this.config.publicUrl}${feedPath(slug, feedToken)}`;
    const here = view.signUp.state === 'signed' || view.signUp.state === 'attended';
    const turns = view.day && here ? await this.turns.kept(studio.id, view.day.session.id) : null;
    const letters = await this.letters.of(studio, firmPlace(view, begun));
    const about = { studio, view, safety, sizes, after, begun, letters };
    const props = { ...about, feedUrl, formToken, path, turns, spoken };
    return page(reply, StudentPage({ ...props, ...shown }), status);
  }
}
