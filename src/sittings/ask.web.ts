// Asking for a sitting, step by step: what is sent is kept at once, and told beside the field where it is wrong.
import { Body, Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type Guest, Visits } from '../accounts/visits.service.js';
import { readDateField } from '../platform/html/kit/date-field.js';
import { page, seeOther } from '../platform/http.js';
import { AppError, type FieldProblem, PROBLEMS } from '../platform/problems.js';
import { hasRunOut, ShowsFormAgain } from '../platform/security/forms.js';
import { RoomService } from '../room/room.service.js';
import { AskPage, CheckPage } from './ask.pages.js';
import { toldOf } from './ask-check.calc.js';
import { type Answers, askedOf, firstAnswers, problemsOnForm, toRequest } from './ask-form.calc.js';
import { AskHomes } from './ask-homes.service.js';
import type { AskProps } from './ask-parts.pages.js';
import { afterStep, beforeStep, type Step, STEPS, stepOf, withStep } from './ask-steps.calc.js';
import { ConsentsService } from './consents.service.js';
import { DraftsService, type Found } from './drafts.service.js';
import { OpeningsService } from './openings.service.js';

/** Nothing secret, but each has its visitor's form token; "Back" may show it with what was typed. */
const OF_THE_VISITOR = 'private, no-cache';

type Typed = Exclude<Found, { place: string }>;

const read = (answers: Answers) => toRequest(answers, (name) => readDateField(answers, name));
const stepNamed = (name: string): Step => {
  const step = STEPS.find((one) => one === name);
  if (!step) throw new AppError('not_found');
  return step;
};
/** What is wrong with the fields of one step. */
const wrongOf = (step: Step, { answers, problems }: Typed): FieldProblem[] =>
  problemsOnForm(answers, problems).filter(({ field }) => stepOf(field) === step);
const tapped = (day: unknown) =>
  typeof day === 'string' && /^\d{4}-\d{2}-\d{2}$/.test(day) ? day : undefined;

@Controller('s/:slug/ask')
export class AskWeb {
  constructor(
    private readonly visits: Visits,
    private readonly openings: OpeningsService,
    private readonly drafts: DraftsService,
    private readonly consents: ConsentsService,
    private readonly room: RoomService,
    private readonly homes: AskHomes,
  ) {}

  @Get()
  async first(
    @Param('slug') slug: string,
    @Query('day') day: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.guest(slug, request, reply);
    reply.header('cache-control', OF_THE_VISITOR);
    return this.showStep(visit, reply, { step: 'you', action: firstPath(slug, day), answers: {} });
  }

  /** The first step: from here on what is typed is kept. */
  @ShowsFormAgain()
  @Post()
  async begin(
    @Param('slug') slug: string,
    @Query('day') day: unknown,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.guest(slug, request, reply);
    const sent = body ?? {};
    const step = 'you' as const;
    if (hasRunOut(request)) {
      const late = {
        step,
        action: firstPath(slug, day),
        answers: sent,
        notice: visit.spoken.words.asking.tooLate,
      };
      return this.showStep(visit, reply, late, PROBLEMS.form_expired.status);
    }
    const answers = withStep(firstAnswers(this.room.bookable(visit.studio), tapped(day)), step, sent);
    const { token, problems } = await this.drafts.begin(visit.studio.id, answers, read);
    const path = `/s/${slug}/ask/${token}`;
    // Refused, it is told at the draft's own address, so that a reload neither loses it nor begins another.
    const refused = wrongOf(step, { answers, problems }).length > 0;
    return seeOther(reply, `${path}/${refused ? `${step}?again=yes` : afterStep(step)}`);
  }

  @Get(':draft/:step')
  async show(
    @Param('slug') slug: string,
    @Param('draft') token: string,
    @Param('step') name: string,
    @Query('to') to: unknown,
    @Query('again') again: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.guest(slug, request, reply);
    const found = await this.drafts.open(visit.studio.id, token, read);
    if ('place' in found) return seeOther(reply, `/s/${slug}/place/${found.place}`);
    const path = `/s/${slug}/ask/${token}`;
    if (name === 'check') return this.showCheck(visit, reply, path, found);
    const step = stepNamed(name);
    const action = `${path}/${step}${to === 'check' ? '?to=check' : ''}`;
    const wrong = again === 'yes' ? wrongOf(step, found) : [];
    if (wrong.length > 0)
      return this.showWrong(visit, reply, { step, action, answers: found.answers }, wrong);
    return this.showStep(visit, reply, { step, action, answers: found.answers });
  }

  @ShowsFormAgain()
  @Post(':draft/send')
  async send(
    @Param('slug') slug: string,
    @Param('draft') token: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.guest(slug, request, reply);
    const path = `/s/${slug}/ask/${token}`;
    if (hasRunOut(request)) {
      const found = await orTooLate(true, () => this.drafts.open(visit.studio.id, token, read));
      if ('place' in found) return seeOther(reply, `/s/${slug}/place/${found.place}`);
      return this.showCheck(
        visit,
        reply,
        path,
        found,
        visit.spoken.words.asking.tooLate,
        PROBLEMS.form_expired.status,
      );
    }
    const { language } = visit.spoken;
    const found = await this.drafts.send(visit.studio.id, token, (answers) => ({
      ...read(answers),
      language,
    }));
    if ('place' in found) return seeOther(reply, `/s/${slug}/place/${found.place}?done=asked`);
    return this.showCheck(visit, reply, path, found, undefined, PROBLEMS.bad_input.status);
  }

  @ShowsFormAgain()
  @Post(':draft/:step')
  async save(
    @Param('slug') slug: string,
    @Param('draft') token: string,
    @Param('step') name: string,
    @Query('to') to: unknown,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.guest(slug, request, reply);
    const late = hasRunOut(request);
    const step = await orTooLate(late, async () => stepNamed(name));
    const sent = step === 'days' ? this.homes.withHome(body ?? {}) : (body ?? {});
    const change = late ? undefined : (answers: Answers) => withStep(answers, step, sent);
    const found = await orTooLate(late, () => this.drafts.open(visit.studio.id, token, read, change));
    if ('place' in found) return seeOther(reply, `/s/${slug}/place/${found.place}`);
    const path = `/s/${slug}/ask/${token}`;
    const action = `${path}/${step}${to === 'check' ? '?to=check' : ''}`;
    if (late) {
      const answers = withStep(found.answers, step, sent);
      const again = { step, action, answers, notice: visit.spoken.words.asking.tooLate };
      return this.showStep(visit, reply, again, PROBLEMS.form_expired.status);
    }
    const { more } = body ?? {};
    if (more === 'back')
      return seeOther(reply, `${path}/${to === 'check' ? to : (beforeStep(step) ?? step)}`);
    if (more === 'sitter' || more === 'plate')
      return this.showStep(visit, reply, { step, action, answers: { ...found.answers, more } });
    const next = to === 'check' ? to : afterStep(step);
    return this.onward(visit, reply, { path, step, ...found, to: next });
  }

  /** On to the next step, or the same again with what is wrong. */
  private onward(
    visit: Guest,
    reply: FastifyReply,
    {
      path,
      step,
      answers,
      problems,
      to,
    }: Typed & {
      path: string;
      step: Step;
      to: Step | 'check';
    },
  ): Promise<string> | string {
    const wrong = wrongOf(step, { answers, problems });
    if (wrong.length === 0) return seeOther(reply, `${path}/${to}`);
    const action = `${path}/${step}${to === 'check' && step !== 'more' ? '?to=check' : ''}`;
    return this.showWrong(visit, reply, { step, action, answers }, wrong);
  }

  private showWrong(
    visit: Guest,
    reply: FastifyReply,
    shown: Pick<AskProps, 'answers' | 'step' | 'action'>,
    wrong: FieldProblem[],
  ): Promise<string> {
    const told = this.homes.explain(shown.answers, wrong);
    return this.showStep(visit, reply, { ...shown, ...told }, PROBLEMS.bad_input.status);
  }

  private async showStep(
    visit: Guest,
    reply: FastifyReply,
    shown: Pick<AskProps, 'answers' | 'step' | 'action'> & Partial<AskProps>,
    status = 200,
  ): Promise<string> {
    const { studio, spoken } = visit;
    const asked = askedOf(shown.answers);
    const offered =
      shown.step === 'days'
        ? await this.openings.all(studio.id, asked.plates, asked)
        : { days: [], ...(await this.openings.offered(studio.id)) };
    const houseRules =
      shown.step === 'more' ? (await this.consents.words(studio.id)).inForce.house_rules.words : '';
    const kept = shown.action.includes('/ask/');
    const props = { ...offered, studio, spoken, asked, kept, houseRules, formToken: visit.formToken };
    return page(reply, AskPage({ ...props, ...shown }), status);
  }

  private async showCheck(
    visit: Guest,
    reply: FastifyReply,
    path: string,
    { answers, problems }: Typed,
    notice?: string,
    status = 200,
  ): Promise<string> {
    const offered = await this.openings.offered(visit.studio.id);
    const told = this.homes.explain(answers, problemsOnForm(answers, problems)).problems;
    const { studio, spoken, formToken } = visit;
    const shown = { ...answers, home: this.homes.label(answers) };
    const steps = toldOf(shown, read(answers), offered, told, spoken.words);
    return page(reply, CheckPage({ studio, spoken, formToken, path, told: steps, notice }), status);
  }
}

/** Where the first step is sent; the day that was tapped goes along. */
const firstPath = (slug: string, day: unknown) =>
  `/s/${slug}/ask${tapped(day) === undefined ? '' : `?day=${tapped(day)}`}`;

/** A form that came too late for what is not there (any more) is told to be too late, like any other. */
async function orTooLate<T>(late: boolean, act: () => Promise<T>): Promise<T> {
  try {
    return await act();
  } catch (error) {
    if (late && error instanceof AppError && error.code === 'not_found') throw new AppError('form_expired');
    throw error;
  }
}
