// The desk: the front page of owner and assistant, and the owner's mail and calendar link.
import { Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { page, seeOther } from '../platform/http.js';
import { AppError } from '../platform/problems.js';
import { OutboxService } from '../reminders/outbox.service.js';
import { AssistantPage, FrontPage } from './front.pages.js';
import { InboxService } from './inbox.service.js';
import { LetterPage, MailPage } from './mail.pages.js';
import { RequestListPage } from './request-list.pages.js';

const MOST_MAIL = 200;
const mailId = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This letter is not in the outbox.'),
});
import { stepsLeft } from './set-up/set-up.calc.js';
import { SetUpService } from './set-up/set-up.service.js';

@Controller('s/:slug/desk')
export class DeskWeb {
  constructor(
    private readonly visits: Visits,
    private readonly inbox: InboxService,
    private readonly outbox: OutboxService,
    private readonly setUp: SetUpService,
  ) {}

  @Get()
  async front(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner', 'assistant']);
    if (visit.account.role === 'assistant')
      return page(reply, AssistantPage({ visit, front: await this.inbox.assistant(visit.studio.id) }));
    const front = await this.inbox.front(visit.studio.id);
    const settled = front.next.length > 0; // somebody comes, so there is no need to ask
    const left = settled ? 0 : stepsLeft(await this.setUp.done(visit.studio.id, visit.account));
    return page(reply, FrontPage({ visit, front, stepsLeft: left }));
  }

  @Get('requests')
  async requests(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return page(reply, RequestListPage({ visit, waiting: await this.inbox.requests(visit.studio.id) }));
  }

  @Get('mail')
  async mail(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const mails = await this.outbox.latest(visit.studio.id, MOST_MAIL);
    return page(reply, MailPage({ visit, mails, most: MOST_MAIL }));
  }

  @Get('mail/:id')
  async letter(
    @Param('slug') slug: string,
    @Param('id', mailId) id: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const notice =
      done === 'again' ? ({ tone: 'good', text: 'It is being sent again.' } as const) : undefined;
    return page(reply, LetterPage({ visit, ...(await this.outbox.read(visit.studio.id, id)), notice }));
  }

  @Post('mail/:id/send-again')
  async sendAgain(
    @Param('slug') slug: string,
    @Param('id', mailId) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    await this.outbox.sendAgain(visit.studio.id, visit.account, id);
    return seeOther(reply, `/s/${slug}/desk/mail/${id}?done=again`);
  }
}
