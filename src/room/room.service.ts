// Open places, and taking and giving back the room. Methods with `tx` work in the caller's transaction.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { type LightWindow, lightWindow } from '../daylight/window.calc.js';
import { dayBounds, instantToWall } from '../lib/zoned-time.js';
import { Clock, Random } from '../platform/clock.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError, type FieldProblem } from '../platform/problems.js';
import type { Studio } from '../studios/studios.schemas.js';
import type { Occupancy, Rhythm } from './occupancy.schemas.js';
import { type ClosedReason, rhythmOn, type Slot, slotsOfDay } from './openings.calc.js';
import { RoomStore } from './room.store.js';

export interface DayOfPlaces {
  date: Temporal.PlainDate;
  /** Good light from ... until ..., or null when the day has none. */
  light: LightWindow | null;
  openings: Slot[];
}

interface Range {
  from: Temporal.PlainDate;
  until: Temporal.PlainDate;
}

/** Why a place cannot be given, in words. */
export const CLOSED_WORDS: Record<ClosedReason, string> = {
  'clock gap': 'the clocks change at that hour',
  'too soon': 'it is too soon',
  'no light that day': 'there is no good light that day',
  'starts before good light': 'the light is not yet good',
  'light ends first': 'the light goes before the sitting ends',
  'exposure above cap': 'one would have to hold still too long',
  'room taken': 'it is taken',
  'day full': 'the day is full',
};

@Injectable()
export class RoomService {
  private readonly store = new RoomStore();

  constructor(
    private readonly clock: Clock,
    private readonly random: Random,
  ) {}

  /** Today's date on the studio's wall. */
  today(studio: Studio): Temporal.PlainDate {
    return instantToWall(studio.zone, this.clock.now()).toPlainDate();
  }

  /** The dates for which places can be asked: from the least notice to the booking horizon, both included. */
  bookable(studio: Studio): Range {
    const today = this.today(studio);
    return {
      from: today.add({ days: studio.leastNoticeDays }),
      until: today.add({ months: studio.horizonMonths }),
    };
  }

  /**
   * The days of the rhythm in a range, each with its places for a sitting of so many plates.
   * Two statements whatever the range; days without a rhythm are left out.
   */
  async days(tx: Tx, studio: Studio, range: Range, plates: number): Promise<DayOfPlaces[]> {
    const rhythms = await this.store.rhythms(tx);
    const bounds = {
      from: dayBounds(studio.zone, range.from).start,
      until: dayBounds(studio.zone, range.until).end,
    };
    const holding = await this.store.holding(tx, bounds.from, bounds.until);
    const taken = holding.map((one) => ({ from: one.startsAt, until: one.busyUntil }));
    const sittingDays = holding
      .filter((one) => one.kind === 'sitting')
      .map((one) => one.wallStart.toPlainDate().toString());
    const notBefore = dayBounds(studio.zone, this.bookable(studio).from).start;
    const days: DayOfPlaces[] = [];
    const { compare } = Temporal.PlainDate;
    for (let date = range.from; compare(date, range.until) <= 0; date = date.add({ days: 1 })) {
      const rhythm = rhythmOn(rhythms, date);
      if (!rhythm) continue;
      const window = lightWindow(studio, date, studio.lightFloorDegrees);
      const sittings = sittingDays.filter((day) => day === date.toString()).length;
      const facts = { date, room: studio, window, taken, sittings, notBefore };
      days.push({ date, light: window, openings: slotsOfDay(rhythm, plates, facts) });
    }
    return days;
  }

  /** What is wrong with the days somebody asks for; empty when nothing is. */
  dayProblems(
    studio: Studio,
    suits:
      | { kind: 'any'; from: Temporal.PlainDate; until: Temporal.PlainDate }
      | { kind: 'these'; days: Temporal.PlainDate[] },
  ): FieldProblem[] {
    const { from, until } = this.bookable(studio);
    const outside = (day: Temporal.PlainDate) => day.until(from).days > 0 || until.until(day).days > 0;
    if (suits.kind === 'these') {
      if (!suits.days.some(outside)) return [];
      return [{ field: 'suits/days', message: `Please choose days from ${from} to ${until}.` }];
    }
    if (suits.until.until(from).days > 0)
      return [
        { field: 'suits/until', message: `This is past or too soon; the first day to ask for is ${from}.` },
      ];
    if (until.until(suits.from).days > 0)
      return [{ field: 'suits/from', message: `Places are given until ${until}.` }];
    return [];
  }

  /**
   * Takes the room for a sitting at a start of the rhythm.
   * @throws AppError not_an_opening with the reason, place_taken
   */
  async take(
    tx: Tx,
    studio: Studio,
    wanted: { wallStart: Temporal.PlainDateTime; plates: number; heldFor: string },
  ): Promise<Occupancy> {
    const date = wanted.wallStart.toPlainDate();
    const [day] = await this.days(tx, studio, { from: date, until: date }, wanted.plates);
    const slot = day?.openings.find((one) => one.wallStart.equals(wanted.wallStart));
    if (!slot?.startsAt || !slot.endsAt || !slot.busyUntil) throw new AppError('not_an_opening');
    if (slot.closed === 'room taken') throw new AppError('place_taken');
    if (slot.closed)
      throw new AppError('not_an_opening', `That place is not open: ${CLOSED_WORDS[slot.closed]}.`);
    const now = this.clock.now();
    const place: Occupancy = {
      id: this.random.id(),
      resource: 'room',
      kind: 'sitting',
      heldFor: wanted.heldFor,
      holds: true,
      zone: studio.zone,
      wallStart: slot.wallStart,
      wallEnd: slot.wallEnd,
      startsAt: slot.startsAt,
      endsAt: slot.endsAt,
      busyUntil: slot.busyUntil,
      title: '',
      uid: this.random.id(),
      sequence: 0,
      revisedAt: now,
      createdAt: now,
    };
    await this.store.insert(tx, place);
    return place;
  }

  /** Gives a place's room back; its next sequence tells the calendars. */
  giveBack(tx: Tx, occupancyId: string): Promise<Occupancy> {
    return this.store.giveBack(tx, occupancyId, this.clock.now());
  }

  byIds(tx: Tx, ids: string[]): Promise<Occupancy[]> {
    return this.store.byIds(tx, ids);
  }

  between(
    tx: Tx,
    from: Temporal.Instant,
    until: Temporal.Instant,
    cancelledSince: Temporal.Instant,
  ): Promise<Occupancy[]> {
    return this.store.between(tx, from, until, cancelledSince);
  }

  async enterRhythm(tx: Tx, rhythm: Omit<Rhythm, 'id'>): Promise<void> {
    await this.store.insertRhythm(tx, { id: this.random.id(), ...rhythm });
  }

  /**
   * Closes the room from one date to another, both included.
   * @throws AppError place_taken where something holds it
   */
  async close(tx: Tx, studio: Studio, range: Range, title: string): Promise<void> {
    const startsAt = dayBounds(studio.zone, range.from).start;
    const endsAt = dayBounds(studio.zone, range.until).end;
    const id = this.random.id();
    const now = this.clock.now();
    await this.store.insert(tx, {
      id,
      resource: 'room',
      kind: 'closure',
      heldFor: id,
      holds: true,
      zone: studio.zone,
      wallStart: instantToWall(studio.zone, startsAt),
      wallEnd: instantToWall(studio.zone, endsAt),
      startsAt,
      endsAt,
      busyUntil: endsAt,
      title,
      uid: this.random.id(),
      sequence: 0,
      revisedAt: now,
      createdAt: now,
    });
  }
}
