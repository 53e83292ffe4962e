// The doors of who works here and of what was done; for the owner alone.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { InvitationsService } from '../../accounts/invitations.service.js';
import { type StaffVisit, Visits } from '../../accounts/visits.service.js';
import { Config } from '../../platform/config.js';
import { page, seeOther } from '../../platform/http.js';
import { AppError } from '../../platform/problems.js';
import { DeskService } from '../desk.service.js';
import type { Notice } from '../frame.pages.js';
import { ColleaguesPage } from './colleagues.pages.js';
import { LogPage } from './log.pages.js';

const id = new ParseUUIDPipe({ exceptionFactory: () => new AppError('not_found') });
const LINES_A_PAGE = 100;

const DONE = new Map<unknown, Notice>([
  ['invite', { tone: 'good', text: 'They are invited: the link is on its way to them.' }],
  ['again', { tone: 'good', text: 'A new link is on its way to them. The old one has stopped.' }],
  ['remove', { tone: 'good', text: 'They cannot come in any more.' }],
  ['second-step-off', { tone: 'good', text: 'Their second step is off.' }],
]);

type Answers = Record<string, unknown>;

@Controller('s/:slug/desk/settings')
export class ColleaguesWeb {
  constructor(
    private readonly visits: Visits,
    private readonly config: Config,
    private readonly invitations: InvitationsService,
    private readonly desk: DeskService,
  ) {}

  @Get('accounts')
  async show(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.page(visit, reply, { notice: DONE.get(done) });
  }

  @Post('accounts')
  async invite(
    @Param('slug') slug: string,
    @Body() answers: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    try {
      await this.invitations.invite(visit.studio.id, visit.account, answers ?? {});
    } catch (error) {
      if (!(error instanceof AppError) || error.code !== 'bad_input') throw error;
      const typed = { name: text(answers?.name), email: text(answers?.email) };
      return this.page(visit, reply, { values: typed, problems: error.fields }, error.status);
    }
    return seeOther(reply, `/s/${slug}/desk/settings/accounts?done=invite`);
  }

  @Post('accounts/:id/:act')
  async act(
    @Param('slug') slug: string,
    @Param('id', id) accountId: string,
    @Param('act') act: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio, account } = await this.visits.staff(slug, request, reply, ['owner']);
    if (act === 'again') await this.invitations.again(studio.id, account, accountId);
    else if (act === 'remove') await this.invitations.remove(studio.id, account, accountId);
    else if (act === 'second-step-off') await this.invitations.turnOffFactor(studio.id, account, accountId);
    else throw new AppError('not_found');
    return seeOther(reply, `/s/${slug}/desk/settings/accounts?done=${act}`);
  }

  @Get('log')
  async log(
    @Param('slug') slug: string,
    @Query('before') before: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const from = typeof before === 'string' && /^\d{1,18}$/.test(before) ? BigInt(before) : null;
    const lines = await this.desk.log(visit.studio.id, from, LINES_A_PAGE);
    const older = lines.length === LINES_A_PAGE ? (lines.at(-1)?.history_id ?? null) : null;
    return page(reply, LogPage({ visit, lines, older }));
  }

  private async page(
    visit: StaffVisit,
    reply: FastifyReply,
    shown: Pick<Parameters<typeof ColleaguesPage>[0], 'notice' | 'values' | 'problems'>,
    status = 200,
  ): Promise<string> {
    const colleagues = await this.invitations.colleagues(visit.studio.id);
    const joinAt = `${this.config.publicUrl}/s/${visit.studio.slug}/join`;
    return page(reply, ColleaguesPage({ visit, colleagues, joinAt, ...shown }), status);
  }
}

const text = (value: unknown): string => (typeof value === 'string' ? value : '');
