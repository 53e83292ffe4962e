// One request at the owner's desk: looking at it, giving it a place, declining it, giving its place back for them.
import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type StaffVisit, Visits } from '../accounts/visits.service.js';
import { page, seeOther } from '../platform/http.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { refuseChanged } from '../platform/seen.js';
import { ConsentsService } from '../sittings/consents.service.js';
import { DecisionsService } from '../sittings/decisions.service.js';
import { CorrectionsService } from '../sittings/corrections.service.js';
import { RequestsService } from '../sittings/requests.service.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { approveForm, declineForm, poseForm, undoForm } from './desk.schemas.js';
import { AGES } from '../people/words.calc.js';
import { DeskService, type WholeRequest } from './desk.service.js';
import { poseAnswers } from './sitters.pages.js';
import type { Notice } from './frame.pages.js';
import { RequestPage } from './request.pages.js';
import { UndoActs } from './undo-acts.service.js';
import { WAITING_DONE } from './waiting.pages.js';

const id = new ParseUUIDPipe({
  exceptionFactory: () => new AppError('not_found', 'This request is not known here.'),
});

type Answers = Record<string, unknown>;

const AGE_WORDS = Object.fromEntries(AGES.map(({ value, label }) => [value, label]));

/** Told after a redirect, by a code in the address. */
const DONE = new Map<unknown, Notice>([
  ['bottle', { tone: 'good', text: 'It is set aside from that bottle.' }],
  [
    'bottle-part',
    { tone: 'good', text: 'That bottle gives what it can; the rest is from others, as below.' },
  ],
  ['bottle-rule', { tone: 'good', text: 'Your choice is taken back; the rule has chosen as below.' }],
  ['no-bottle', { tone: 'bad', text: 'That bottle cannot give it that day; nothing is changed.' }],
  [
    'bottle-short',
    {
      tone: 'bad',
      text: 'With that bottle, somebody else’s day could not have what it needs; nothing is changed.',
    },
  ],
  [
    'bottle-gone',
    { tone: 'warn', text: 'Nothing is set aside of it for them any more; nothing is changed.' },
  ],
  ['consent', { tone: 'good', text: 'Noted, with the words and the day.' }],
  [
    'words-changed',
    {
      tone: 'bad',
      text: 'The words were changed since; please read the new ones to them. Nothing is changed.',
    },
  ],
  ['wish', { tone: 'good', text: 'Ticked. On their page it does not stand open any more.' }],
  ['typed', { tone: 'good', text: 'The request is entered, and was asked today. Answer it now or later.' }],
  ['undone', { tone: 'good', text: 'It is undone, and nobody was told.' }],
  ['new-link', { tone: 'good', text: 'The new link stands below. The old one has stopped.' }],
  ['pose', { tone: 'good', text: 'Noted. Places to be given are judged by it.' }],
]);

const TELLING: Record<SittingView['contact']['reachBy'], string> = {
  email: 'they are being told',
  telephone: 'they have to be told by telephone',
  letter: 'they have to be told by letter',
};

/**
 * What was done, as long as it is so: a page that is opened again later tells nothing that has passed. While it can be
 * undone, the undo below says who is told and when.
 */
function noticeOf(done: unknown, { view, lastAct }: WholeRequest): Notice | undefined {
  const { state } = view.sitting;
  const inWords = state === 'declined' ? ' in your words' : '';
  const telling = lastAct && !lastAct.told ? '' : `, and ${TELLING[view.contact.reachBy]}${inWords}`;
  const good = (holds: boolean, what: string): Notice | undefined =>
    holds ? { tone: 'good', text: `${what}${telling}.` } : undefined;
  switch (done) {
    case 'approved':
      return good(state === 'confirmed', 'The place is given');
    case 'declined':
      return good(state === 'declined', 'Declined');
    case 'given-back':
      return good(state === 'released', 'Their place is free');
    case 'listed':
      return good(state === 'waiting', 'It is on the waiting list');
    case 'offered':
      return good(state === 'offered', 'The place is offered and held');
    case 'accepted':
      return good(state === 'confirmed', 'The place is theirs');
    default:
      return DONE.get(done) ?? WAITING_DONE.get(done);
  }
}

/** Refusals that the owner can answer on the same page, with what is open now. */
const SHOWN_AGAIN = [
  'bad_input',
  'changed_meanwhile',
  'place_taken',
  'not_an_opening',
  'short_of_stock',
  'wrong_state',
];

@Controller('s/:slug/desk/requests/:id')
export class RequestsWeb {
  constructor(
    private readonly visits: Visits,
    private readonly desk: DeskService,
    private readonly decisions: DecisionsService,
    private readonly requests: RequestsService,
    private readonly undoActs: UndoActs,
    private readonly consents: ConsentsService,
    private readonly corrections: CorrectionsService,
  ) {}

  @Get()
  async show(
    @Param('slug') slug: string,
    @Param('id', id) sittingId: string,
    @Query('done') done: unknown,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const found = await this.desk.request(visit.studio.id, sittingId);
    const asked = await this.askedOf(visit.studio.id, sittingId);
    return page(reply, RequestPage({ visit, found, ...asked, notice: noticeOf(done, found) }));
  }

  @Post('approve')
  async approve(
    @Param('slug') slug: string,
    @Param('id', id) sittingId: string,
    @Body() answers: Answers,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.orAgain(visit, sittingId, answers, reply, async () => {
      const { start } = readInput(approveForm, answers);
      await this.decisions.approve(visit.studio.id, visit.account, sittingId, start);
      return seeOther(reply, `/s/${slug}/desk/requests/${sittingId}?done=approved`);
    });
  }

  @Post('sitters')
  async sitters(
    @Param('slug') slug: string,
    @Param('id', id) sittingId: string,
    @Body() body: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    const answers = body ?? {};
    return this.orAgain(visit, sittingId, answers, reply, async () => {
      await this.desk.setPose(
        visit.studio.id,
        visit.account,
        sittingId,
        (one) => poseOf(answers, one),
        (stands) => refuseChanged(answers, poseAnswers(stands), AGE_WORDS),
      );
      return seeOther(reply, `/s/${slug}/desk/requests/${sittingId}?done=pose`);
    });
  }

  @Post('decline')
  async decline(
    @Param('slug') slug: string,
    @Param('id', id) sittingId: string,
    @Body() answers: Answers,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.orAgain(visit, sittingId, answers, reply, async () => {
      const { message } = readInput(declineForm, answers);
      await this.decisions.decline(visit.studio.id, visit.account, sittingId, message);
      return seeOther(reply, `/s/${slug}/desk/requests/${sittingId}?done=declined`);
    });
  }

  @Post('give-back')
  async giveBack(
    @Param('slug') slug: string,
    @Param('id', id) sittingId: string,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.orAgain(visit, sittingId, {}, reply, async () => {
      await this.requests.giveBackFor(visit.studio.id, visit.account, sittingId);
      return seeOther(reply, `/s/${slug}/desk/requests/${sittingId}?done=given-back`);
    });
  }

  @Post('wish')
  async wish(
    @Param('slug') slug: string,
    @Param('id', id) sittingId: string,
    @Body() answers: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.orAgain(visit, sittingId, {}, reply, async () => {
      await this.corrections.answered(visit.studio.id, visit.account, sittingId, answers ?? {});
      return seeOther(reply, `/s/${slug}/desk/requests/${sittingId}?done=wish`);
    });
  }

  @Post('undo')
  async undo(
    @Param('slug') slug: string,
    @Param('id', id) sittingId: string,
    @Body() answers: Answers | undefined,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ) {
    const visit = await this.visits.staff(slug, request, reply, ['owner']);
    return this.orAgain(visit, sittingId, {}, reply, async () => {
      const { act } = readInput(undoForm, answers ?? {});
      await this.undoActs.takeBack(visit.studio.id, visit.account, sittingId, act);
      return seeOther(reply, `/s/${slug}/desk/requests/${sittingId}?done=undone`);
    });
  }

  /** Shows the page again, as things stand now, with what was typed and what is wrong. */
  private async orAgain(
    visit: StaffVisit,
    sittingId: string,
    values: Answers,
    reply: FastifyReply,
    act: () => Promise<string>,
  ): Promise<string> {
    try {
      return await act();
    } catch (error) {
      if (!(error instanceof AppError) || !SHOWN_AGAIN.includes(error.code)) throw error;
      const found = await this.desk.request(visit.studio.id, sittingId);
      const { fields: errors } = error;
      const notice = errors.length > 0 ? undefined : ({ tone: 'bad', text: error.detail } as const);
      const asked = await this.askedOf(visit.studio.id, sittingId);
      return page(reply, RequestPage({ visit, found, ...asked, values, errors, notice }), error.status);
    }
  }

  private async askedOf(studioId: string, sittingId: string) {
    return {
      consents: await this.consents.lines(studioId, { sittingId }),
      wish: await this.corrections.wishOf(studioId, sittingId),
    };
  }
}

/** @throws AppError bad_input, told at the fields as the page names them */
function poseOf(answers: Answers, sitterId: string) {
  const names: Record<string, string> & { ageBand: string; headRest: string } = {
    ageBand: `age-${sitterId}`,
    headRest: `rest-${sitterId}`,
  };
  try {
    return readInput(poseForm, { ageBand: answers[names.ageBand], headRest: answers[names.headRest] });
  } catch (error) {
    if (!(error instanceof AppError)) throw error;
    const fields = error.fields.map((one) => ({
      ...one,
      field: names[one.field] ?? one.field,
    }));
    throw new AppError(error.code, error.detail, fields);
  }
}
