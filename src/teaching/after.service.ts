// Afterwards: who was there, what was made and used, written down in one act. What was set aside becomes used, or is
// free again; typing it once more corrects it. It writes to nobody and gives no plate its running number.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { ActualsService } from '../chemistry/actuals.service.js';
import { SOLUTION_KINDS } from '../chemistry/use-per-area.calc.js';
import { instantToWall } from '../lib/zoned-time.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import { DaysService } from '../stock/days.service.js';
import { StockService } from '../stock/stock.service.js';
import { usualOf } from '../stock/usual.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { dayOfClasses, takenOf, tellsFigures, triesBySize } from './after.calc.js';
import type { ClassRecord, HeldBottle, ToldAfter } from './after.schemas.js';
import { AfterStore } from './after.store.js';
import { bottleOf, demonstrationNeeds } from './estimate.calc.js';
import { type Locked, SeatsService } from './seats.service.js';
import { SessionsStore } from './sessions.store.js';
import { SignUpsStore } from './sign-ups.store.js';
import { nextOfSession } from './states.calc.js';
import type { Session, SignUp, Student } from './teaching.schemas.js';
import { TeachingViews } from './views.service.js';

type Who = { name: string };
const CAME = ['signed', 'attended', 'did_not_come'];

interface Settling {
  session: Session;
  students: readonly Student[];
  told: ToldAfter;
  before: ClassRecord | null;
}

@Injectable()
export class AfterService {
  private readonly store = new AfterStore();
  private readonly sessions = new SessionsStore();
  private readonly signUps = new SignUpsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly days: DaysService,
    private readonly actuals: ActualsService,
    private readonly seats: SeatsService,
    private readonly views: TeachingViews,
  ) {}

  /** A day with who had a place and what is written down of it. @throws AppError not_found */
  async show(studioId: string, sessionId: string) {
    const view = await this.views.session(studioId, sessionId);
    const students = view.signUps
      .filter(({ signUp }) => CAME.includes(signUp.state))
      .flatMap((one) => one.students);
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const record = await this.store.of(tx, sessionId);
      return { view, students, record, fresh: record !== null && this.isOfToday(studio, record) };
    });
  }

  /**
   * Writes a day down once it has begun, or corrects what was written: the whole page counts, each time. The day is
   * held with it, and whom to ring in an emergency is erased.
   * @param check is asked about what stands there before it is overwritten
   * @throws AppError bad_input with a sentence per field, wrong_state for a day that cannot have been held or that is
   * written down for learners by hand
   */
  async write(
    studioId: string,
    who: Who,
    sessionId: string,
    told: ToldAfter,
    check: (stands: ClassRecord | null) => void = () => {},
  ): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const locked = await this.seats.lock(tx, sessionId);
      const before = await this.store.of(tx, sessionId);
      check(before);
      await this.hold(tx, locked);
      const { signUps, students } = await this.learners(tx, sessionId);
      this.check(told, students, sessionId);
      await this.checkByHand(tx, locked, told);
      const { session, place } = locked;
      const { moves, held, used } = await this.settle(tx, who, { session, students, told, before });
      const record: ClassRecord = {
        ...told,
        sessionId,
        day: place.wallStart.toPlainDate(),
        movesStock: moves,
        writtenAt: before?.writtenAt ?? this.clock.now(),
      };
      await this.store.save(tx, record);
      if (!before) await this.store.insertHeld(tx, sessionId, held);
      await this.store.setUsed(tx, sessionId, used);
      for (const signUp of signUps) await this.turn(tx, who, signUp, students, told);
      await this.tellFigures(tx, who, record.day, before !== null && tellsFigures(before));
      await this.note(tx, who, sessionId, before ? 'afterwards corrected' : 'afterwards written', told.note);
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  /**
   * Takes all of it back on the day it was written: what was used is in the bottles again and set aside as before,
   * and the day is one that people are signed up for. Whom to ring stays erased.
   * @throws AppError wrong_state on a later day, short_of_stock
   */
  async undo(studioId: string, who: Who, sessionId: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const locked = await this.seats.lock(tx, sessionId);
      const { studio, session } = locked;
      const record = await this.store.of(tx, sessionId);
      const state = nextOfSession(session.state, 'undo_end');
      if (!record || !state) throw new AppError('wrong_state', 'Nothing is written down of this day.');
      if (!this.isOfToday(studio, record))
        throw new AppError('wrong_state', 'It can be taken back on the day it was written only.');
      const used = await this.store.used(tx, sessionId);
      await this.stock.putBack(tx, used, who.name, 'what a class took was taken back');
      await this.store.remove(tx, sessionId);
      await this.tellFigures(tx, who, record.day, tellsFigures(record));
      const { signUps, students } = await this.learners(tx, sessionId);
      for (const signUp of signUps)
        if (signUp.state !== 'signed')
          await this.seats.turn(tx, signUp, { event: 'undo_end', who: who.name, tell: null });
      await this.sessions.setState(tx, sessionId, state);
      if (session.taken >= session.places)
        await this.sessions.setState(tx, sessionId, nextOfSession(state, 'fill') ?? state);
      if (record.movesStock) await this.setAsideAgain(tx, locked, students);
      await this.note(tx, who, sessionId, 'afterwards taken back');
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  private isOfToday(studio: Studio, { writtenAt }: ClassRecord): boolean {
    return instantToWall(studio.zone, writtenAt).toPlainDate().equals(this.room.today(studio));
  }

  /** The day was held: its state, and nobody is to be rung any more. */
  private async hold(tx: Tx, { session, place }: Locked): Promise<void> {
    const state = session.state === 'run' ? 'run' : nextOfSession(session.state, 'end');
    if (!state) throw new AppError('wrong_state', 'This day was not held.');
    if (!this.room.begun(place)) throw new AppError('wrong_state', 'This day has not begun yet.');
    if (state === session.state) return;
    await this.sessions.setState(tx, session.id, state);
    await this.signUps.eraseEmergency(tx, session.id);
  }

  private async learners(tx: Tx, sessionId: string): Promise<{ signUps: SignUp[]; students: Student[] }> {
    const signUps = (await this.signUps.ofSessions(tx, [sessionId])).filter(({ state }) =>
      CAME.includes(state),
    );
    const ids = signUps.map(({ id }) => id);
    return { signUps, students: await this.signUps.students(tx, ids) };
  }

  private check(told: ToldAfter, students: readonly Student[], sessionId: string): void {
    const makers = new Set([sessionId, ...students.map(({ id }) => id)]);
    const missing = students
      .filter(({ id }) => !told.attendance.has(id))
      .map(({ id, name }) => ({ field: `how-${id}`, message: `Please say whether ${name} came.` }));
    const gone = students
      .filter(({ id }) => told.attendance.get(id) === 'did_not_come')
      .filter(({ id }) => told.plates.some(({ maker, tries }) => maker === id && tries > 0))
      .map(({ id, name }) => ({ field: `how-${id}`, message: `${name} did not come, but made plates.` }));
    const problems = [...missing, ...gone];
    if (problems.length > 0) throw new AppError('bad_input', undefined, problems);
    if (told.plates.some(({ maker }) => !makers.has(maker))) throw new AppError('bad_input');
    if ([...told.attendance.keys()].some((id) => !makers.has(id))) throw new AppError('bad_input');
  }

  /** What the owner wrote of learners by hand is not written over. */
  private async checkByHand(tx: Tx, { place }: Locked, told: ToldAfter): Promise<void> {
    const day = place.wallStart.toPlainDate();
    if (!tellsFigures(told) || !(await this.actuals.isWritten(tx, { day, madeBy: 'beginners' }))) return;
    if ((await this.store.onDay(tx, day)).some(tellsFigures)) return;
    throw new AppError(
      'wrong_state',
      'What learners took on this day is written down under “What a day took” already. Take it out there first.',
    );
  }

  /** Takes what was used out of the bottles and frees the rest; of a correction, after all was put back. */
  private async settle(
    tx: Tx,
    who: Who,
    { session, students, told, before }: Settling,
  ): Promise<{ moves: boolean; held: HeldBottle[]; used: { lotId: string; quantity: bigint }[] }> {
    const measured = await this.measured(tx, session, told);
    const { moves, held } = before
      ? await this.beginAgain(tx, who, session.id, before.movesStock)
      : await this.release(tx, session.id, students, [...measured.keys()]);
    if (!moves) return { moves, held, used: [] };
    const absent = new Set(
      students.map(({ id }) => id).filter((id) => told.attendance.get(id) === 'did_not_come'),
    );
    const took = takenOf({ held, absent, told: measured, lots: await this.stock.lots(tx) });
    if (!took.ok) throw await this.notSoMuch(tx, took.itemId);
    await this.stock.use(tx, session.id, took.used, who.name);
    return { moves, held, used: took.used };
  }

  /** What was used is in the bottles again. */
  private async beginAgain(tx: Tx, who: Who, sessionId: string, moves: boolean) {
    const used = await this.store.used(tx, sessionId);
    await this.stock.putBack(tx, used, who.name, 'what a class took is written anew');
    return { moves, held: await this.store.held(tx, sessionId) };
  }

  /** What was set aside, before it is given free; nothing moves later where it had been settled otherwise. */
  private async release(tx: Tx, sessionId: string, students: readonly Student[], also: string[]) {
    const held: (HeldBottle | { holder: string; lotId: null })[] = [];
    const items: string[] = [];
    for (const holder of [sessionId, ...students.map(({ id }) => id)])
      for (const { item, lotId, quantity } of await this.stock.setAside(tx, holder)) {
        items.push(item.id);
        held.push(lotId === null ? { holder, lotId } : { holder, lotId, quantity });
      }
    await this.stock.lock(tx, [...items, ...also]);
    for (const { id } of students) await this.stock.release(tx, id);
    const inBottles = held.filter((one): one is HeldBottle => one.lotId !== null);
    return { moves: held.length > 0, held: inBottles };
  }

  /** What was typed in, by the item it is taken of; silver is not set aside. */
  private async measured(tx: Tx, { course }: Session, told: ToldAfter): Promise<Map<string, bigint>> {
    const items = await this.stock.items(tx);
    const measured = new Map<string, bigint>();
    for (const kind of SOLUTION_KINDS) {
      const item = bottleOf(kind, course, items);
      const quantity = told.used[kind];
      if (item && quantity !== undefined) measured.set(item.id, quantity);
    }
    for (const [plateSizeId, { tries }] of triesBySize(told.plates)) {
      const glass = usualOf(items, 'glass', plateSizeId);
      if (glass) measured.set(glass.id, BigInt(tries));
    }
    return measured;
  }

  private async notSoMuch(tx: Tx, itemId: string): Promise<AppError> {
    const item = (await this.stock.items(tx)).find(({ id }) => id === itemId);
    const field = item?.kind === 'glass' ? `tries-group-${item.plateSizeId}` : (item?.kind ?? '');
    const message = `By the book there is not so much ${item?.name ?? 'in it'}; please count it first.`;
    return new AppError('bad_input', undefined, [{ field, message }]);
  }

  /** Whether a sign-up came, of which one student at least did. */
  private async turn(
    tx: Tx,
    who: Who,
    signUp: SignUp,
    students: readonly Student[],
    { attendance }: ToldAfter,
  ): Promise<void> {
    const own = students.filter(({ signUpId }) => signUpId === signUp.id);
    const came = own.some(({ id }) => attendance.get(id) !== 'did_not_come');
    if (signUp.state === (came ? 'attended' : 'did_not_come')) return;
    const event = came ? 'end_attended' : 'end_missed';
    await this.seats.turn(tx, signUp, { event, who: who.name, tell: null });
  }

  /** What the classes of a day tell together stands as what learners took on it. */
  private async tellFigures(tx: Tx, who: Who, day: Temporal.PlainDate, told: boolean): Promise<void> {
    const which = { day, madeBy: 'beginners' } as const;
    const written = await this.actuals.isWritten(tx, which);
    const records = await this.store.onDay(tx, day);
    if (records.some(tellsFigures))
      await this.actuals.record(tx, who, {
        ...which,
        ...dayOfClasses(records, await this.stock.plateSizes(tx)),
      });
    else if (told && written) await this.actuals.remove(tx, who, which);
  }

  private async setAsideAgain(
    tx: Tx,
    { studio, session, place }: Locked,
    students: readonly Student[],
  ): Promise<void> {
    const day = place.wallStart.toPlainDate();
    const needs = demonstrationNeeds(session.course, await this.seats.shelf(tx, studio));
    await this.days.reserve(tx, studio, session.id, needs, day);
    await this.seats.setAside(tx, studio, session, day, [...students]);
  }

  private note(tx: Tx, who: Who, aboutId: string, event: string, note = ''): Promise<void> {
    return recordHistory(tx, this.clock, { who: who.name, aboutKind: 'teaching', aboutId, event, note });
  }
}
