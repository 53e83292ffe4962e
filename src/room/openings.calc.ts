// Which places of a day are open: rhythm x light x room. Computed afresh each time, never stored.
// Pure: the day's light, what holds the room and the present instant are arguments.
import { Temporal } from 'temporal-polyfill';
import {
  altitudesDuring,
  exposureRange,
  type Range,
  type SlotLight,
  type StudioLight,
  slotLight,
} from '../daylight/exposure.calc.js';
import type { Place } from '../daylight/sun.calc.js';
import type { LightWindow } from '../daylight/window.calc.js';
import { instantToWall, wallToInstant } from '../lib/zoned-time.js';
import type { Rhythm } from './occupancy.schemas.js';

/** Why a start of the rhythm is not an open place. A clock gap: that wall time is missing, or there twice. */
export type ClosedReason =
  | 'clock gap'
  | 'too soon'
  | 'room taken'
  | 'day full'
  | Extract<SlotLight, { ok: false }>['reason'];

/** How long one holds still, in seconds: under a clear sky, and on a dull day. */
export interface HoldStill {
  clear: Range;
  dull: Range;
}

/** One start of the rhythm. The instants are null only for a clock gap. */
export interface Slot {
  wallStart: Temporal.PlainDateTime;
  wallEnd: Temporal.PlainDateTime;
  startsAt: Temporal.Instant | null;
  endsAt: Temporal.Instant | null;
  /** The end of the room's time, change-over included. */
  busyUntil: Temporal.Instant | null;
  /** Null where the light does not suffice to say. */
  holdStill: HoldStill | null;
  /** Null for an open place. */
  closed: ClosedReason | null;
}

export interface Stretch {
  from: Temporal.Instant;
  until: Temporal.Instant;
}

/** What a studio's light depends on; a Studio has these fields and more. */
export interface RoomLight extends Place, StudioLight {
  exposureCapSeconds: number;
}

export interface DayFacts {
  date: Temporal.PlainDate;
  room: RoomLight;
  window: LightWindow | null;
  /** What holds the room around the day; `sittings` counts those of the day itself. */
  taken: Stretch[];
  sittings: number;
  /** Nothing may start before this instant. */
  notBefore: Temporal.Instant;
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
      Temporal.PlainDate.compare(one.effectiveFrom, date) <= 0 &&
      (one.effectiveUntil === null || Temporal.PlainDate.compare(date, one.effectiveUntil) <= 0),
  );
  return inForce.reduce<Rhythm | null>(
    (latest, one) =>
      latest && Temporal.PlainDate.compare(latest.effectiveFrom, one.effectiveFrom) >= 0 ? latest : one,
    null,
  );
}

/** Every start of the day's rhythm for a sitting of so many plates, each open or closed with its reason. */
export function slotsOfDay(rhythm: Rhythm, plates: number, day: DayFacts): Slot[] {
  const { sitting, room } = lengthOf(rhythm, plates);
  return rhythm.starts.map((minute) =>
    slotAt(day, minute, sitting, room, day.sittings >= rhythm.mostSittings),
  );
}

function slotAt(day: DayFacts, minute: number, sitting: number, room: number, full: boolean): Slot {
  const { zone } = day.room;
  const wallStart = day.date.toPlainDateTime().add({ minutes: minute });
  const start = wallToInstant(zone, wallStart);
  if (!start.ok) {
    const wallEnd = wallStart.add({ minutes: sitting });
    return {
      wallStart,
      wallEnd,
      startsAt: null,
      endsAt: null,
      busyUntil: null,
      holdStill: null,
      closed: 'clock gap',
    };
  }
  const startsAt = start.instant;
  const endsAt = startsAt.add({ minutes: sitting });
  const busyUntil = startsAt.add({ minutes: room });
  return {
    wallStart,
    wallEnd: instantToWall(zone, endsAt),
    startsAt,
    endsAt,
    busyUntil,
    holdStill: holdStillDuring(day, startsAt, endsAt),
    closed: whyClosed(day, { from: startsAt, until: busyUntil }, endsAt, full),
  };
}

function holdStillDuring(day: DayFacts, start: Temporal.Instant, end: Temporal.Instant): HoldStill | null {
  if (!day.window) return null;
  const altitudes = altitudesDuring(day.room, day.window, { start, end });
  const clear = exposureRange(day.room, altitudes, 'clear');
  const dull = exposureRange(day.room, altitudes, 'dull');
  return clear && dull && { clear, dull };
}

function whyClosed(day: DayFacts, room: Stretch, end: Temporal.Instant, full: boolean): ClosedReason | null {
  if (room.from.epochMilliseconds < day.notBefore.epochMilliseconds) return 'too soon';
  const light = slotLight(
    day.room,
    day.room,
    day.window,
    { start: room.from, end },
    day.room.exposureCapSeconds,
  );
  if (!light.ok) return light.reason;
  if (day.taken.some((one) => overlap(one, room))) return 'room taken';
  return full ? 'day full' : null;
}

const overlap = (a: Stretch, b: Stretch) =>
  a.from.epochMilliseconds < b.until.epochMilliseconds &&
  b.from.epochMilliseconds < a.until.epochMilliseconds;
