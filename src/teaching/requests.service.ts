// What the owner decides about sign-ups: offers to who waits, days for who asked to learn one to one, deposits.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { offerExpiry } from '../waiting/expiry.calc.js';
import { WaitingService } from '../waiting/waiting.service.js';
import { firstInLine } from './passing-on.calc.js';
import { answered, type Locked, SeatsService } from './seats.service.js';
import { SessionsService } from './sessions.service.js';
import { SessionsStore } from './sessions.store.js';
import { SignUpsStore } from './sign-ups.store.js';
import { declineForm, type SignUp } from './teaching.schemas.js';

type Who = { name: string };
/** The name under which the studio's own rule makes offers. */
const BY_RULE = 'the waiting list';

@Injectable()
export class TeachingRequestsService {
  private readonly sessions = new SessionsStore();
  private readonly store = new SignUpsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly waiting: WaitingService,
    private readonly seats: SeatsService,
    private readonly made: SessionsService,
  ) {}

  /**
   * Gives who asked to learn one to one a day of their own, held at once.
   * @throws AppError bad_input, wrong_state, not_an_opening, place_taken, short_of_stock
   */
  async approve(
    studioId: string,
    who: Who,
    signUpId: string,
    wallStart: Temporal.PlainDateTime,
    meant = false,
  ): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const signUp = await this.known(tx, signUpId);
      if (signUp.state !== 'requested') throw answered();
      const template = (await this.sessions.templates(tx)).find(({ id }) => id === signUp.templateId);
      if (!template) throw new AppError('not_found');
      const students = await this.store.students(tx, [signUpId]);
      const only = { places: students.length };
      const start = { wallStart, meant };
      const { id } = await this.made.enter(tx, studio, template.id, template.course, start, only);
      await this.sessions.setState(tx, id, 'open');
      await this.sessions.setOpened(tx, id, this.clock.now());
      const locked = await this.seats.lock(tx, id);
      await this.made.prepare(tx, locked);
      await this.seats.take(tx, locked, students);
      const change = { sessionId: id };
      await this.seats.turn(tx, signUp, { event: 'approve', who: who.name, change, tell: 'signed' });
      await this.seats.firm(tx, signUp, locked);
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  /** Says no, with a word to them. @throws AppError wrong_state, bad_input */
  async decline(studioId: string, who: Who, signUpId: string, message: string): Promise<void> {
    const { message: words } = readInput(declineForm, { message });
    await this.db.inStudio(studioId, async (tx) => {
      const signUp = await this.known(tx, signUpId);
      const turn = {
        event: 'decline',
        who: who.name,
        change: { message: words },
        tell: 'declined',
        undoTo: backTo(signUp.state),
      } as const;
      await this.seats.turn(tx, signUp, turn);
      if (signUp.sessionId) await this.studios.raiseCalendarCounter(tx);
    });
  }

  /** Offers places to somebody who waits. @throws AppError wrong_state, place_taken, short_of_stock, not_an_opening */
  async offer(studioId: string, who: Who, signUpId: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const { sessionId } = await this.known(tx, signUpId);
      if (!sessionId) throw answered();
      const locked = await this.seats.lock(tx, sessionId);
      await this.offerTo(tx, locked, await this.known(tx, signUpId), who.name);
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  /**
   * Where the studio passes places on by rule: to the first who waits and whom they suffice, until there is nobody, or no
   * place left. Each in a transaction of its own: stock that runs short takes no offer back.
   * @throws AppError short_of_stock
   */
  async passOn(studioId: string, sessionId: string): Promise<void> {
    let passed: boolean;
    do {
      passed = await this.db.inStudio(studioId, async (tx) => {
        const locked = await this.seats.lock(tx, sessionId);
        const first = await this.firstInLine(tx, locked);
        if (first) await this.offerTo(tx, locked, first, BY_RULE);
        if (first || locked.lapsed > 0) await this.studios.raiseCalendarCounter(tx);
        return first !== null;
      });
    } while (passed);
  }

  /** Who is asked next by rule for places that are free; null for nobody. */
  private async firstInLine(tx: Tx, locked: Locked): Promise<SignUp | null> {
    const { session } = locked;
    const rules = await this.waiting.rules(tx);
    if (rules.mode !== 'automatic' || session.state !== 'open') return null;
    if (this.room.begun(locked.place) || !this.expiry(locked, rules).ok) return null;
    const all = await this.store.ofSessions(tx, [session.id]);
    const waiting = all.filter(({ state }) => state === 'waiting');
    const ids = waiting.map(({ id }) => id);
    const students = await this.store.students(tx, ids);
    const offers = await this.waiting.newestOf(tx, ids);
    return firstInLine(session, waiting, students, offers);
  }

  /** Lets lapse what has run out; one that the queue brings too early is looked at again. */
  async lapse(studioId: string, offerId: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const lapsed = await this.seats.lapse(tx, await this.studios.load(tx), this.clock.now());
      const offer = await this.waiting.byId(tx, offerId);
      if (offer && offer.answer === null) await this.waiting.watch(tx, offer, 'teaching.lapsed');
      if (lapsed > 0) await this.studios.raiseCalendarCounter(tx);
    });
  }

  /** Notes a deposit as due, received, or neither. */
  async noteDeposit(studioId: string, who: Who, signUpId: string, deposit: SignUp['deposit']): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      if ((await this.known(tx, signUpId)).deposit === deposit) return; // somebody noted it already: its moment stays
      await this.store.setDeposit(tx, signUpId, deposit, this.clock.now());
      const about = {
        who: who.name,
        aboutKind: 'sign-up',
        aboutId: signUpId,
        event: 'deposit',
        note: deposit,
      };
      await recordHistory(tx, this.clock, about);
    });
  }

  private async offerTo(tx: Tx, locked: Locked, signUp: SignUp, who: string): Promise<void> {
    if (signUp.state !== 'waiting') throw answered();
    const expiry = this.expiry(locked, await this.waiting.rules(tx));
    if (!expiry.ok)
      throw new AppError('not_an_opening', 'There is too little time left for an answer before that day.');
    await this.seats.take(tx, locked, await this.store.students(tx, [signUp.id]));
    await this.waiting.make(tx, { forId: signUp.id, occupancyId: null, expiry, who }, 'teaching.lapsed');
    await this.seats.turn(tx, signUp, { event: 'offer', who, tell: 'offered' });
  }

  private expiry({ studio, place }: Locked, { life, notice }: Awaited<ReturnType<WaitingService['rules']>>) {
    const { zone } = studio;
    const { startsAt } = place;
    return offerExpiry({ zone, now: this.clock.now(), startsAt, noticeDays: notice.near, life });
  }

  private async known(tx: Tx, signUpId: string): Promise<SignUp> {
    const signUp = await this.store.byId(tx, signUpId);
    if (!signUp) throw new AppError('not_found', 'This sign-up is not known here.');
    return signUp;
  }
}

const backTo = (state: SignUp['state']) =>
  state === 'requested' ? ('requested' as const) : ('waiting' as const);
