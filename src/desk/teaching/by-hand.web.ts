// The doors of what the owner types in for somebody on the telephone: a sign-up, an answer to an offer, a place given
// back.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { Random } from '../../platform/clock.js';
import { formKeyOf } from '../../platform/html/kit/form.js';
import { page, seeOther } from '../../platform/http.js';
import { readInput } from '../../platform/input.js';
import { AppError, type FieldProblem } from '../../platform/problems.js';
import { OwnSignUpService } from '../../teaching/own-sign-up.service.js';
import { SignUpsService } from '../../teaching/sign-ups.service.js';
import { TeachingViews } from '../../teaching/views.service.js';
import type { Notice } from '../frame.pages.js';
import { problemsOnShortForm, typedSignUp } from './by-hand.calc.js';
import { TeachingUndoActs } from './undo.service.js';
import { ByHandPage } from './by-hand.pages.js';

type Sent = Record<string, unknown>;

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This is not known here.'),
});
const ANSWERS = ['accept', 'refuse', 'leave'] as const;
const answerForm = z.object({ answer: z.enum(ANSWERS, 'Please choose again.') });
/** What is no fault and is told over the form, with what was typed. */
const AGAIN = ['bad_input', 'place_taken', 'short_of_stock', 'wrong_state'];
const LATE = new Map([
  ['wrong_state', 'already'],
  ['offer_ran_out', 'ran-out'],
]);

@Controller('s/:slug/desk/teaching')
export class TeachingByHandWeb {
  constructor(
    private readonly visits: Visits,
    private readonly random: Random,
    private readonly views: TeachingViews,
    private readonly signUps: SignUpsService,
    private readonly own: OwnSignUpService,
    private readonly undo: TeachingUndoActs,
  ) {}

  @Get(':id/sign-up')
  async form(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.show(visit, sessionId, { answers: {}, formKey: this.random.id() }, reply, 200);
  }

  @Post(':id/sign-up')
  async signUp(
    @Param('slug') slug: string,
    @Param('id', id) sessionId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const answers = body ?? {};
    const formKey = formKeyOf(answers, this.random);
    try {
      const { name } = visit.account;
      const input = typedSignUp(answers);
      const made = await this.signUps.signUp(visit.studio.id, sessionId, input, formKey, name);
      return seeOther(reply, `/s/${slug}/desk/teaching/${sessionId}?done=signed-up#sign-up-${made.signUpId}`);
    } catch (error) {
      if (!(error instanceof AppError) || !AGAIN.includes(error.code)) throw error;
      const problems = problemsOnShortForm(error.fields);
      const notice = problems.length > 0 ? undefined : ({ tone: 'bad', text: error.detail } as const);
      return this.show(visit, sessionId, { answers, formKey, problems, notice }, reply, error.status);
    }
  }

  @Post('sign-ups/:id/answer')
  async answer(
    @Param('slug') slug: string,
    @Param('id', id) signUpId: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const { answer } = readInput(answerForm, body ?? {});
    const by = { signUpId, who: visit.account.name };
    const acts: Record<(typeof ANSWERS)[number], () => Promise<void>> = {
      accept: () => this.own.accept(visit.studio.id, by),
      refuse: () => this.own.refuse(visit.studio.id, by),
      leave: () => this.own.leave(visit.studio.id, by),
    };
    let done: string = answer;
    try {
      await acts[answer]();
    } catch (error) {
      const late = error instanceof AppError ? LATE.get(error.code) : undefined;
      if (late === undefined) throw error;
      done = late;
    }
    const day = await this.views.dayOf(visit.studio.id, signUpId).catch(noDay);
    return seeOther(reply, `/s/${slug}/desk/teaching${day ? `/${day}` : ''}?done=${done}`);
  }

  /** Their own page, to fill in what the day needs to know while they are on the telephone. */
  @Post('sign-ups/:id/page')
  async theirPage(
    @Param('slug') slug: string,
    @Param('id', id) signUpId: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const token = await this.views.tokenOf(visit.studio.id, signUpId);
    return seeOther(reply, `/s/${slug}/student/${token}`);
  }

  @Post('sign-ups/:id/undo')
  async takeBack(
    @Param('slug') slug: string,
    @Param('id', id) signUpId: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    let done = 'undone';
    try {
      await this.undo.takeBack(visit.studio.id, visit.account, signUpId);
    } catch (error) {
      if (!(error instanceof AppError) || error.code === 'not_found') throw error;
      done = error.code === 'wrong_state' ? 'not-undone' : 'no-place';
    }
    const day = await this.views.dayOf(visit.studio.id, signUpId).catch(noDay);
    return seeOther(reply, `/s/${slug}/desk/teaching${day ? `/${day}` : ''}?done=${done}`);
  }

  private async show(
    visit: StaffVisit,
    sessionId: string,
    shown: { answers: Sent; formKey: string; problems?: FieldProblem[]; notice?: Notice | undefined },
    reply: FastifyReply,
    status: number,
  ): Promise<string> {
    const day = await this.views.session(visit.studio.id, sessionId);
    return page(reply, ByHandPage({ visit, day, ...shown }), status);
  }
}

/** One-to-one teaching that was only asked for has no day. */
function noDay(error: unknown): null {
  if (error instanceof AppError && error.code === 'not_found') return null;
  throw error;
}
