// A teaching day's turns: laid from what is known of the day, kept by the owner, and planned anew on the day when
// somebody is late, a plate is skipped or done. Reckoning goes on in a thread and outside every transaction.
import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import { lightWindow } from '../daylight/window.calc.js';
import { instantToWall } from '../lib/zoned-time.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import { once } from '../platform/idempotency.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import { StockService } from '../stock/stock.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { bottleOf, isCyanide } from './estimate.calc.js';
import type { NoRota, Rota } from './rota.calc.js';
import type { Bench } from './rota-bench.calc.js';
import type { Remedy } from './rota-changes.calc.js';
import type { Weather } from './rota-presets.calc.js';
import { SessionsStore } from './sessions.store.js';
import { SignUpsStore } from './sign-ups.store.js';
import { stands } from './states.calc.js';
import type { Student } from './teaching.schemas.js';
import { type BenchAnswer, benchOf, type DayFacts } from './turns-bench.calc.js';
import { TurnsPlanner } from './turns-planner.service.js';
import { NOTHING_TOLD, type Telling, type Turns } from './turns.schemas.js';
import { afterTelling, keptRest } from './turns-told.calc.js';
import { TurnsStore } from './turns.store.js';
import type { DayView } from './views.service.js';

/** So often the rest is planned again because somebody else told something meanwhile. */
const MOST_TRIES = 12;
/** So long after its end a day is over: until then somebody may still be at the bench. Assumption. */
const STILL_THERE = 6 * 3600;

/** What a day's turns come from, read in one transaction. */
interface Read {
  day: DayView;
  facts: DayFacts;
  made: BenchAnswer;
  kept: Turns | null;
  /** Of everybody who ever signed up for the day: turns may be of somebody who has left. */
  names: Map<string, string>;
  sizes: Map<string, string>;
  students: Student[];
  /** Seconds since the midnight of the day: 0 before it, more than a day's after it. */
  now: number;
}

/** The day as its page shows it. */
export interface TurnsView extends Omit<Read, 'made'> {
  /** The bench and turns shown: the kept ones, or laid now. Null where nothing could be laid. */
  shown: { bench: Bench; rota: Rota } | null;
  /** Why not. */
  no: Exclude<BenchAnswer, { ok: true }> | NoRota | { ok: false; reason: 'time' } | null;
  /** What would make it fit, where it does not; null: the time for looking ran out. */
  remedies: Remedy[] | null;
  /** Stands for the bench as the day has it now. */
  basis: string | null;
  /** Kept for other people, or another bench, than the day has now. */
  stale: boolean;
}

@Injectable()
export class TurnsService {
  private readonly store = new TurnsStore();
  private readonly sessions = new SessionsStore();
  private readonly signUps = new SignUpsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly planner: TurnsPlanner,
  ) {}

  /** The kept turns, or those laid now; of another weather they are laid, not kept. @throws AppError not_found */
  async view(studioId: string, sessionId: string, weather?: Weather): Promise<TurnsView> {
    const { made, ...read } = await this.db.inStudio(studioId, (tx) => this.read(tx, sessionId, weather));
    const { kept } = read;
    const basis = made.ok ? basisOf(made.bench) : null;
    const base = { ...read, basis, stale: kept !== null && kept.basis !== basis };
    if (kept && weather === undefined)
      return { ...base, shown: { bench: kept.bench, rota: kept.rota }, no: null, remedies: [] };
    if (!made.ok) return { ...base, shown: null, no: made, remedies: [] };
    const laid = await this.planner.plan(made.bench);
    if (laid === null) return { ...base, shown: null, no: { ok: false, reason: 'time' }, remedies: [] };
    if (laid.ok && laid.rota.fits)
      return { ...base, shown: { bench: made.bench, rota: laid.rota }, no: null, remedies: [] };
    const remedies = await this.planner.changes(made.bench);
    return laid.ok
      ? { ...base, shown: { bench: made.bench, rota: laid.rota }, no: null, remedies }
      : { ...base, shown: null, no: laid, remedies };
  }

  /** The kept turns of a day, with names; null where none are kept. @throws AppError not_found */
  async kept(
    studioId: string,
    sessionId: string,
  ): Promise<(Omit<Read, 'made' | 'kept'> & { kept: Turns; stale: boolean }) | null> {
    const { made, kept, ...read } = await this.db.inStudio(studioId, (tx) => this.read(tx, sessionId));
    return kept && { ...read, kept, stale: !made.ok || kept.basis !== basisOf(made.bench) };
  }

  /** @throws AppError not_found */
  async day(studioId: string, sessionId: string): Promise<DayView> {
    return (await this.db.inStudio(studioId, (tx) => this.read(tx, sessionId))).day;
  }

  /**
   * Lays the turns and keeps them. @returns false where the day is no longer as it was shown
   * @throws AppError not_found, wrong_state once turns have begun or the day is over, and where none can be laid
   */
  async keep(
    studioId: string,
    who: { name: string },
    sessionId: string,
    weather: Weather | undefined,
    basis: string,
  ): Promise<boolean> {
    const { made } = await this.db.inStudio(studioId, (tx) => this.read(tx, sessionId, weather));
    if (!made.ok || basisOf(made.bench) !== basis) return false;
    const laid = await this.planner.plan(made.bench);
    if (laid === null) throw tooLong();
    if (!laid.ok) throw new AppError('wrong_state', 'No turns can be laid on this day.');
    return this.db.inStudio(studioId, async (tx) => {
      await this.sessions.lockAll(tx, [sessionId]);
      const again = await this.read(tx, sessionId, weather);
      if (!again.made.ok || basisOf(again.made.bench) !== basis) return false;
      if (!stands(again.day.session.state) || isOver(again.now, made.bench))
        throw new AppError('wrong_state', 'This day is over, or called off.');
      const begun = again.kept?.rota.plates.some(({ runs }) => (runs[0]?.start ?? 0) < again.now);
      if (begun)
        throw new AppError(
          'wrong_state',
          'The turns have begun. Tell who is late and what is skipped; the rest is planned anew.',
        );
      const turns = { sessionId, basis, bench: made.bench, rota: laid.rota, told: NOTHING_TOLD };
      await this.store.keep(tx, turns, this.clock.now());
      await this.note(tx, who, sessionId, 'turns kept', '');
      return true;
    });
  }

  /**
   * Somebody is late, has left, or a plate is skipped or done, or that was told by a slip: the rest of the day is planned
   * around what has begun.
   * Told twice under one key it is done once.
   * @throws AppError not_found without kept turns, bad_input, wrong_state after the day, busy
   */
  async tell(
    studioId: string,
    who: { name: string },
    sessionId: string,
    telling: Telling,
    key?: string,
  ): Promise<void> {
    for (let tries = 0; tries < MOST_TRIES; tries++) {
      const read = await this.db.inStudio(studioId, (tx) => this.read(tx, sessionId));
      const { kept, now } = read;
      if (!kept) throw new AppError('not_found', 'No turns are kept for this day.');
      if (isOver(now, kept.bench) || !stands(read.day.session.state))
        throw new AppError('wrong_state', 'This day is over, or called off.');
      const after = afterTelling(kept, telling, now);
      if (!after.ok) {
        const field = after.reason === 'no such plate' ? 'round' : 'studentId';
        throw new AppError('bad_input', undefined, [{ field, message: NOT_HERE[field] }]);
      }
      const rest = await this.planner.replan(kept.bench, after.rota, after.meanwhile);
      if (rest === null) throw tooLong();
      if (!rest.ok) throw new Error(`Kept turns that could not have been laid: ${rest.reason}.`);
      const turns = { sessionId, rota: keptRest(after, telling, rest.rota), told: after.told };
      if (await this.change(studioId, who, kept.revision, turns, telling, key)) return;
    }
    throw new AppError('busy', 'Too many people told something at once; please tell it again.');
  }

  /** Writes the rest of a day, unless somebody else was faster. */
  private async change(
    studioId: string,
    who: { name: string },
    revision: number,
    turns: Pick<Turns, 'sessionId' | 'rota' | 'told'>,
    telling: Telling,
    key: string | undefined,
  ): Promise<boolean> {
    const { sessionId } = turns;
    try {
      await this.db.inStudio(studioId, async (tx) => {
        const acting = async () => {
          const known = await this.store.kept(tx, sessionId, true);
          if (known?.revision !== revision) throw new Overtaken();
          await this.store.change(tx, turns, this.clock.now());
          await this.note(tx, who, sessionId, `turns: ${telling.what}`, told(telling));
          return null;
        };
        if (key === undefined) return acting();
        const keyed = { name: 'turns', key, request: { sessionId, telling } };
        return once(tx, this.clock, keyed, z.null(), acting);
      });
      return true;
    } catch (error) {
      if (error instanceof Overtaken) return false;
      throw error;
    }
  }

  private async read(tx: Tx, sessionId: string, weather?: Weather): Promise<Read> {
    const studio = await this.studios.load(tx);
    const session = await this.sessions.byId(tx, sessionId, false);
    const [place] = session ? await this.room.byIds(tx, [session.occupancyId]) : [];
    if (!session || !place) throw new AppError('not_found', 'This teaching day is not known here.');
    const signUps = await this.signUps.ofSessions(tx, [sessionId]);
    const there = new Set(
      signUps.filter(({ state }) => state === 'signed' || state === 'attended').map(idOf),
    );
    const all = await this.signUps.students(tx, signUps.map(idOf));
    const order = new Map(signUps.map(({ id }, at) => [id, at]));
    const students = all
      .filter(({ signUpId }) => there.has(signUpId))
      .sort((a, b) => (order.get(a.signUpId) ?? 0) - (order.get(b.signUpId) ?? 0));
    const sizes = await this.stock.plateSizes(tx);
    const date = place.wallStart.toPlainDate();
    const window = lightWindow(studio, date, studio.lightFloorDegrees);
    const fixer = bottleOf('fixer', session.course, await this.stock.items(tx));
    const facts: DayFacts = {
      course: session.course,
      wallStart: place.wallStart,
      wallEnd: place.wallEnd,
      light: window && {
        from: instantToWall(studio.zone, window.start),
        until: instantToWall(studio.zone, window.end),
      },
      students,
      secondAdult: session.secondAdult !== '',
      cyanide: fixer !== null && isCyanide(fixer),
      sizes,
      weather,
    };
    const wall = instantToWall(studio.zone, this.clock.now());
    const seconds = date.toPlainDateTime().until(wall).total('seconds');
    return {
      day: { session, place },
      facts,
      made: benchOf(facts),
      kept: await this.store.kept(tx, sessionId, false),
      names: new Map(all.map(({ id, name }) => [id, name])),
      sizes: new Map(sizes.map(({ id, name }) => [id, name])),
      students,
      now: Math.max(0, Math.floor(seconds)),
    };
  }

  private note(tx: Tx, who: { name: string }, aboutId: string, event: string, note: string): Promise<void> {
    return recordHistory(tx, this.clock, { who: who.name, aboutKind: 'teaching', aboutId, event, note });
  }
}

/** Somebody else changed the turns between reading and writing. */
class Overtaken extends Error {}

const isOver = (now: number, { day }: Bench) => now > day.until + STILL_THERE;
const idOf = ({ id }: { id: string }) => id;
const NOT_HERE = {
  studentId: 'Please choose one of the students of this day.',
  round: 'This student has no such plate.',
};
const tooLong = () =>
  new AppError(
    'busy',
    'Planning the turns took too long and was given up; nothing is changed. Please try again.',
  );

const told = (telling: Telling) =>
  telling.what === 'late'
    ? `${telling.minutes} min`
    : telling.round !== undefined
      ? `plate ${telling.round}`
      : telling.what === 'again'
        ? 'here after all'
        : 'left';

/** Equal for equal benches. */
const basisOf = (bench: Bench): string =>
  createHash('sha256').update(JSON.stringify(bench)).digest('base64url');
