// The pages of who wants to learn: what is taught, signing up, asking for a day of one's own.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { feedPath, PUBLIC_FEED } from '../accounts/links.service.js';
import { Visits } from '../accounts/visits.service.js';
import { Random } from '../platform/clock.js';
import { readDateField } from '../platform/html/kit/date-field.js';
import { formKeyOf } from '../platform/html/kit/form.js';
import { Config } from '../platform/config.js';
import { page, seeOther } from '../platform/http.js';
import { AppError, type FieldProblem, PROBLEMS } from '../platform/problems.js';
import { hasRunOut, ShowsFormAgain } from '../platform/security/forms.js';
import { LANGUAGE_OF_DESK } from '../words/languages.js';
import type { Words } from '../words/words-for.js';
import { type Answers, problemsOnForm, toSignUp } from './sign-up-form.calc.js';
import { SignUpsService } from './sign-ups.service.js';
import { OneToOnePage, SignUpPage, TeachingPage } from './teaching.pages.js';
import { TeachingViews } from './views.service.js';

const uuid = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This teaching day is not known here.'),
});
/** Nothing secret, but each has its visitor's form token; "Back" may show it with what was typed. */
const OF_THE_VISITOR = 'private, no-cache';

interface Shown {
  answers: Answers;
  formKey: string;
  problems?: FieldProblem[];
  notice?: string;
}

@Controller('s/:slug')
export class TeachingWeb {
  constructor(
    private readonly random: Random,
    private readonly config: Config,
    private readonly visits: Visits,
    private readonly views: TeachingViews,
    private readonly signUps: SignUpsService,
  ) {}

  @Get('teaching')
  async all(
    @Param('slug') slug: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio, spoken } = await this.visits.guest(slug, request, reply);
    const { days, oneToOne } = await this.views.open(studio.id);
    reply.header('cache-control', OF_THE_VISITOR);
    const asked = spoken.language === LANGUAGE_OF_DESK ? '' : `?lang=${spoken.language}`;
    const feedUrl = `${this.config.publicUrl}${feedPath(slug, PUBLIC_FEED)}${asked}`;
    return page(reply, TeachingPage({ studio, feedUrl, days, oneToOne, spoken }));
  }

  @Get('teaching/one-to-one/:id')
  async ownDay(
    @Param('slug') slug: string,
    @Param('id', uuid) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const shown = { answers: {}, formKey: this.random.id() };
    return this.showOneToOne(slug, id, request, reply, shown, 200);
  }

  @ShowsFormAgain()
  @Post('teaching/one-to-one/:id')
  async askOwnDay(
    @Param('slug') slug: string,
    @Param('id', uuid) id: string,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio, spoken } = await this.visits.guest(slug, request, reply);
    const answers = body ?? {};
    return this.orAgain(
      request,
      answers,
      spoken.words,
      async (formKey) => {
        const { language } = spoken;
        const input = { ...toSignUp(answers), language, day: readDateField(answers, 'day') };
        const { token } = await this.signUps.askOneToOne(studio.id, id, input, formKey);
        return seeOther(reply, `/s/${slug}/student/${token}?done=signed`);
      },
      (shown, status) => this.showOneToOne(slug, id, request, reply, shown, status),
    );
  }

  @Get('teaching/:id')
  async form(
    @Param('slug') slug: string,
    @Param('id', uuid) id: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.showDay(slug, id, request, reply, { answers: {}, formKey: this.random.id() }, 200);
  }

  @ShowsFormAgain()
  @Post('teaching/:id')
  async signUp(
    @Param('slug') slug: string,
    @Param('id', uuid) id: string,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio, spoken } = await this.visits.guest(slug, request, reply);
    const answers = body ?? {};
    return this.orAgain(
      request,
      answers,
      spoken.words,
      async (formKey) => {
        const input = { ...toSignUp(answers), language: spoken.language };
        const { token } = await this.signUps.signUp(studio.id, id, input, formKey);
        return seeOther(reply, `/s/${slug}/student/${token}?done=signed`);
      },
      (shown, status) => this.showDay(slug, id, request, reply, shown, status),
    );
  }

  /** The form again, with what was typed, where a row is added or something is wrong. */
  private async orAgain(
    request: FastifyRequest,
    answers: Answers,
    { frame, teaching }: Words,
    act: (formKey: string) => Promise<string>,
    show: (shown: Shown, status: number) => Promise<string>,
  ): Promise<string> {
    const formKey = formKeyOf(answers, this.random);
    if (hasRunOut(request)) {
      const { status } = PROBLEMS.form_expired;
      return show({ answers, formKey, notice: teaching.tooLate }, status).catch(() => {
        throw new AppError('form_expired'); // nor is the day there any more
      });
    }
    if (answers.more === 'student') return show({ answers, formKey }, 200);
    try {
      return await act(formKey);
    } catch (error) {
      const known = ['bad_input', 'place_taken', 'short_of_stock', 'wrong_state', 'same_key_other_request'];
      if (!(error instanceof AppError) || !known.includes(error.code)) throw error;
      if (error.code === 'same_key_other_request') {
        return show({ answers, formKey: this.random.id(), notice: teaching.again }, error.status);
      }
      const problems = problemsOnForm(answers, error.fields);
      const full = error.code === 'place_taken' ? [{ field: 'orWait', message: error.detail }] : problems;
      const notice =
        error.code === 'short_of_stock'
          ? teaching.short
          : error.code === 'wrong_state'
            ? frame.beside(error.detail)
            : undefined;
      return show(
        { answers, formKey, problems: full, ...(notice !== undefined && { notice }) },
        error.status,
      );
    }
  }

  private async showDay(
    slug: string,
    id: string,
    request: FastifyRequest,
    reply: FastifyReply,
    { notice, ...shown }: Shown,
    status: number,
  ): Promise<string> {
    const { studio, formToken, spoken } = await this.visits.guest(slug, request, reply);
    const { days, sizes } = await this.views.open(studio.id);
    const day = days.find(({ session }) => session.id === id);
    if (!day) throw new AppError('not_found', 'This teaching day is not open for sign-up any more.');
    reply.header('cache-control', OF_THE_VISITOR);
    const props = { studio, spoken, sizes, formToken, ...shown, notice: warn(notice) };
    return page(reply, SignUpPage({ ...props, day }), status);
  }

  private async showOneToOne(
    slug: string,
    id: string,
    request: FastifyRequest,
    reply: FastifyReply,
    { notice, ...shown }: Shown,
    status: number,
  ): Promise<string> {
    const { studio, formToken, spoken } = await this.visits.guest(slug, request, reply);
    const { oneToOne, sizes } = await this.views.open(studio.id);
    const template = oneToOne.find((one) => one.id === id);
    if (!template) throw new AppError('not_found', 'This is not taught one to one.');
    reply.header('cache-control', OF_THE_VISITOR);
    const props = { studio, spoken, sizes, formToken, ...shown, notice: warn(notice) };
    return page(reply, OneToOnePage({ ...props, template }), status);
  }
}

const warn = (text: string | undefined) =>
  text === undefined ? undefined : ({ tone: 'warn', text } as const);
