// The pages of visitors and contacts: the studio's open places, asking, one's own page, giving up.
import { Body, Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { feedPath } from '../accounts/links.service.js';
import { type Visit, Visits } from '../accounts/visits.service.js';
import { Random } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import { readDateField } from '../platform/html/kit/date-field.js';
import { formKeyOf } from '../platform/html/kit/form.js';
import { page, seeOther } from '../platform/http.js';
import { AppError, type FieldProblem, PROBLEMS } from '../platform/problems.js';
import { hasRunOut, ShowsFormAgain } from '../platform/security/forms.js';
import { RoomService } from '../room/room.service.js';
import { Gazetteer } from '../travel/gazetteer.service.js';
import { placeLabel } from '../travel/place-label.calc.js';
import { AskPage } from './ask.pages.js';
import type { AskProps } from './ask-parts.pages.js';
import { type Answers, askedOf, firstAnswers, problemsOnForm, toRequest } from './ask-form.calc.js';
import { ConsentsService } from './consents.service.js';
import { ListService } from './list.service.js';
import { OffersService } from './offers.service.js';
import { OpeningsService } from './openings.service.js';
import { PlacePage } from './place.pages.js';
import { RequestsService } from './requests.service.js';
import { StudioPage } from './studio.pages.js';

const MOST_PLACES = 8;
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
    private readonly random: Random,
    private readonly visits: Visits,
    private readonly openings: OpeningsService,
    private readonly requests: RequestsService,
    private readonly list: ListService,
    private readonly offers: OffersService,
    private readonly room: RoomService,
    private readonly gazetteer: Gazetteer,
    private readonly consents: ConsentsService,
  ) {}

  @Get()
  async studio(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.visitor(slug, request, reply);
    const { studio, days } = await this.openings.all(visit.studio.id, 1);
    reply.header('cache-control', OF_THE_VISITOR);
    return page(reply, StudioPage({ studio, days, signedIn: visit.account !== null }));
  }

  @Get('ask')
  async form(
    @Param('slug') slug: string,
    @Query('day') day: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.visitor(slug, request, reply);
    const wanted = typeof day === 'string' && /^\d{4}-\d{2}-\d{2}$/.test(day) ? day : undefined;
    const answers = firstAnswers(this.room.bookable(visit.studio), wanted);
    reply.header('cache-control', OF_THE_VISITOR);
    return this.showForm(visit, reply, { answers, formKey: this.random.id() }, 200);
  }

  @ShowsFormAgain()
  @Post('ask')
  async ask(
    @Param('slug') slug: string,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.visitor(slug, request, reply);
    const answers = this.withHome(body ?? {});
    const formKey = formKeyOf(answers, this.random);
    if (hasRunOut(request)) {
      const notice =
        'This form was open for too long, so it was not sent. Please look it over and send it again.';
      return this.showForm(visit, reply, { answers, formKey, notice }, PROBLEMS.form_expired.status);
    }
    if (answers.more === 'sitter' || answers.more === 'plate' || answers.more === 'days')
      return this.showForm(visit, reply, { answers, formKey }, 200);
    try {
      const input = toRequest(answers, (name) => readDateField(answers, name));
      const { token } = await this.requests.ask(visit.studio.id, input, formKey);
      return seeOther(reply, `/s/${slug}/place/${token}?done=asked`);
    } catch (error) {
      if (!(error instanceof AppError)) throw error;
      if (error.code === 'same_key_other_request') {
        const notice = 'This form was sent once already. If you send it now, it is a second request.';
        return this.showForm(visit, reply, { answers, formKey: this.random.id(), notice }, error.status);
      }
      if (error.code !== 'bad_input') throw error;
      return this.showForm(
        visit,
        reply,
        { answers, formKey, ...this.explain(answers, error.fields) },
        error.status,
      );
    }
  }

  @Get('place/:token')
  async place(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.visitor(slug, request, reply);
    const { feedToken, ...found } = await this.list.behindLink(visit.studio.id, token);
    const feedUrl = feedToken && `${this.config.publicUrl}${feedPath(slug, feedToken)}`;
    const props = {
      ...found,
      consents: await this.consents.lines(visit.studio.id, { token }),
      feedUrl,
      formToken: visit.formToken,
      path: `/s/${slug}/place/${token}`,
    };
    return page(reply, PlacePage({ ...props, done }));
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

  private async showForm(
    visit: Visit,
    reply: FastifyReply,
    shown: Pick<AskProps, 'answers' | 'formKey'> & Partial<AskProps>,
    status: number,
  ): Promise<string> {
    const asked = askedOf(shown.answers);
    const { studio, days, sizes, kinds } = await this.openings.all(visit.studio.id, asked.plates, asked);
    const props = { studio, days, asked, sizes, kinds, formToken: visit.formToken };
    return page(reply, AskPage({ ...props, ...shown }), status);
  }

  private withHome(answers: Answers): Answers {
    const id =
      typeof answers.homeId === 'string' && /^\d{1,12}$/.test(answers.homeId) ? answers.homeId : null;
    const { place } = this.gazetteer.meant(homeTyped(answers), id === null ? null : Number(id), MOST_PLACES);
    return { ...answers, homeId: place ? String(place.id) : '' };
  }

  /** Each problem at its field. A home that could not be told: offers the places of that name, if there are any. */
  private explain(answers: Answers, sent: FieldProblem[]): Pick<AskProps, 'problems' | 'places'> {
    const fields = problemsOnForm(answers, sent);
    if (!fields.some(({ field }) => field === 'homeId')) return { problems: fields };
    const typed = homeTyped(answers);
    const found = this.gazetteer.search(typed, MOST_PLACES);
    const problems = fields.map((one) => {
      if (one.field !== 'homeId') return one;
      if (found.length > 0) return { field: 'homeId', message: 'Please choose which of these places it is.' };
      const message =
        typed === ''
          ? 'Please tell us where you travel from.'
          : 'We do not know this place; please give the nearest town.';
      return { field: 'home', message };
    });
    return {
      problems,
      places: found.map((place) => ({ value: String(place.id), label: placeLabel(place) })),
    };
  }
}

/** No name of a place is longer. */
const homeTyped = ({ home }: Answers): string => (typeof home === 'string' ? home.trim().slice(0, 100) : '');
