// Sign-in pages: parse the form, call the service, show or redirect. Opening a link changes nothing:
// the button on its page does.
import { Body, Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { agentOf, page, seeOther } from '../platform/http.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import type { Studio } from '../studios/studios.schemas.js';
import { CodePage, JoinPage, SignInLinkPage, SignInPage } from './accounts.pages.js';
import { codeForm, signInForm, signInLinkForm } from './accounts.schemas.js';
import { AccountsService } from './accounts.service.js';
import { InvitationsService } from './invitations.service.js';
import { type Visit, Visits } from './visits.service.js';
import { towards, wantedPage } from './wanted.calc.js';

const TOLD_ON_THE_PAGE = new Set<string>(['bad_input', 'wrong_sign_in', 'too_many_requests']);

type Answers = Record<string, unknown>;

@Controller('s/:slug')
export class AccountsWeb {
  constructor(
    private readonly visits: Visits,
    private readonly accounts: AccountsService,
    private readonly invitations: InvitationsService,
  ) {}

  @Get('sign-in')
  async show(
    @Param('slug') slug: string,
    @Query('to') to: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.visitor(slug, request, reply);
    const wanted = wantedPage(to);
    if (visit.account) return seeOther(reply, `/s/${slug}${wanted ?? '/desk'}`);
    return page(reply, SignInPage({ studio: visit.studio, formToken: visit.formToken, wanted }));
  }

  @Post('sign-in')
  async signIn(
    @Param('slug') slug: string,
    @Query('to') to: unknown,
    @Body() answers: Answers,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.visitor(slug, request, reply);
    const wanted = wantedPage(to);
    return this.orAgain({ ...visit, wanted }, answers, reply, async () => {
      const { email, password } = readInput(signInForm, answers);
      const secret = await this.accounts.signIn(visit.studio.id, email, password, agentOf(request));
      return this.goOn(visit.studio, secret, request, reply, wanted);
    });
  }

  /** After the password or the mailed link, for an account that asks for a code. */
  @Get('sign-in/code')
  async showCode(
    @Param('slug') slug: string,
    @Query('to') to: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio, formToken } = await this.visits.visitor(slug, request, reply);
    if (!(await this.accounts.awaitsCode(studio.id, this.visits.secretOf(studio, request))))
      return seeOther(reply, towards(`/s/${slug}/sign-in`, wantedPage(to)));
    return page(reply, CodePage({ studio, formToken, wanted: wantedPage(to) }));
  }

  @Post('sign-in/code')
  async giveCode(
    @Param('slug') slug: string,
    @Query('to') to: unknown,
    @Body() answers: Answers,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio, formToken } = await this.visits.visitor(slug, request, reply);
    const half = this.visits.secretOf(studio, request) ?? '';
    if (!(await this.accounts.awaitsCode(studio.id, half))) throw new AppError('sign_in_needed');
    try {
      const { code } = readInput(codeForm, answers);
      const secret = await this.accounts.giveCode(studio.id, half, code, agentOf(request));
      return await this.goOn(studio, secret, request, reply, wantedPage(to));
    } catch (error) {
      if (!(error instanceof AppError) || !TOLD_ON_THE_PAGE.has(error.code)) throw error;
      if (error.retryAfter !== undefined) reply.header('retry-after', error.retryAfter);
      const problems = error.fields.length > 0 ? error.fields : [{ field: 'code', message: error.detail }];
      return page(reply, CodePage({ studio, formToken, problems, wanted: wantedPage(to) }), error.status);
    }
  }

  @Post('sign-in/link')
  async askForLink(
    @Param('slug') slug: string,
    @Body() answers: Answers,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.visitor(slug, request, reply);
    return this.orAgain({ ...visit, wanted: null }, answers, reply, async () => {
      const { email } = readInput(signInLinkForm, answers);
      await this.accounts.askForLink(visit.studio.id, email);
      return page(
        reply,
        SignInPage({ studio: visit.studio, formToken: visit.formToken, email, linkSent: true }),
      );
    });
  }

  @Get('sign-in/:token')
  async showLink(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio, formToken } = await this.visits.visitor(slug, request, reply);
    await this.accounts.checkLink(studio.id, token);
    return page(reply, SignInLinkPage({ studio, formToken, token }));
  }

  @Post('sign-in/:token')
  async signInByLink(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    const secret = await this.accounts.signInByLink(studio.id, token, agentOf(request));
    return this.goOn(studio, secret, request, reply);
  }

  /** An invitation: opening it changes nothing. */
  @Get('join/:token')
  async invited(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio, formToken } = await this.visits.visitor(slug, request, reply);
    const account = await this.invitations.invited(studio.id, token);
    return page(reply, JoinPage({ studio, formToken, token, account }));
  }

  @Post('join/:token')
  async join(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Body() answers: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio, formToken } = await this.visits.visitor(slug, request, reply);
    const account = await this.invitations.invited(studio.id, token);
    try {
      const secret = await this.invitations.join(studio, token, answers ?? {}, agentOf(request));
      return await this.goOn(studio, secret, request, reply);
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'bad_input') throw error;
      const name = typeof answers?.name === 'string' ? answers.name : '';
      return page(
        reply,
        JoinPage({ studio, formToken, token, account: { ...account, name }, problems: error.fields }),
        error.status,
      );
    }
  }

  @Post('sign-out')
  async signOut(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    await this.visits.endSession(studio, request, reply);
    return seeOther(reply, `/s/${slug}`);
  }

  /** To the desk and the page of it that was asked for, or to the code where the session still waits for one. */
  private async goOn(
    studio: Studio,
    secret: string,
    request: FastifyRequest,
    reply: FastifyReply,
    wanted: string | null = null,
  ): Promise<string> {
    await this.visits.beginSession(studio, secret, request, reply);
    const half = await this.accounts.awaitsCode(studio.id, secret);
    const home = `/s/${studio.slug}`;
    return seeOther(reply, half ? towards(`${home}/sign-in/code`, wanted) : `${home}${wanted ?? '/desk'}`);
  }

  /** Shows the page again, with what was typed (not the password) and what is wrong with it. */
  private async orAgain(
    visit: Visit & { wanted: string | null },
    answers: Answers,
    reply: FastifyReply,
    act: () => Promise<string>,
  ): Promise<string> {
    try {
      return await act();
    } catch (error) {
      if (!(error instanceof AppError) || !TOLD_ON_THE_PAGE.has(error.code)) throw error;
      if (error.retryAfter !== undefined) reply.header('retry-after', error.retryAfter);
      const problems = error.fields.length > 0 ? error.fields : [{ field: 'email', message: error.detail }];
      const email = typeof answers.email === 'string' ? answers.email : '';
      const { studio, formToken, wanted } = visit;
      return page(reply, SignInPage({ studio, formToken, email, problems, wanted }), error.status);
    }
  }
}
