// The pages of visitors and contacts: the studio's open places, one's own page, giving up.
import { Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { feedPath } from '../accounts/links.service.js';
import { Visits } from '../accounts/visits.service.js';
import { LettersToCome } from '../people/letters-to-come.service.js';
import { Config } from '../platform/config.js';
import { page, seeOther } from '../platform/http.js';
import { AppError } from '../platform/problems.js';
import { ConsentsService } from './consents.service.js';
import { CorrectionsService } from './corrections.service.js';
import { firmPlace } from './firm-place.calc.js';
import { ListService } from './list.service.js';
import { OffersService } from './offers.service.js';
import { OpeningsService } from './openings.service.js';
import { PlacePage } from './place.pages.js';
import { RequestsService } from './requests.service.js';
import { StudioPage } from './studio.pages.js';

/** What the person's page tells of an act that came too late. */
const TOO_LATE = new Map([
  ['wrong_state', 'already'],
  ['offer_ran_out', 'ran-out'],
  ['place_taken', 'taken'],
]);
/** Nothing secret, but each has its visitor's form token; "Back" may show it with what was typed. */
const OF_THE_VISITOR = 'private, no-cache';

@Controller('s/:slug')
export class SittingsWeb {
  constructor(
    private readonly config: Config,
    private readonly visits: Visits,
    private readonly openings: OpeningsService,
    private readonly requests: RequestsService,
    private readonly list: ListService,
    private readonly offers: OffersService,
    private readonly consents: ConsentsService,
    private readonly corrections: CorrectionsService,
    private readonly letters: LettersToCome,
  ) {}

  @Get()
  async studio(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.guest(slug, request, reply);
    const { studio, days } = await this.openings.all(visit.studio.id, 1);
    reply.header('cache-control', OF_THE_VISITOR);
    return page(reply, StudioPage({ studio, days, signedIn: visit.account !== null, spoken: visit.spoken }));
  }

  @Get('place/:token')
  async place(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.guest(slug, request, reply);
    const { feedToken, ...found } = await this.list.behindLink(visit.studio.id, token);
    const feedUrl = feedToken && `${this.config.publicUrl}${feedPath(slug, feedToken)}`;
    const props = {
      ...found,
      consents: await this.consents.lines(visit.studio.id, { token }),
      wish: await this.corrections.wishOf(visit.studio.id, found.view.sitting.id),
      letters: await this.letters.of(visit.studio, firmPlace(found)),
      feedUrl,
      formToken: visit.formToken,
      path: `/s/${slug}/place/${token}`,
    };
    return page(reply, PlacePage({ ...props, done, spoken: visit.spoken }));
  }

  @Post('place/:token/give-up')
  async giveUp(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    return this.orTooLate(reply, `/s/${slug}/place/${token}`, 'given-up', () =>
      this.requests.giveUp(studio.id, token),
    );
  }

  @Post('place/:token/accept')
  async accept(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    return this.orTooLate(reply, `/s/${slug}/place/${token}`, 'accepted', () =>
      this.offers.accept(studio.id, { token }),
    );
  }

  @Post('place/:token/refuse')
  async refuse(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    return this.orTooLate(reply, `/s/${slug}/place/${token}`, 'refused', () =>
      this.offers.refuse(studio.id, { token }),
    );
  }

  @Post('place/:token/another-day')
  async anotherDay(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    return this.orTooLate(reply, `/s/${slug}/place/${token}`, 'another-day', () =>
      this.offers.askAnotherDay(studio.id, { token }),
    );
  }

  @Post('place/:token/reopen')
  async reopen(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    return this.orTooLate(reply, `/s/${slug}/place/${token}`, 'reopened', () =>
      this.list.reopen(studio.id, { token }),
    );
  }

  /** Back to the person's page, which tells what was done, or that it was too late for it. */
  private async orTooLate(
    reply: FastifyReply,
    own: string,
    done: string,
    act: () => Promise<void>,
  ): Promise<string> {
    try {
      await act();
    } catch (error) {
      const told = error instanceof AppError ? TOO_LATE.get(error.code) : undefined;
      if (told === undefined) throw error;
      return seeOther(reply, `${own}?done=${told}`);
    }
    return seeOther(reply, `${own}?done=${done}`);
  }
}
