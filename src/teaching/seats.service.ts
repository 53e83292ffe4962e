// Places at a day of teaching: taking and giving them back with what is set aside, and each turn of a sign-up. Every
// act on a day begins with `lock`: offers that have run out lapse first. Methods take the caller's transaction;
// whoever calls raises the calendar's counter at the end.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { LinksService } from '../accounts/links.service.js';
import { ActualsService } from '../chemistry/actuals.service.js';
import { Clock } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { type JobPayload, Jobs } from '../platform/jobs/registry.js';
import { AppError } from '../platform/problems.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import { RoomService } from '../room/room.service.js';
import { DaysService } from '../stock/days.service.js';
import { StockService } from '../stock/stock.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import type { OfferAnswer } from '../waiting/offers.schemas.js';
import { WaitingService } from '../waiting/waiting.service.js';
import { type ShelfFacts, studentNeeds } from './estimate.calc.js';
import { SessionsStore } from './sessions.store.js';
import { type SignUpChange, SignUpsStore } from './sign-ups.store.js';
import { nextOfSession, nextOfSignUp, type SignUpEvent } from './states.calc.js';
import type { Session, SignUp, Student } from './teaching.schemas.js';

/** The page of who signed up lives so long after the day, and so long without one. */
export const LINK_DAYS_AFTER = 30;
export const LINK_DAYS_WITHOUT_A_DAY = 400;

export interface Locked {
  studio: Studio;
  session: Session;
  place: Occupancy;
  /** Offers that lapsed when it was locked: a change that calendars show, whatever the act does besides. */
  lapsed: number;
}

interface Turn {
  event: SignUpEvent;
  who: string;
  note?: string;
  change?: Omit<SignUpChange, 'at'>;
  tell: JobPayload<'teaching.changed'>['change'] | null;
  /** Who tells them while it is typed in. */
  toldBy?: string | undefined;
  /** Where undoing it leads; then they are told a little later. */
  undoTo?: SignUp['undoTo'];
}

@Injectable()
export class SeatsService {
  private readonly sessions = new SessionsStore();
  private readonly signUps = new SignUpsStore();

  constructor(
    private readonly clock: Clock,
    private readonly config: Config,
    private readonly jobs: Jobs,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly days: DaysService,
    private readonly actuals: ActualsService,
    private readonly waiting: WaitingService,
  ) {}

  /** Locks a day for an act, with offers that ran out by then lapsed. @throws AppError not_found */
  async lock(tx: Tx, sessionId: string, at = this.clock.now()): Promise<Locked> {
    const studio = await this.studios.load(tx);
    const lapsed = await this.lapse(tx, studio, at, [sessionId]);
    const session = await this.sessions.byId(tx, sessionId, true);
    const [place] = session ? await this.room.byIds(tx, [session.occupancyId]) : [];
    if (!session || !place) throw new AppError('not_found', 'This teaching day is not known here.');
    return { studio, session, place, lapsed };
  }

  /** Lets all offers of teaching lapse that ran out by an instant. @returns how many */
  async lapse(tx: Tx, studio: Studio, at: Temporal.Instant, also: string[] = []): Promise<number> {
    const expired = await this.waiting.expired(tx, at);
    const offered = await this.signUps.byIds(
      tx,
      expired.map((one) => one.forId),
    );
    const days = offered.flatMap(({ sessionId }) => sessionId ?? []);
    await this.sessions.lockAll(tx, [...new Set([...days, ...also])]);
    if (offered.length === 0) return 0;
    const { mostUnanswered } = await this.waiting.rules(tx);
    let lapsed = 0;
    for (const { id } of offered) {
      const offer = expired.find((one) => one.forId === id);
      const signUp = await this.signUps.byId(tx, id); // as it stands now that its day is locked
      if (!offer || !signUp || !(await this.waiting.lapse(tx, offer.id, at))) continue;
      const offersUnanswered = signUp.offersUnanswered + 1;
      const ranOut = offersUnanswered >= mostUnanswered;
      await this.free(tx, studio, signUp);
      await this.turn(tx, signUp, {
        event: ranOut ? 'run_out' : 'lapse',
        who: 'contact',
        change: { offersUnanswered },
        tell: ranOut ? 'run out' : 'lapsed',
      });
      lapsed += 1;
    }
    return lapsed;
  }

  /**
   * Takes places for all students of a sign-up and sets aside what they need; a day without more places is full.
   * @throws AppError place_taken where there are not so many, short_of_stock
   */
  async take(tx: Tx, { studio, session, place }: Locked, students: Student[]): Promise<void> {
    if (!(await this.sessions.seat(tx, session.id, students.length))) throw new AppError('place_taken');
    await this.setAside(tx, studio, session, place.wallStart.toPlainDate(), students);
    const full = session.taken + students.length >= session.places;
    const state = full ? nextOfSession(session.state, 'fill') : null;
    if (state) await this.sessions.setState(tx, session.id, state);
  }

  /** Sets aside what students need for a day. @throws AppError short_of_stock */
  async setAside(
    tx: Tx,
    studio: Studio,
    { course }: Session,
    day: Temporal.PlainDate,
    students: Student[],
  ): Promise<void> {
    const facts = await this.shelf(tx, studio);
    const all = students.map((one) => ({ heldFor: one.id, needs: studentNeeds(course, one, facts) }));
    await this.days.reserveAll(tx, studio, all, day);
  }

  /**
   * Gives the places of a sign-up back, and what was set aside; whoever waits may be asked, `later` only once it can
   * be undone no more.
   */
  async free(tx: Tx, studio: Studio, signUp: SignUp, later = false): Promise<void> {
    const session = signUp.sessionId ? await this.sessions.byId(tx, signUp.sessionId, true) : null;
    if (!session) return;
    const students = await this.signUps.students(tx, [signUp.id]);
    const [place] = await this.room.byIds(tx, [session.occupancyId]);
    await this.sessions.seat(tx, session.id, -students.length);
    const ids = students.map(({ id }) => id);
    if (place) await this.days.releaseAll(tx, studio, ids, place.wallStart.toPlainDate());
    const state = nextOfSession(session.state, 'free');
    if (state) await this.sessions.setState(tx, session.id, state);
    if (signUp.state === 'signed') await this.sessions.setFreed(tx, session.id, this.clock.now());
    await this.passOn(tx, session.id, later);
  }

  /** Whoever waits may be asked for places of a day that are free; `later` only once what freed them can be undone no more. */
  async passOn(tx: Tx, sessionId: string, later = false): Promise<void> {
    const told = { key: sessionId, ...(later && { runAt: this.undoEnds() }) };
    await this.jobs.enqueue(tx, 'teaching.freed', { sessionId }, told);
  }

  private undoEnds(): Temporal.Instant {
    return this.clock.now().add({ seconds: this.config.undoSeconds });
  }

  /** Settles the offer a sign-up has open, if it has one. */
  async settle(
    tx: Tx,
    signUp: SignUp,
    answer: OfferAnswer,
    at: Temporal.Instant,
    who: string,
  ): Promise<void> {
    const offer = signUp.state === 'offered' ? await this.waiting.openFor(tx, signUp.id) : null;
    if (offer) await this.waiting.settle(tx, offer.id, answer, at, who);
  }

  /** One turn of a sign-up: its state, its line of history, the job that tells of it. @throws AppError wrong_state */
  async turn(
    tx: Tx,
    signUp: SignUp,
    { event, who, note = '', change, tell, toldBy, undoTo }: Turn,
  ): Promise<void> {
    const state = nextOfSignUp(signUp.state, event);
    const at = this.clock.now();
    const turns =
      state && (await this.signUps.setState(tx, signUp.id, signUp.state, state, { at, ...change }));
    if (turns === null) throw answered();
    const sessionId = change?.sessionId ?? signUp.sessionId;
    if (sessionId) await this.revise(tx, sessionId);
    if (undoTo) await this.signUps.setUndo(tx, signUp.id, undoTo);
    if (tell) await this.tell(tx, signUp.id, tell, turns, { toldBy, later: Boolean(undoTo) });
    await recordHistory(tx, this.clock, { who, aboutKind: 'sign-up', aboutId: signUp.id, event, note });
  }

  async tell(
    tx: Tx,
    signUpId: string,
    change: JobPayload<'teaching.changed'>['change'],
    sequence: number,
    { toldBy, later = false }: { toldBy?: string | undefined; later?: boolean } = {},
  ): Promise<void> {
    const told = { signUpId, change, sequence, ...(toldBy !== undefined && { toldBy }) };
    const key = `${signUpId}:${change}:${sequence}`;
    await this.jobs.enqueue(tx, 'teaching.changed', told, { key, ...(later && { runAt: this.undoEnds() }) });
  }

  /** Calendars show something else of a day now: its own revision rises in the act. */
  async revise(tx: Tx, sessionId: string): Promise<void> {
    await this.sessions.revise(tx, sessionId, this.clock.now());
  }

  /**
   * What firm places bring: the page lives beyond the day, a calendar of their own, and a deposit is due where the
   * course has one.
   */
  async firm(
    tx: Tx,
    { id: signUpId, contactId }: Pick<SignUp, 'id' | 'contactId'>,
    { session, place }: Pick<Locked, 'session' | 'place'>,
  ): Promise<void> {
    await this.signUps.setFirm(tx, signUpId, this.clock.now());
    await this.links.ensure(tx, 'feed', contactId, 'student');
    await this.links.setExpiry(tx, 'place', signUpId, place.endsAt.add({ hours: 24 * LINK_DAYS_AFTER }));
    if (session.course.deposit !== '') await this.signUps.setDeposit(tx, signUpId, 'due', this.clock.now());
  }

  async shelf(tx: Tx, studio: Studio): Promise<ShelfFacts> {
    return {
      sizes: await this.stock.plateSizes(tx),
      items: await this.stock.items(tx),
      figures: await this.actuals.figures(tx),
      choice: studio.reserveQuantity,
    };
  }
}

export const answered = () => new AppError('wrong_state', 'This was answered or given up in the meantime.');
