// Which places of a day are open: rhythm x light x people x room. Computed afresh each time, never stored.
// Pure: the day's light, what holds the room and the present instant are arguments.
import { Temporal } from 'temporal-polyfill';
import {
  type Range,
  type SlotLight,
  type StudioLight,
  slotLight,
  WEATHER_FACTORS,
} from '../daylight/exposure.calc.js';
import type { Place } from '../daylight/sun.calc.js';
import type { LightWindow } from '../daylight/window.calc.js';
import { instantToWall, wallToInstant } from '../lib/zoned-time.js';
import type { Elsewhere } from '../outside/blocking.calc.js';
import type { Kind, Rhythm } from './rules.schemas.js';

type NoLight = Extract<SlotLight, { ok: false }>['reason'];

/** Why a start of the rhythm is not an open place. A clock gap: that wall time is missing, or there twice. */
export type ClosedReason =
  | 'clock gap'
  | 'too soon'
  | 'owner away'
  | 'other days'
  | 'break'
  | NoLight
  | 'room closed'
  | 'room taken'
  | 'day full'
  | 'no more plates'
  | 'year full';

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
  /** Null where the light does not suffice to say, or another reason came first. */
  holdStill: HoldStill | null;
  /** Null for an open place. */
  closed: ClosedReason | null;
  /** An open place that the public does not see yet. */
  heldBack?: true;
}

/** From inclusive, until exclusive, in milliseconds since the epoch; by a closure, or by people. */
export interface Busy {
  closure?: boolean;
  from: number;
  until: number;
}

/** What a studio's light depends on; a Studio has these fields and more. */
export interface RoomLight extends Place, StudioLight {
  exposureCapSeconds: number;
}

/** What is asked for: how many plates and people, and of which kind. */
export interface Wanted {
  plates: number;
  sitters: number;
  kind: Kind | null;
}

export interface DayFacts {
  date: Temporal.PlainDate;
  room: RoomLight;
  window: LightWindow | null;
  /** What holds the room around the day; `sittings` and `plates` count those of the day itself. */
  taken: Busy[];
  sittings: number;
  plates: number;
  /** Sittings of the wanted kind in the day's calendar year. */
  ofKind: number;
  owner: boolean;
  /** When the owner is elsewhere around the day. */
  elsewhere: Elsewhere[];
  helper: boolean;
  today: Temporal.PlainDate;
  /** Nothing may start before this instant. */
  notBefore: Temporal.Instant;
}

/** Whether visitors see a place as open: it is, and nobody holds it back for a re-sit or a late guest. */
export const openToPublic = (slot: Slot): boolean => slot.closed === null && slot.heldBack !== true;

/** Minutes of a sitting (a plate and a person at least), and of the room with change-over. */
export function lengthOf(rhythm: Rhythm, wanted: Wanted): { sitting: number; room: number } {
  const sitting =
    (wanted.kind?.firstPlateMinutes ?? rhythm.firstPlateMinutes) +
    rhythm.furtherPlateMinutes * (Math.max(1, wanted.plates) - 1) +
    rhythm.furtherSitterMinutes * (Math.max(1, wanted.sitters) - 1);
  return { sitting, room: sitting + rhythm.changeoverMinutes };
}

/** The rhythm in force on a date: of those for its weekday the latest begun, of such the one of one day; or null. */
export function rhythmOn(rhythms: Rhythm[], date: Temporal.PlainDate): Rhythm | null {
  const { compare } = Temporal.PlainDate;
  const weekday = date.dayOfWeek;
  let found: Rhythm | null = null;
  for (const one of rhythms) {
    if (one.weekday !== weekday || compare(one.effectiveFrom, date) > 0) continue;
    if (one.effectiveUntil !== null && compare(date, one.effectiveUntil) > 0) continue;
    const later = found === null ? 1 : compare(one.effectiveFrom, found.effectiveFrom);
    if (later > 0 || (later === 0 && isExtraDay(one))) found = one;
  }
  return found;
}

/** A rhythm of one date is an extra day, or a day with starts of its own. */
export function isExtraDay({ effectiveFrom, effectiveUntil }: Rhythm): boolean {
  return effectiveUntil?.equals(effectiveFrom) === true;
}

/** So many sittings may be on a day, which is more when a helper is there. */
export const mostSittings = (rhythm: Rhythm, helper: boolean): number =>
  helper ? Math.max(rhythm.mostSittings, rhythm.mostSittingsWithHelper) : rhythm.mostSittings;

/** Every start of the day's rhythm for what is wanted, each open or closed with its first reason. */
export function slotsOfDay(rhythm: Rhythm, wanted: Wanted, day: DayFacts): Slot[] {
  const length = lengthOf(rhythm, wanted);
  const limits = limitReached(rhythm, wanted, day);
  const slots = rhythm.starts.map((minute) => slotAt(rhythm, wanted, day, { minute, ...length, limits }));
  return holdBack(slots, rhythm, day);
}

/** The limits of day and year, which close whatever is free. */
function limitReached(rhythm: Rhythm, wanted: Wanted, day: DayFacts): ClosedReason | null {
  if (day.sittings >= mostSittings(rhythm, day.helper)) return 'day full';
  if (day.plates + wanted.plates > rhythm.mostPlates) return 'no more plates';
  const quota = wanted.kind?.yearlyQuota ?? null;
  return quota !== null && day.ofKind >= quota ? 'year full' : null;
}

/**
 * Keeps the day's last places from the public until their time has come: the last starts with good light,
 * taken or not, so that giving one of them does not hold back the next; and, where the day takes fewer
 * sittings than it has starts, all that is left when only the held-back ones are. A short winter day's only
 * place is never held back.
 */
function holdBack(slots: Slot[], rhythm: Rhythm, day: DayFacts): Slot[] {
  if (rhythm.heldBack === 0 || day.today.until(day.date).days <= rhythm.heldBackDays) return slots;
  const lit = slots.filter((slot) => slot.holdStill !== null);
  const held = lit.slice(Math.max(1, lit.length - rhythm.heldBack));
  const stillOpen = held.filter((slot) => slot.closed === null).length;
  const left = mostSittings(rhythm, day.helper) - day.sittings;
  return slots.map((slot) =>
    slot.closed === null && (held.includes(slot) || left <= stillOpen) ? { ...slot, heldBack: true } : slot,
  );
}

interface Start {
  minute: number;
  sitting: number;
  room: number;
  limits: ClosedReason | null;
}

function slotAt(rhythm: Rhythm, wanted: Wanted, day: DayFacts, start: Start): Slot {
  const { zone } = day.room;
  const { year, month, day: dayOfMonth } = day.date;
  const [hour, minute] = [Math.floor(start.minute / 60), start.minute % 60];
  const wallStart = new Temporal.PlainDateTime(year, month, dayOfMonth, hour, minute);
  const shut = { holdStill: null };
  const found = wallToInstant(zone, wallStart);
  if (!found.ok) {
    const wallEnd = wallStart.add({ minutes: start.sitting });
    return {
      wallStart,
      wallEnd,
      startsAt: null,
      endsAt: null,
      busyUntil: null,
      ...shut,
      closed: 'clock gap',
    };
  }
  const at = found.instant.epochMilliseconds;
  const startsAt = found.instant;
  const endsAt = Temporal.Instant.fromEpochMilliseconds(at + start.sitting * MINUTE);
  const busyUntil = Temporal.Instant.fromEpochMilliseconds(at + start.room * MINUTE);
  const slot = { wallStart, wallEnd: instantToWall(zone, endsAt), startsAt, endsAt, busyUntil, ...shut };
  const rule = closedByRule(rhythm, wanted, day, slot);
  if (rule) return { ...slot, closed: rule };
  const light = lightOf(day.room, day.window, slot);
  if (!light.ok) return { ...slot, closed: light.reason };
  const busy = { from: at, until: busyUntil.epochMilliseconds };
  const taken = takenBy(day.taken, busy);
  return { ...slot, holdStill: holdStillUnder(light), closed: taken ?? start.limits };
}

interface Hours {
  startsAt: Temporal.Instant;
  endsAt: Temporal.Instant;
}

/** How long one holds still between two instants of a day; null where the light does not suffice to say. */
export function holdStillIn(room: RoomLight, window: LightWindow | null, hours: Hours): HoldStill | null {
  const light = lightOf(room, window, hours);
  return light.ok ? holdStillUnder(light) : null;
}

const lightOf = (room: RoomLight, window: LightWindow | null, { startsAt, endsAt }: Hours) =>
  slotLight(room, room, window, { start: startsAt, end: endsAt }, room.exposureCapSeconds);

const holdStillUnder = ({ clear }: { clear: Range }): HoldStill => ({
  clear,
  dull: times(clear, WEATHER_FACTORS.dull),
});

function takenBy(all: Busy[], wanted: Busy): 'room taken' | 'room closed' | null {
  const others = all.filter((one) => one.from < wanted.until && wanted.from < one.until);
  if (others.some((one) => one.closure !== true)) return 'room taken';
  return others.length > 0 ? 'room closed' : null;
}

function closedByRule(
  rhythm: Rhythm,
  { kind }: Wanted,
  day: DayFacts,
  slot: Pick<Slot, 'wallStart' | 'wallEnd'> & Hours,
): ClosedReason | null {
  if (slot.startsAt.epochMilliseconds < day.notBefore.epochMilliseconds) return 'too soon';
  if (!day.owner || isElsewhere(day.elsewhere, slot)) return 'owner away';
  if (kind && kind.weekdays.length > 0 && !kind.weekdays.includes(day.date.dayOfWeek)) return 'other days';
  return inBreak(rhythm.breaks, slot) ? 'break' : null;
}

/** Whether the owner is elsewhere while people sit; what of the change-over falls into it does no harm. */
export function isElsewhere(all: readonly Elsewhere[], { startsAt, endsAt }: Hours): boolean {
  return all.some(({ from, until }) => from < endsAt.epochMilliseconds && startsAt.epochMilliseconds < until);
}

/** Whether people would sit in a break; what of the change-over falls into it does no harm. */
export function inBreak(
  breaks: number[],
  { wallStart, wallEnd }: Pick<Slot, 'wallStart' | 'wallEnd'>,
): boolean {
  if (breaks.length === 0) return false;
  const from = minuteOf(wallStart);
  const until = minuteOf(wallEnd) + (wallEnd.day === wallStart.day ? 0 : DAY_MINUTES);
  return breaks.some((at, position) => {
    const end = breaks[position + 1] ?? at;
    return position % 2 === 0 && from < end && at < until;
  });
}

const MINUTE = 60_000;
const DAY_MINUTES = 1440;
const minuteOf = ({ hour, minute }: { hour: number; minute: number }) => hour * 60 + minute;
const times = (a: Range, b: Range): Range => ({ from: a.from * b.from, to: a.to * b.to });
