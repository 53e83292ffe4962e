// The doors of the waiting list: the list, its rule with a preview, and the owner's acts on those who wait.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../accounts/visits.service.js';
import { page, seeOther } from '../platform/http.js';
import { readInput } from '../platform/input.js';
import { AppError, TOLD_BESIDE } from '../platform/problems.js';
import { refuseChanged, SEEN_FIELD } from '../platform/seen.js';
import { ListService } from '../sittings/list.service.js';
import { OffersService } from '../sittings/offers.service.js';
import { rulesAsFields, waitingRulesForm } from '../waiting/rules.schemas.js';
import { WaitingService } from '../waiting/waiting.service.js';
import { MODE_WORDS } from '../waiting/words.calc.js';
import { approveForm } from './desk.schemas.js';
import { DeskService } from './desk.service.js';
import { InboxService } from './inbox.service.js';
import { markAnswers } from './on-list.pages.js';
import { RequestPage } from './request.pages.js';
import { WAITING_DONE, WaitingPage, waitingPath } from './waiting.pages.js';
import { WaitingPreviewPage, WaitingRulesPage } from './waiting-rules.pages.js';

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This request is not known here.'),
});

type Sent = Record<string, unknown>;

@Controller('s/:slug/desk/waiting')
export class WaitingWeb {
  constructor(
    private readonly visits: Visits,
    private readonly desk: DeskService,
    private readonly inbox: InboxService,
    private readonly list: ListService,
    private readonly offers: OffersService,
    private readonly waiting: WaitingService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const list = await this.list.page(visit.studio.id);
    const toMove = list.offers.length > 0 ? await this.inbox.allToMove(visit.studio.id) : [];
    return page(reply, WaitingPage({ visit, list, toMove, notice: WAITING_DONE.get(done) }));
  }

  @Get('rules')
  async rules(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.rulesPage(visit, null, reply);
  }

  @Post('rules/preview')
  async preview(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.orFormAgain(visit, body ?? {}, reply, async () => {
      const rules = readInput(waitingRulesForm, body ?? {});
      const orders = await this.list.preview(visit.studio.id, rules);
      const seen = body?.[SEEN_FIELD];
      const fields = { ...rulesAsFields(rules), ...(typeof seen === 'string' && { [SEEN_FIELD]: seen }) };
      return page(reply, WaitingPreviewPage({ visit, ...orders, fields }));
    });
  }

  /** From the preview back to the form, with what was typed. */
  @Post('rules/again')
  async again(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.rulesPage(visit, body ?? {}, reply);
  }

  @Post('rules')
  async save(
    @Param('slug') slug: string,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const values = body ?? {};
    return this.orFormAgain(visit, values, reply, async () => {
      const rules = readInput(waitingRulesForm, values);
      await this.waiting.saveRules(visit.studio.id, visit.account, rules, (stands) =>
        refuseChanged(values, rulesAsFields(stands), MODE_WORDS),
      );
      return seeOther(reply, `${waitingPath(visit)}?done=rules`);
    });
  }

  @Post(':id/:act')
  async act(
    @Param('slug') slug: string,
    @Param('id', id) sittingId: string,
    @Param('act') act: string,
    @Query('from') from: unknown,
    @Body() body: Sent | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const { studio, account: who } = visit;
    const about = `/s/${slug}/desk/requests/${sittingId}`;
    const back = from === 'request' ? about : waitingPath(visit);
    const by = { who, sittingId };
    switch (act) {
      case 'list':
        return this.orLate(reply, back, 'listed', () => this.list.wait(studio.id, who, sittingId));
      case 'reopen':
        return this.orLate(reply, back, 'reopened', () => this.list.reopen(studio.id, by));
      case 'accepted':
        return this.orLate(reply, back, 'accepted', () => this.offers.accept(studio.id, by));
      case 'refused':
        return this.orLate(reply, back, 'refused', () => this.offers.refuse(studio.id, by));
      case 'another-day':
        return this.orLate(reply, back, 'another-day', () => this.offers.askAnotherDay(studio.id, by));
      case 'mark':
        return this.orRequestAgain(visit, sittingId, body ?? {}, reply, async () => {
          const values = body ?? {};
          await this.list.mark(studio.id, who, sittingId, values, (stands) =>
            refuseChanged(values, markAnswers(stands)),
          );
          return seeOther(reply, `${about}?done=marked`);
        });
      case 'offer':
        return this.orRequestAgain(visit, sittingId, body ?? {}, reply, async () => {
          const { start } = readInput(approveForm, body ?? {});
          await this.offers.make(studio.id, who, sittingId, start);
          return seeOther(reply, `${back}?done=offered`);
        });
      default:
        throw new AppError('not_found');
    }
  }

  private async orFormAgain(
    visit: StaffVisit,
    values: Sent,
    reply: FastifyReply,
    act: () => Promise<string>,
  ): Promise<string> {
    try {
      return await act();
    } catch (error) {
      if (!(error instanceof AppError) || !TOLD_BESIDE.includes(error.code)) throw error;
      return this.rulesPage(visit, values, reply, error);
    }
  }

  /** @param sent what was typed; null when it is first shown */
  private async rulesPage(
    visit: StaffVisit,
    sent: Sent | null,
    reply: FastifyReply,
    refusal?: AppError,
  ): Promise<string> {
    const shown = rulesAsFields(await this.list.rules(visit.studio.id));
    const props = { visit, shown, values: sent ?? shown, errors: refusal?.fields };
    return page(reply, WaitingRulesPage(props), refusal?.status ?? 200);
  }

  /** The page of the request with what was typed and what is wrong; places as they stand now. */
  private async orRequestAgain(
    visit: StaffVisit,
    sittingId: string,
    values: Sent,
    reply: FastifyReply,
    act: () => Promise<string>,
  ): Promise<string> {
    try {
      return await act();
    } catch (error) {
      const again = [
        'bad_input',
        'changed_meanwhile',
        'place_taken',
        'not_an_opening',
        'short_of_stock',
        'wrong_state',
      ];
      if (!(error instanceof AppError) || !again.includes(error.code)) throw error;
      const found = await this.desk.request(visit.studio.id, sittingId);
      const { fields: errors } = error;
      const notice = errors.length > 0 ? undefined : ({ tone: 'bad', text: error.detail } as const);
      return page(reply, RequestPage({ visit, found, values, errors, notice }), error.status);
    }
  }

  private async orLate(
    reply: FastifyReply,
    back: string,
    done: string,
    act: () => Promise<void>,
  ): Promise<string> {
    try {
      await act();
    } catch (error) {
      const late = ['wrong_state', 'offer_ran_out', 'place_taken'];
      if (!(error instanceof AppError) || !late.includes(error.code)) throw error;
      return seeOther(reply, `${back}?done=late`);
    }
    return seeOther(reply, `${back}?done=${done}`);
  }
}
