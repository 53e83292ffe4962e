// The acts of somebody who signed up, on their own page or typed in for them by the studio: answering an offer, telling
// what the day needs to know of them, leaving. An answer counts from when it arrived.
import { isDeepStrictEqual } from 'node:util';
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { LinksService } from '../accounts/links.service.js';
import type { ToldJourney } from '../people/own-journey.service.js';
import { PeopleService } from '../people/people.service.js';
import { Clock } from '../platform/clock.js';
import { editAlone } from '../platform/db/alone.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { once } from '../platform/idempotency.js';
import { readInput } from '../platform/input.js';
import { Jobs } from '../platform/jobs/registry.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { WaitingService } from '../waiting/waiting.service.js';
import { holdingSafety } from './safety.calc.js';
import { answered, type Locked, SeatsService } from './seats.service.js';
import { SessionsStore } from './sessions.store.js';
import { type Details, detailsBody, detailsOfSeveral } from './sign-up.schemas.js';
import { SignUpsStore } from './sign-ups.store.js';
import { hasPlaces, leaving, stands } from './states.calc.js';
import type { SignUp, Student } from './teaching.schemas.js';

/** The secret of their page, or a sign-up that the studio answers for while they are on the telephone. */
export type By = string | { signUpId: string; who: string };

@Injectable()
export class OwnSignUpService {
  private readonly sessions = new SessionsStore();
  private readonly store = new SignUpsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly jobs: Jobs,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly people: PeopleService,
    private readonly room: RoomService,
    private readonly waiting: WaitingService,
    private readonly seats: SeatsService,
  ) {}

  /** Takes the places offered; once more is no mistake. @throws AppError offer_ran_out, wrong_state */
  accept(studioId: string, by: By): Promise<void> {
    return this.answer(studioId, by, 'accepted', async (tx, signUp, locked) => {
      if (signUp.state === 'signed') return;
      const change = { offersUnanswered: 0 };
      await this.seats.turn(tx, signUp, { event: 'accept', change, tell: 'signed', ...whoOf(by) });
      await this.seats.firm(tx, signUp, locked);
    });
  }

  /** Says no to the places offered and stays on the list. @throws AppError offer_ran_out, wrong_state */
  refuse(studioId: string, by: By): Promise<void> {
    return this.answer(studioId, by, 'refused', async (tx, signUp, { studio }) => {
      await this.seats.free(tx, studio, signUp);
      await this.seats.turn(tx, signUp, {
        event: 'refuse',
        ...whoOf(by),
        change: { offersUnanswered: 0 },
        tell: 'refused',
      });
    });
  }

  /** Gives places or a wish to learn up. @throws AppError wrong_state, also once the day has begun */
  leave(studioId: string, by: By, key?: string): Promise<void> {
    return this.repeatable(studioId, by, key, 'leave', null, async (tx, signUp, at) => {
      const event = leaving(signUp.state);
      if (!event) throw answered();
      const session = signUp.sessionId && (await this.sessions.byId(tx, signUp.sessionId, true));
      const [place] = session ? await this.room.byIds(tx, [session.occupancyId]) : [];
      if (place && this.room.begun(place))
        throw new AppError('wrong_state', 'The day has begun; nothing can be given back any more.');
      await this.seats.settle(tx, signUp, 'withdrawn', at, whoOf(by).who);
      const desk = typeof by !== 'string';
      if (hasPlaces(signUp.state)) await this.seats.free(tx, await this.studios.load(tx), signUp, desk);
      const tell = event === 'release' ? 'released' : 'withdrawn';
      await this.seats.turn(tx, signUp, {
        event,
        tell,
        ...whoOf(by),
        ...(desk && { undoTo: backTo(signUp.state) }),
      });
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  /**
   * Notes what the day needs to know of one student: sizes, access, whom to ring, and that they agree to the safety
   * wording, which must be the one that holds now.
   * @throws AppError bad_input, wrong_state once the sign-up has ended, not_found
   */
  tellDetails(studioId: string, token: string, input: unknown, key?: string): Promise<void> {
    return this.repeatable(studioId, token, key, 'details', input, async (tx, signUp, at) => {
      const { studentId, ...details } = readInput(detailsBody, input);
      await this.noteDetails(tx, signUp, at, [{ studentId, details, prefix: '' }]);
    });
  }

  /**
   * The same of several students in one go: all of it or nothing. Problems are told at "<id of the student>/<field>".
   * @param check is asked about the students as they stand before anything is overwritten
   */
  tellDetailsOfSeveral(
    studioId: string,
    token: string,
    input: unknown,
    check: (stand: Student[]) => void,
  ): Promise<void> {
    return this.repeatable(studioId, token, undefined, 'details', input, async (tx, signUp, at) => {
      const told = Object.entries(readInput(detailsOfSeveral, input)).map(([studentId, details]) => ({
        studentId,
        details,
        prefix: `${studentId}/`,
      }));
      await this.noteDetails(tx, signUp, at, told, check);
    });
  }

  private async noteDetails(
    tx: Tx,
    signUp: SignUp,
    at: Temporal.Instant,
    told: { studentId: string; details: Details; prefix: string }[],
    check: (stand: Student[]) => void = () => {},
  ): Promise<void> {
    if (!leaving(signUp.state)) throw answered();
    await editAlone(tx, 'details');
    const students = await this.store.students(tx, [signUp.id]);
    check(students);
    const { version } = holdingSafety(await this.sessions.wordings(tx));
    const outdated = told.filter(({ details: { agreesTo } }) => agreesTo !== null && agreesTo !== version);
    if (outdated.length > 0)
      throw new AppError(
        'bad_input',
        undefined,
        outdated.map(({ prefix }) => ({ field: `${prefix}agreesTo`, message: WORDING_CHANGED })),
      );
    for (const { studentId, details } of told) {
      const student = students.find(({ id }) => id === studentId);
      if (!student) throw new AppError('not_found', 'This student is not known here.');
      const now = withDetails(student, details, at);
      if (isDeepStrictEqual(now, student)) continue;
      await this.store.saveDetails(tx, now);
      const { name } = student;
      const note = details.agreesTo === null ? name : `${name} agrees to safety ${details.agreesTo}`;
      const about = { who: 'contact', aboutKind: 'sign-up', aboutId: signUp.id, event: 'details', note };
      await recordHistory(tx, this.clock, about);
    }
    if (signUp.sessionId) await this.seats.revise(tx, signUp.sessionId);
    await this.studios.raiseCalendarCounter(tx);
  }

  /**
   * What they tell of their journey.
   * @param check is asked about what stands there before it is overwritten
   * @throws AppError not_found, link_expired
   */
  async tellJourney(
    studioId: string,
    token: string,
    journey: ToldJourney,
    check: (stands: ToldJourney) => void = () => {},
  ): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'details');
      const { id, contactId } = await this.behind(tx, token, this.clock.now());
      check(await this.people.contact(tx, contactId));
      const shown = await this.people.setJourney(tx, contactId, journey);
      const about = { who: 'contact', aboutKind: 'sign-up', aboutId: id, event: 'journey' };
      await recordHistory(tx, this.clock, about);
      await this.jobs.enqueue(tx, 'journey.told', { contactId }, { key: contactId });
      if (shown) await this.studios.raiseCalendarCounter(tx);
    });
  }

  /** An act behind a link; with a key, the same once more is no mistake. */
  private async repeatable(
    studioId: string,
    by: By,
    key: string | undefined,
    name: string,
    input: unknown,
    act: (tx: Tx, signUp: SignUp, at: Temporal.Instant) => Promise<void>,
  ): Promise<void> {
    const at = this.clock.now();
    await this.db.inStudio(studioId, async (tx) => {
      const acting = async () => {
        await act(tx, await this.behind(tx, by, at), at);
        return null;
      };
      if (key === undefined) return acting();
      const about = typeof by === 'string' ? (await this.links.open(tx, 'place', by)).id : by.signUpId;
      const keyed = { name: `student ${name}`, key, request: { link: about, input } };
      return once(tx, this.clock, keyed, z.null(), acting);
    });
  }

  /** Locks the day behind a link, with offers lapsed by then; the sign-up as it stands after that. */
  private async behind(tx: Tx, by: By, at: Temporal.Instant): Promise<SignUp> {
    const id = typeof by === 'string' ? (await this.links.open(tx, 'place', by)).subjectId : by.signUpId;
    const first = await this.store.byId(tx, id);
    if (!first) throw new AppError('not_found', 'This link is not known here.');
    if (first.sessionId) await this.seats.lock(tx, first.sessionId, at);
    return (await this.store.byId(tx, id)) ?? first;
  }

  /** An answer to an offer; one that came too late is told so, after the lapse is saved. */
  private async answer(
    studioId: string,
    by: By,
    answer: 'accepted' | 'refused',
    act: (tx: Tx, signUp: SignUp, locked: Locked) => Promise<void>,
  ): Promise<void> {
    const at = this.clock.now();
    const came = await this.db.inStudio(studioId, async (tx) => {
      const signUp = await this.behind(tx, by, at);
      if (!signUp.sessionId) throw answered();
      const locked = await this.seats.lock(tx, signUp.sessionId, at);
      const again = answer === 'accepted' && signUp.state === 'signed';
      const offer = await this.waiting.openFor(tx, signUp.id);
      if (!again && (signUp.state !== 'offered' || !offer || !stands(locked.session.state))) {
        const ranOut = (await this.waiting.newest(tx, signUp.id))?.answer === 'lapsed';
        await this.studios.raiseCalendarCounter(tx); // it may have lapsed just now
        return ranOut ? 'ran out' : 'nothing open';
      }
      if (!again) await this.seats.settle(tx, signUp, answer, at, whoOf(by).who);
      await act(tx, signUp, locked);
      await this.studios.raiseCalendarCounter(tx);
      return 'done';
    });
    if (came === 'ran out') throw new AppError('offer_ran_out');
    if (came === 'nothing open') throw answered();
  }
}

const WORDING_CHANGED = 'The wording has changed meanwhile; please read it once more.';

/** A student with what was told of them; who agrees does so to the wording that holds. */
function withDetails(student: Student, told: Details, at: Temporal.Instant): Student {
  const agrees = told.agreesTo !== null && student.safetyVersion !== told.agreesTo;
  // what was kept private is never shown back, so an empty answer leaves it as it is
  const { name, telephone } = student.emergency;
  return {
    ...student,
    gear: { ...student.gear, ...told.gear },
    access: told.access === '' ? student.access : told.access,
    emergency: { name: told.emergencyName || name, telephone: told.emergencyTelephone || telephone },
    ...(agrees && { safetyVersion: told.agreesTo, safetyAt: at }),
  };
}

/** Where undoing a place given back leads; an offer that was answered is not offered again. */
const backTo = (state: SignUp['state']): SignUp['undoTo'] =>
  state === 'signed' || state === 'requested' ? state : 'waiting';

const whoOf = (by: By): { who: string; toldBy?: string } =>
  typeof by === 'string' ? { who: 'contact' } : { who: by.who, toldBy: by.who };
