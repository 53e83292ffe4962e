// The pages of who wants to learn: what is taught, signing up, asking for a day of one's own, one's own page.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Visits } from '../accounts/visits.service.js';
import { Random } from '../platform/clock.js';
import { readDateField } from '../platform/html/kit/date-field.js';
import { formKeyOf } from '../platform/html/kit/form.js';
import { page, seeOther } from '../platform/http.js';
import { AppError, type FieldProblem, PROBLEMS } from '../platform/problems.js';
import { hasRunOut, ShowsFormAgain } from '../platform/security/forms.js';
import { atForm, ownNames } from './form-names.calc.js';
import { type Answers, problemsOnForm, toSignUp } from './sign-up-form.calc.js';
import { SignUpsService } from './sign-ups.service.js';
import { STUDENT_DONE, StudentPage } from './student.pages.js';
import { OneToOnePage, SignUpPage, TeachingPage } from './teaching.pages.js';
import { TeachingViews } from './views.service.js';

const uuid = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This teaching day is not known here.'),
});
/** Nothing secret, but each has its visitor's form token; "Back" may show it with what was typed. */
const OF_THE_VISITOR = 'private, no-cache';
const LATE = new Map([
  ['wrong_state', 'already'],
  ['offer_ran_out', 'ran-out'],
]);
const RAN_OUT = 'This form was open for too long, so it was not sent. Please look it over and send it again.';

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
    const { studio } = await this.visits.visitor(slug, request, reply);
    const { days, oneToOne } = await this.views.open(studio.id);
    reply.header('cache-control', OF_THE_VISITOR);
    return page(reply, TeachingPage({ studio, days, oneToOne }));
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
    const { studio } = await this.visits.visitor(slug, request, reply);
    const answers = body ?? {};
    return this.orAgain(
      request,
      answers,
      async (formKey) => {
        const input = { ...toSignUp(answers), day: readDateField(answers, 'day') };
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
    const { studio } = await this.visits.visitor(slug, request, reply);
    const answers = body ?? {};
    return this.orAgain(
      request,
      answers,
      async (formKey) => {
        const { token } = await this.signUps.signUp(studio.id, id, toSignUp(answers), formKey);
        return seeOther(reply, `/s/${slug}/student/${token}?done=signed`);
      },
      (shown, status) => this.showDay(slug, id, request, reply, shown, status),
    );
  }

  @Get('student/:token')
  async own(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.showOwn(slug, token, request, reply, { notice: STUDENT_DONE.get(done) }, 200);
  }

  @Post('student/:token/students/:id')
  async tell(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Param('id', uuid) studentId: string,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const { studio } = await this.visits.visitor(slug, request, reply);
    const values = body ?? {};
    const { prefix, fields } = ownNames(values);
    const text = (name: string) => (typeof fields[name] === 'string' ? fields[name] : '');
    const gear = Object.fromEntries(
      Object.keys(fields).flatMap((name) => (name.startsWith('gear/') ? [[name.slice(5), text(name)]] : [])),
    );
    const input = {
      studentId,
      gear,
      access: text('access'),
      emergencyName: text('emergencyName'),
      emergencyTelephone: text('emergencyTelephone'),
      agreesTo: /^\d{1,6}$/.test(text('agreesTo')) ? Number(text('agreesTo')) : null,
    };
    try {
      await this.signUps.tellDetails(studio.id, token, input);
    } catch (error) {
      if (!(error instanceof AppError)) throw error;
      const late = LATE.get(error.code);
      if (late) return seeOther(reply, `/s/${slug}/student/${token}?done=${late}`);
      if (error.code !== 'bad_input') throw error;
      const sent = { studentId, values, errors: atForm(prefix, error.fields) };
      return this.showOwn(slug, token, request, reply, { sent }, error.status);
    }
    return seeOther(reply, `/s/${slug}/student/${token}?done=told`);
  }

  @Post('student/:token/accept')
  accept(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.act(slug, token, request, reply, 'accepted', (id) => this.signUps.accept(id, token));
  }

  @Post('student/:token/refuse')
  refuse(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.act(slug, token, request, reply, 'refused', (id) => this.signUps.refuse(id, token));
  }

  @Post('student/:token/leave')
  leave(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    return this.act(slug, token, request, reply, 'left', (id) => this.signUps.leave(id, token));
  }

  /** Acts, and goes back to the person's page, which tells what was done or that it was too late. */
  private async act(
    slug: string,
    token: string,
    request: FastifyRequest,
    reply: FastifyReply,
    done: string,
    act: (studioId: string) => Promise<void>,
  ): Promise<string> {
    const { studio } = await this.visits.visitor(slug, request, reply);
    const own = `/s/${slug}/student/${token}`;
    try {
      await act(studio.id);
    } catch (error) {
      const late = error instanceof AppError ? LATE.get(error.code) : undefined;
      if (late === undefined) throw error;
      return seeOther(reply, `${own}?done=${late}`);
    }
    return seeOther(reply, `${own}?done=${done}`);
  }

  /** The form again, with what was typed, where a row is added or something is wrong. */
  private async orAgain(
    request: FastifyRequest,
    answers: Answers,
    act: (formKey: string) => Promise<string>,
    show: (shown: Shown, status: number) => Promise<string>,
  ): Promise<string> {
    const formKey = formKeyOf(answers, this.random);
    if (hasRunOut(request)) {
      const { status } = PROBLEMS.form_expired;
      return show({ answers, formKey, notice: RAN_OUT }, status).catch(() => {
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
        const notice = 'This form was sent once already. If you send it now, it is a second sign-up.';
        return show({ answers, formKey: this.random.id(), notice }, error.status);
      }
      const problems = problemsOnForm(answers, error.fields);
      const full = error.code === 'place_taken' ? [{ field: 'orWait', message: error.detail }] : problems;
      const short = 'For so many people the shelf cannot provide by that day. Please ask the studio.';
      const notice =
        error.code === 'short_of_stock' ? short : error.code === 'wrong_state' ? error.detail : undefined;
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
    const { studio, formToken } = await this.visits.visitor(slug, request, reply);
    const { days, sizes } = await this.views.open(studio.id);
    const day = days.find(({ session }) => session.id === id);
    if (!day) throw new AppError('not_found', 'This teaching day is not open for sign-up any more.');
    reply.header('cache-control', OF_THE_VISITOR);
    return page(reply, SignUpPage({ studio, day, sizes, formToken, ...shown, notice: warn(notice) }), status);
  }

  private async showOneToOne(
    slug: string,
    id: string,
    request: FastifyRequest,
    reply: FastifyReply,
    { notice, ...shown }: Shown,
    status: number,
  ): Promise<string> {
    const { studio, formToken } = await this.visits.visitor(slug, request, reply);
    const { oneToOne, sizes } = await this.views.open(studio.id);
    const template = oneToOne.find((one) => one.id === id);
    if (!template) throw new AppError('not_found', 'This is not taught one to one.');
    reply.header('cache-control', OF_THE_VISITOR);
    const props = { studio, template, sizes, formToken, ...shown, notice: warn(notice) };
    return page(reply, OneToOnePage(props), status);
  }

  private async showOwn(
    slug: string,
    token: string,
    request: FastifyRequest,
    reply: FastifyReply,
    shown: Pick<Parameters<typeof StudentPage>[0], 'notice' | 'sent'>,
    status: number,
  ): Promise<string> {
    const { studio, formToken } = await this.visits.visitor(slug, request, reply);
    const { safety, sizes, ...view } = await this.views.behindLink(studio.id, token);
    const begun = view.day !== null && this.views.begun(view.day.place);
    const path = `/s/${slug}/student/${token}`;
    return page(
      reply,
      StudentPage({ studio, view, safety, sizes, begun, formToken, path, ...shown }),
      status,
    );
  }
}

const warn = (text: string | undefined) =>
  text === undefined ? undefined : ({ tone: 'warn', text } as const);
