// What people change on their own page beside the place itself: what they agree to, their details, and what they ask
// the studio to change.
import { Body, Controller, Get, Param, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type Guest, Visits } from '../accounts/visits.service.js';
import { page, seeOther } from '../platform/http.js';
import { AppError, PROBLEMS, TOLD_BESIDE } from '../platform/problems.js';
import { refuseChanged } from '../platform/seen.js';
import { hasRunOut, ShowsFormAgain } from '../platform/security/forms.js';
import { LANGUAGE_NAMES } from '../words/languages.js';
import type { Answers } from './ask-form.calc.js';
import { AskHomes } from './ask-homes.service.js';
import { ConsentsService } from './consents.service.js';
import { CorrectPage, type CorrectProps } from './correct.pages.js';
import { firstCorrections, homeUnchanged, toCorrections } from './corrections.calc.js';
import { CORRECTED_IN } from './corrections.schemas.js';
import { CorrectionsService } from './corrections.service.js';
import { ListService } from './list.service.js';

@Controller('s/:slug/place/:token')
export class PlaceWeb {
  constructor(
    private readonly visits: Visits,
    private readonly consents: ConsentsService,
    private readonly corrections: CorrectionsService,
    private readonly list: ListService,
    private readonly homes: AskHomes,
  ) {}

  @Post('consents')
  async answer(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Body() body: Record<string, unknown> | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    const own = `/s/${slug}/place/${token}`;
    try {
      await this.consents.answer(studio.id, { token }, body ?? {});
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'wrong_state') throw error;
      return seeOther(reply, `${own}?done=words-changed`);
    }
    return seeOther(reply, `${own}?done=consent`);
  }
  @Get('details')
  async details(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.guest(slug, request, reply);
    return this.show(visit, token, reply, {}, 200);
  }

  @ShowsFormAgain()
  @Post('details')
  async correct(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.guest(slug, request, reply);
    const sent = body ?? {};
    if (hasRunOut(request)) return this.late(visit, token, reply, { answers: sent });
    const { view } = await this.list.behindLink(visit.studio.id, token);
    const answers = homeUnchanged(sent, view) ? sent : this.homes.withHome(sent);
    return this.orAgain(reply, `/s/${slug}/place/${token}`, {
      act: async () => {
        const input = toCorrections(answers, view);
        const changed = await this.corrections.correct(visit.studio.id, token, input, (stands) =>
          refuseChanged(answers, firstCorrections(stands), spokenChoices(visit)),
        );
        return changed ? 'corrected' : 'as-before';
      },
      again: (problems, status) =>
        this.show(visit, token, reply, { answers, ...this.homes.explain(answers, problems) }, status),
    });
  }

  @ShowsFormAgain()
  @Post('wish')
  async wish(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.guest(slug, request, reply);
    const answers = body ?? {};
    if (hasRunOut(request)) return this.late(visit, token, reply, { asking: { answers, problems: [] } });
    return this.orAgain(reply, `/s/${slug}/place/${token}`, {
      act: async () => {
        await this.corrections.wish(visit.studio.id, token, { words: answers.words ?? '' }, (stands) =>
          refuseChanged(answers, { words: stands?.words ?? '' }),
        );
        return 'wished';
      },
      again: (problems, status) => this.show(visit, token, reply, { asking: { answers, problems } }, status),
    });
  }

  /** Back to the person's page; the form again where something of it is wrong. */
  private async orAgain(
    reply: FastifyReply,
    own: string,
    {
      act,
      again,
    }: {
      act: () => Promise<string>;
      again: (problems: AppError['fields'], status: number) => Promise<string>;
    },
  ): Promise<string> {
    try {
      return seeOther(reply, `${own}?done=${await act()}`);
    } catch (error) {
      if (!(error instanceof AppError)) throw error;
      if (error.code === 'wrong_state') return seeOther(reply, `${own}?done=over`);
      if (!TOLD_BESIDE.includes(error.code)) throw error;
      return again(error.fields, error.status);
    }
  }

  /** A form that came too late, to be sent again; one for what is not there is told to be too late as well. */
  private async late(
    visit: Guest,
    token: string,
    reply: FastifyReply,
    shown: Partial<CorrectProps>,
  ): Promise<string> {
    try {
      const again = { ...shown, notice: visit.spoken.words.correct.tooLate };
      return await this.show(visit, token, reply, again, PROBLEMS.form_expired.status);
    } catch (error) {
      if (error instanceof AppError && error.code === 'not_found') throw new AppError('form_expired');
      throw error;
    }
  }

  private async show(
    { studio, formToken, spoken }: Guest,
    token: string,
    reply: FastifyReply,
    shown: Partial<CorrectProps>,
    status: number,
  ): Promise<string> {
    const path = `/s/${studio.slug}/place/${token}`;
    const { view } = await this.list.behindLink(studio.id, token);
    if (!CORRECTED_IN.includes(view.sitting.state)) return seeOther(reply, `${path}?done=over`);
    const wish = await this.corrections.wishOf(studio.id, view.sitting.id);
    reply.header('cache-control', 'private, no-store');
    const stands = firstCorrections(view);
    const props = { studio, view, wish, formToken, path, spoken, stands, answers: stands };
    return page(reply, CorrectPage({ ...props, ...shown }), status);
  }
}

/** How the choices of the form read. */
const spokenChoices = ({ spoken }: Guest): Record<string, string> => ({
  ...LANGUAGE_NAMES,
  ...spoken.words.asking.you.ways,
});
