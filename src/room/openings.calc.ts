// Which places of a day are open: rhythm x light x room. Computed afresh each time, never stored.
// Pure: the day's light, what holds the room and the present instant are arguments.
import type { Temporal } from 'temporal-polyfill';
import { instantToWall, wallToInstant } from '../lib/zoned-time.js';
import type { Rhythm } from './occupancy.schemas.js';

/** Why a start of the rhythm is not an open place. */
export type ClosedReason =
  | 'clock gap' // that wall time does not exist, or exists twice, on that day
  | 'too soon'
  | 'no light'
  | 'light not yet good'
  | 'light ends first'
  | 'too dark'
  | 'room taken'
  | 'day full';

export interface Slot {
  wallStart: Temporal.PlainDateTime;
  wallEnd: Temporal.PlainDateTime;
  /** Absent only for a clock gap. */
  startsAt: Temporal.Instant | null;
  endsAt: Temporal.Instant | null;
  /** The end of the room's time, change-over included. */
  busyUntil: Temporal.Instant | null;
  closed: ClosedReason | null;
}

export interface Stretch {
  from: Temporal.Instant;
  until: Temporal.Instant;
}

export interface DayFacts {
  date: Temporal.PlainDate;
  zone: string;
  /** Good light from ... until ..., or null when the day has none. */
  light: Stretch | null;
  /** What holds the room around the day; `sittings` counts those of the day itself. */
  taken: Stretch[];
  sittings: number;
  /** Nothing may start before this instant. */
  notBefore: Temporal.Instant;
  /** Whether the clear-sky exposure at an instant passes the studio's cap. */
  tooDark: (at: Temporal.Instant) => boolean;
}

/** Minutes of a sitting with so many plates (1 or more), and of the room with change-over. */
export function lengthOf(rhythm: Rhythm, plates: number): { sitting: number; room: number } {
  const sitting = rhythm.firstPlateMinutes + rhythm.furtherPlateMinutes * (Math.max(1, plates) - 1);
  return { sitting, room: sitting + rhythm.changeoverMinutes };
}

/** The rhythm in force on a date: the latest begun of those for its weekday, or null. */
export function rhythmOn(rhythms: Rhythm[], date: Temporal.PlainDate): Rhythm | null {
  const inForce = rhythms.filter(
    (one) =>
      one.weekday === date.dayOfWeek &&
      one.effectiveFrom.until(date).days >= 0 &&
      (one.effectiveUntil === null || date.until(one.effectiveUntil).days >= 0),
  );
  return inForce.reduce<Rhythm | null>(
    (latest, one) => (latest && latest.effectiveFrom.until(one.effectiveFrom).days <= 0 ? latest : one),
    null,
  );
}

/** Every start of the day's rhythm for a sitting of so many plates, each open or closed with its reason. */
export function slotsOfDay(rhythm: Rhythm, plates: number, day: DayFacts): Slot[] {
  const { sitting, room } = lengthOf(rhythm, plates);
  return rhythm.starts.map((minute) => slotAt(day, minute, sitting, room, day.sittings >= rhythm.mostSittings));
}

function slotAt(day: DayFacts, minute: number, sitting: number, room: number, full: boolean): Slot {
  const midnight = day.date.toPlainDateTime();
  const wallStart = midnight.add({ minutes: minute });
  const start = wallToInstant(day.zone, wallStart);
  if (!start.ok) {
    const wallEnd = wallStart.add({ minutes: sitting });
    return { wallStart, wallEnd, startsAt: null, endsAt: null, busyUntil: null, closed: 'clock gap' };
  }
  const startsAt = start.instant;
  const endsAt = startsAt.add({ minutes: sitting });
  const busyUntil = startsAt.add({ minutes: room });
  const wallEnd = instantToWall(day.zone, endsAt);
  return { wallStart, wallEnd, startsAt, endsAt, busyUntil, closed: whyClosed(day, startsAt, endsAt, busyUntil, full) };
}

function whyClosed(
  day: DayFacts,
  startsAt: Temporal.Instant,
  endsAt: Temporal.Instant,
  busyUntil: Temporal.Instant,
  full: boolean,
): ClosedReason | null {
  const start = startsAt.epochMilliseconds;
  const end = endsAt.epochMilliseconds;
  if (start < day.notBefore.epochMilliseconds) return 'too soon';
  if (!day.light) return 'no light';
  if (start < day.light.from.epochMilliseconds) return 'light not yet good';
  if (end > day.light.until.epochMilliseconds) return 'light ends first';
  if (day.tooDark(startsAt) || day.tooDark(endsAt)) return 'too dark';
  const busy = busyUntil.epochMilliseconds;
  if (day.taken.some((one) => one.from.epochMilliseconds < busy && start < one.until.epochMilliseconds))
    return 'room taken';
  return full ? 'day full' : null;
}
