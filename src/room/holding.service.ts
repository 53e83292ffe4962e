// Takes the room for what follows no rhythm: a day of teaching, from a wall time for so many minutes. The exclusion
// constraint keeps it apart from sittings and closures. Methods take the caller's transaction.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { dayInWords, timeInWords } from '../lib/words.js';
import { instantToWall, wallToInstant } from '../lib/zoned-time.js';
import { Clock, Random } from '../platform/clock.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import type { Studio } from '../studios/studios.schemas.js';
import { hourProblem } from './class-hours.calc.js';
import type { Occupancy } from './occupancy.schemas.js';
import { RoomStore } from './room.store.js';
import { RulesStore } from './rules.store.js';

export interface Holding {
  heldFor: string;
  title: string;
  wallStart: Temporal.PlainDateTime;
  minutes: number;
  /** The owner said that an unusual hour is meant. */
  meant: boolean;
}

@Injectable()
export class HoldingService {
  private readonly store = new RoomStore();
  private readonly rules = new RulesStore();

  constructor(
    private readonly clock: Clock,
    private readonly random: Random,
  ) {}

  /**
   * Whether a class may be held then, before anything is done.
   * @throws AppError bad_input for one that runs past midnight, or at an unusual hour that nobody said is meant;
   * not_an_opening at an hour that clocks skip or show twice, or that is past
   */
  check(studio: Studio, asked: Pick<Holding, 'wallStart' | 'minutes' | 'meant'>): void {
    this.times(studio, asked);
  }

  /** @throws AppError as `check`; place_taken */
  async take(tx: Tx, studio: Studio, asked: Holding): Promise<Occupancy> {
    await this.rules.lockShared(tx);
    const now = this.clock.now();
    const place: Occupancy = {
      id: this.random.id(),
      resource: 'room',
      kind: 'teaching',
      heldFor: asked.heldFor,
      holds: true,
      tentative: false,
      zone: studio.zone,
      ...this.times(studio, asked),
      title: asked.title,
      plates: 0,
      kindId: null,
      uid: this.random.id(),
      sequence: 0,
      revisedAt: now,
      createdAt: now,
    };
    await this.refuseHeld(tx, place);
    await this.store.insert(tx, place);
    return place;
  }

  /** Another time for what was given back a moment ago; in calendars it stays the same entry. @throws as `take` */
  async takeInstead(tx: Tx, studio: Studio, given: Occupancy, asked: Holding): Promise<Occupancy> {
    await this.rules.lockShared(tx);
    const to = { ...given, ...this.times(studio, asked), zone: studio.zone };
    await this.refuseHeld(tx, to);
    return this.store.move(tx, to, this.clock.now());
  }

  /** What holds the room at that time already is told by name; who is faster meanwhile meets the constraint. */
  private async refuseHeld(tx: Tx, { startsAt, busyUntil }: Occupancy): Promise<void> {
    const all = await this.store.holding(tx, startsAt, busyUntil);
    const held = all.find(({ kind }) => kind !== 'closure') ?? all[0];
    if (!held) return;
    const message =
      held.kind === 'closure'
        ? 'The studio is closed at that time.'
        : `The room holds ${held.kind === 'sitting' ? 'a sitting' : 'a teaching day'} at that time, from ${timeInWords(held.wallStart)} to ${timeInWords(held.wallEnd)}.`;
    throw new AppError('place_taken', message, [{ field: 'day', message }]);
  }

  private times(
    { zone }: Studio,
    { wallStart, minutes, meant }: Pick<Holding, 'wallStart' | 'minutes' | 'meant'>,
  ) {
    const starts = wallToInstant(zone, wallStart);
    if (!starts.ok)
      throw new AppError('not_an_opening', 'The clocks change at that hour; please choose another time.');
    const endsAt = starts.instant.add({ minutes });
    const wallEnd = instantToWall(zone, endsAt);
    refuseHour(wallStart, wallEnd, meant);
    if (starts.instant.epochMilliseconds <= this.clock.now().epochMilliseconds)
      throw new AppError('not_an_opening', 'That time is past.');
    return { wallStart, wallEnd, startsAt: starts.instant, endsAt, busyUntil: endsAt };
  }
}

/** Told beside the field; an unusual hour is taken once the owner says that it is meant. */
function refuseHour(
  wallStart: Temporal.PlainDateTime,
  wallEnd: Temporal.PlainDateTime,
  meant: boolean,
): void {
  const problem = hourProblem(wallStart, wallEnd);
  if (problem === null || (problem === 'unusual' && meant)) return;
  const [from, until] = [timeInWords(wallStart), timeInWords(wallEnd)];
  const said =
    problem === 'unusual'
      ? {
          field: 'meant',
          message: `The class would be from ${from} to ${until}. Please tick here if that is meant, or choose another time.`,
        }
      : {
          field: 'time',
          message: `The class would run past midnight, until ${until} on ${dayInWords(wallEnd)}. Please choose an earlier time.`,
        };
  throw new AppError('bad_input', said.message, [said]);
}
