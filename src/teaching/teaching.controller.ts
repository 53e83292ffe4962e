// The JSON door of teaching: the days to come, signing up, asking for a day of one's own, one's own sign-up.
import { Body, Controller, Get, Headers, HttpCode, Param, ParseUUIDPipe, Post } from '@nestjs/common';
import { z } from 'zod';
import { remindersAnswer, toReminders } from '../people/letters-to-come.schemas.js';
import { LettersToCome } from '../people/letters-to-come.service.js';
import { readKey } from '../platform/idempotency.js';
import { Describe } from '../platform/openapi.js';
import { AppError } from '../platform/problems.js';
import { StudiosService } from '../studios/studios.service.js';
import { SESSION_STATES, SIGN_UP_STATES } from './states.calc.js';
import { detailsBody, oneToOneBody, signUpBody } from './sign-up.schemas.js';
import { firmPlace } from './firm-place.calc.js';
import { OwnSignUpService } from './own-sign-up.service.js';
import { SignUpsService } from './sign-ups.service.js';
import { type DayView, type OwnView, TeachingViews } from './views.service.js';

const uuid = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This teaching day is not known here.'),
});

const day = z.object({
  sessionId: z.uuid(),
  name: z.string(),
  state: z.enum(SESSION_STATES),
  startsAt: z.string(),
  endsAt: z.string(),
  zone: z.string(),
  placesLeft: z.int(),
  leastAge: z.int(),
});
const teachingAnswer = z.object({
  days: z.array(day),
  oneToOne: z.array(z.object({ templateId: z.uuid(), name: z.string(), secondDay: z.boolean() })),
});
const madeAnswer = z.object({ signUpId: z.uuid(), page: z.string() });
const ownAnswer = z.object({
  state: z.enum(SIGN_UP_STATES),
  day: day.nullable(),
  offeredUntil: z.string().nullable(),
  students: z.array(z.object({ studentId: z.uuid(), name: z.string(), agreedToSafety: z.boolean() })),
  reminders: remindersAnswer,
});

@Controller('api/v1/s/:slug')
export class TeachingController {
  constructor(
    private readonly studios: StudiosService,
    private readonly views: TeachingViews,
    private readonly signUps: SignUpsService,
    private readonly own: OwnSignUpService,
    private readonly letters: LettersToCome,
  ) {}

  @Describe({ summary: 'The teaching days to come, and what is taught one to one', answer: teachingAnswer })
  @Get('teaching')
  async teaching(@Param('slug') slug: string) {
    const { days, oneToOne } = await this.views.open(await this.studios.idAt(slug));
    return {
      days: days.map(toDay),
      oneToOne: oneToOne.map(({ id, course }) => ({
        templateId: id,
        name: course.name,
        secondDay: course.secondDay,
      })),
    };
  }

  @Describe({
    summary: 'Sign up for a teaching day',
    body: signUpBody,
    answer: madeAnswer,
    keyed: 'needed',
    problems: ['place_taken', 'wrong_state', 'short_of_stock', 'not_found'],
  })
  @Post('teaching/:id/sign-ups')
  async signUp(
    @Param('slug') slug: string,
    @Param('id', uuid) id: string,
    @Headers('idempotency-key') key: string | undefined,
    @Body() body: unknown,
  ) {
    const made = await this.signUps.signUp(await this.studios.idAt(slug), id, body, needed(key));
    return { signUpId: made.signUpId, page: `/s/${slug}/student/${made.token}` };
  }

  @Describe({
    summary: 'Ask to learn one to one on a day',
    body: oneToOneBody,
    answer: madeAnswer,
    keyed: 'needed',
    problems: ['wrong_state'],
  })
  @Post('teaching/one-to-one/:id/sign-ups')
  async askToLearn(
    @Param('slug') slug: string,
    @Param('id', uuid) id: string,
    @Headers('idempotency-key') key: string | undefined,
    @Body() body: unknown,
  ) {
    const made = await this.signUps.askOneToOne(await this.studios.idAt(slug), id, body, needed(key));
    return { signUpId: made.signUpId, page: `/s/${slug}/student/${made.token}` };
  }

  @Describe({ summary: 'One’s own sign-up', answer: ownAnswer, problems: ['not_found', 'link_expired'] })
  @Get('student/:token')
  async ownSignUp(@Param('slug') slug: string, @Param('token') token: string) {
    const studio = await this.studios.at(slug);
    const { safety, ...view } = await this.views.behindLink(studio.id, token);
    const begun = view.day !== null && this.views.begun(view.day.place);
    const reminders = toReminders(view.contact, await this.letters.of(studio, firmPlace(view, begun)));
    return { ...toOwn(view, safety.version), reminders };
  }

  @Describe({
    summary: 'Tell what the day needs to know of a student',
    body: detailsBody,
    status: 204,
    keyed: 'honoured',
    problems: ['not_found', 'link_expired', 'wrong_state'],
  })
  @HttpCode(204)
  @Post('student/:token/details')
  async tellOfStudent(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Headers('idempotency-key') key: string | undefined,
    @Body() body: unknown,
  ): Promise<void> {
    await this.own.tellDetails(await this.studios.idAt(slug), token, body, readKey(key));
  }

  @Describe({
    summary: 'Take the places offered at a teaching day',
    status: 204,
    problems: ['not_found', 'link_expired', 'offer_ran_out', 'wrong_state'],
  })
  @HttpCode(204)
  @Post('student/:token/accept')
  async takePlaces(@Param('slug') slug: string, @Param('token') token: string): Promise<void> {
    await this.own.accept(await this.studios.idAt(slug), token);
  }

  @Describe({
    summary: 'Say no to the places offered at a teaching day, and stay on its list',
    status: 204,
    problems: ['not_found', 'link_expired', 'offer_ran_out', 'wrong_state'],
  })
  @HttpCode(204)
  @Post('student/:token/refuse')
  async refusePlaces(@Param('slug') slug: string, @Param('token') token: string): Promise<void> {
    await this.own.refuse(await this.studios.idAt(slug), token);
  }

  @Describe({
    summary: 'Give places, or a wish to learn, up',
    status: 204,
    keyed: 'honoured',
    problems: ['not_found', 'link_expired', 'wrong_state'],
  })
  @HttpCode(204)
  @Post('student/:token/leave')
  async leaveTeaching(
    @Param('slug') slug: string,
    @Param('token') token: string,
    @Headers('idempotency-key') key: string | undefined,
  ): Promise<void> {
    await this.own.leave(await this.studios.idAt(slug), token, readKey(key));
  }
}

function needed(key: string | undefined): string {
  const good = readKey(key);
  if (good === undefined)
    throw new AppError(
      'unreadable',
      'An Idempotency-Key header is needed, so that a repeat does not act twice.',
    );
  return good;
}

const toDay = ({ session, place }: DayView): z.output<typeof day> => ({
  sessionId: session.id,
  name: session.course.name,
  state: session.state,
  startsAt: place.startsAt.toString(),
  endsAt: place.endsAt.toString(),
  zone: place.zone,
  placesLeft: session.places - session.taken,
  leastAge: session.course.leastAge,
});

const toOwn = (view: OwnView, version: number): Omit<z.output<typeof ownAnswer>, 'reminders'> => ({
  state: view.signUp.state,
  day: view.day && toDay(view.day),
  offeredUntil: view.offer?.expiresAt.toString() ?? null,
  students: view.students.map((one) => ({
    studentId: one.id,
    name: one.name,
    agreedToSafety: one.safetyVersion === version,
  })),
});
