// The doors of one's own account: everybody who works here has one.
import { Body, Controller, Get, Param, ParseEnumPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { OwnAccountService } from '../../accounts/own-account.service.js';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { agentOf, page, seeOther } from '../../platform/http.js';
import { AppError } from '../../platform/problems.js';
import type { Notice } from '../frame.pages.js';
import { ACCOUNT_FORMS, type AccountForm, AccountPage, RecoveryCodesPage } from './account.pages.js';

const DONE = new Map<unknown, Notice>([
  ['password', { tone: 'good', text: 'The password is changed, and you are signed out everywhere else.' }],
  ['turn-off', { tone: 'good', text: 'The second step is off.' }],
  ['end', { tone: 'good', text: 'That device is signed out.' }],
  ['end-others', { tone: 'good', text: 'You are signed out everywhere else.' }],
]);

const form = new ParseEnumPipe(Object.fromEntries(ACCOUNT_FORMS.map((one) => [one, one])), {
  exceptionFactory: () => new AppError('not_found'),
});

type Answers = Record<string, unknown>;

@Controller('s/:slug/desk/account')
export class AccountWeb {
  constructor(
    private readonly visits: Visits,
    private readonly accounts: OwnAccountService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    return this.page(visit, request, reply, { notice: DONE.get(done) });
  }

  @Post(':form')
  async change(
    @Param('slug') slug: string,
    @Param('form', form) which: AccountForm,
    @Body() answers: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    try {
      const codes = await this.act(visit, which, answers ?? {}, this.visits.secretOf(visit.studio, request));
      if (which === 'password' || which === 'turn-on') await this.goOnAnew(visit, request, reply);
      if (codes) return page(reply, RecoveryCodesPage({ visit, codes }));
      return seeOther(reply, `/s/${slug}/desk/account?done=${which}`);
    } catch (error) {
      if (!(error instanceof AppError) || !['bad_input', 'too_many_requests'].includes(error.code))
        throw error;
      const asked = which === 'password' ? 'current' : 'code';
      const fields = error.fields.length > 0 ? error.fields : [{ field: asked, message: error.detail }];
      return this.page(visit, request, reply, { problems: { form: which, fields } }, error.status);
    }
  }

  /** With a session of its own, as after a sign-in: whoever copied the one before has nothing. */
  private async goOnAnew({ studio, account }: StaffVisit, request: FastifyRequest, reply: FastifyReply) {
    const secret = await this.accounts.newSession(studio.id, account, agentOf(request));
    await this.visits.beginSession(studio, secret, request, reply);
  }

  /** @returns recovery codes, where there are some to be shown */
  private async act(
    { studio, account }: StaffVisit,
    which: AccountForm,
    answers: Answers,
    secret: string | undefined,
  ): Promise<string[] | null> {
    const { accounts } = this;
    if (which === 'turn-on') return accounts.turnOn(studio.id, account, answers);
    if (which === 'recovery') return accounts.newRecovery(studio.id, account, answers);
    if (which === 'turn-off') await accounts.turnOff(studio.id, account, answers);
    if (which === 'password') await accounts.changePassword(studio, account, secret, answers);
    if (which === 'end-others') await accounts.endOthers(studio.id, account, secret);
    if (which === 'end') await accounts.endSession(studio.id, account, answers);
    return null;
  }

  private async page(
    visit: StaffVisit,
    request: FastifyRequest,
    reply: FastifyReply,
    shown: Pick<Parameters<typeof AccountPage>[0], 'notice' | 'problems'>,
    status = 200,
  ): Promise<string> {
    const { studio, account } = visit;
    const own = await this.accounts.of(studio.id, account, this.visits.secretOf(studio, request));
    const proposed = own.factorOn ? null : await this.accounts.proposed(studio, account);
    return page(reply, AccountPage({ visit, own, proposed, ...shown }), status);
  }
}
