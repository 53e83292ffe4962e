// The pages of visitors and contacts: the studio's open places, asking, one's own page, giving up.
import { Body, Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { feedPath } from '../accounts/links.service.js';
import { type Visit, Visits } from '../accounts/visits.service.js';
import { Random } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import { readDateField } from '../platform/html/kit/date-field.js';
import { FORM_KEY_FIELD } from '../platform/html/kit/form.js';
import { page, seeOther } from '../platform/http.js';
import { AppError, type FieldProblem } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import { Gazetteer } from '../travel/gazetteer.service.js';
import { placeLabel } from '../travel/place-label.calc.js';
import { AskPage, type AskProps } from './ask.pages.js';
import { type Answers, firstAnswers, toRequest } from './ask-form.calc.js';
import { OpeningsService } from './openings.service.js';
import { PlacePage } from './place.pages.js';
import { RequestsService } from './requests.service.js';
import { StudioPage } from './studio.pages.js';
import { SittingViews } from './views.service.js';

const MOST_PLACES = 8;

@Controller('s/:slug')
export class SittingsWeb {
  constructor(
    private readonly config: Config,
    private readonly random: Random,
    private readonly visits: Visits,
    private readonly openings: OpeningsService,
    private readonly requests: RequestsService,
    private readonly views: SittingViews,
    private readonly room: RoomService,
    private readonly gazetteer: Gazetteer,
  ) {}

  @Get()
  async studio(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.visitor(slug, request, reply);
    const { studio, days } = await this.openings.all(visit.studio.id, 1);
    return page(reply, StudioPage({ studio, days, signedIn: visit.account !== null }));
  }

  @Get('ask')
  async form(
    @Param('slug') slug: string,
    @Query('day') day: string | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.visitor(slug, request, reply);
    const wanted = typeof day === 'string' && /^\d{4}-\d{2}-\d{2}$/.test(day) ? day : undefined;
    const answers = firstAnswers(this.room.bookable(visit.studio), wanted);
    return this.showForm(visit, reply, { answers, formKey: this.random.id() }, 200);
  }

  @Post('ask')
  async ask(
    @Param('slug') slug: string,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.visitor(slug, request, reply);
    const answers = this.withHome(body ?? {});
    const sentKey = answers[FORM_KEY_FIELD];
    const formKey =
      typeof sentKey === 'string' && sentKey.length >= 8 ? sentKey.slice(0, 255) : this.random.id();
    if (answers.more === 'sitter' || answers.more === 'plate')
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
    @Query('done') done: string | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.visitor(slug, request, reply);
    const { studio, view, feedToken } = await this.views.behindLink(visit.studio.id, token);
    reply.header('cache-control', 'no-store');
    const feedUrl = feedToken && `${this.config.publicUrl}${feedPath(slug, feedToken)}`;
    const props = { studio, view, feedUrl, formToken: visit.formToken, path: `/s/${slug}/place/${token}` };
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
    try {
      await this.requests.giveUp(studio.id, token);
    } catch (error) {
      if (!(error instanceof AppError && error.code === 'wrong_state')) throw error;
      return seeOther(reply, `/s/${slug}/place/${token}?done=already`);
    }
    return seeOther(reply, `/s/${slug}/place/${token}?done=given-up`);
  }

  private async showForm(
    visit: Visit,
    reply: FastifyReply,
    shown: Pick<AskProps, 'answers' | 'formKey'> & Partial<AskProps>,
    status: number,
  ): Promise<string> {
    const { studio, days, sizes } = await this.openings.all(visit.studio.id, 1);
    return page(reply, AskPage({ studio, days, sizes, formToken: visit.formToken, ...shown }), status);
  }

  /** A home typed but not chosen: taken when only one place of that very name is known. */
  private withHome(answers: Answers): Answers {
    const { home, homeId } = answers;
    if (typeof home !== 'string' || (typeof homeId === 'string' && homeId !== '')) return answers;
    const found = this.gazetteer.search(home.slice(0, 100), MOST_PLACES);
    const exact = found.filter(
      (place) => place.name.localeCompare(home.trim(), 'en', { sensitivity: 'base' }) === 0,
    );
    const only = exact.length === 1 ? exact[0] : found.length === 1 ? found[0] : undefined;
    return only ? { ...answers, homeId: String(only.id) } : answers;
  }

  /** A home that could not be told: offers the places of that name, or says that none is known. */
  private explain(answers: Answers, fields: FieldProblem[]): Pick<AskProps, 'problems' | 'places'> {
    const typed = typeof answers.home === 'string' ? answers.home.trim().slice(0, 100) : '';
    if (!fields.some(({ field }) => field === 'homeId')) return { problems: fields };
    const found = typed === '' ? [] : this.gazetteer.search(typed, MOST_PLACES);
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
