// What somebody with a place is reminded of, and when: from the studio's rules, the place, how they come and when they
// got the yes. Pure. Whether a reminder still holds when it is due is asked again then: see `stillDue`.
import { Temporal } from 'temporal-polyfill';
import { instantOf, instantToWall } from '../lib/zoned-time.js';
import {
  REMINDER_KINDS,
  type ReminderKind,
  type ReminderRule,
  type Tells,
} from './reminder-rules.schemas.js';

/** Nobody is written to from 21:00 to 08:00, on the clock of where they will be. Assumption. */
export const QUIET = { from: 21, until: 8 };
/** Two messages nearer to each other than so many hours are one. Assumption. */
export const MERGE_HOURS = 36;
/** So many at most before the day; what is sent in answer to something does not count. Assumption. */
export const MOST_BEFORE = 4;
/** A reminder that is so late is not sent any more. Assumption: the next one, or the day, is near by then. */
export const LATE_HOURS = 20;

/** How somebody comes; null where their home is not known. */
export interface Coming {
  zone: string;
  km: number;
  flies: boolean;
  abroad: boolean;
  staysANight: boolean;
  /** When they leave home at the latest; null where nobody knows. */
  leaveBy: Temporal.Instant | null;
}

export interface ReminderFacts {
  /** Of a sitting or of a day of teaching: which rules count. */
  forDay: ReminderRule['forDay'];
  place: { zone: string; wallStart: Temporal.PlainDateTime };
  /** When they got the yes for this place. */
  since: Temporal.Instant;
  coming: Coming | null;
}

/** Why a rule that is for them sends nothing. */
export type Skip = 'past already' | 'told with the yes' | 'with another' | 'four at most' | 'on their way';

/** Why a reminder was dropped: skipped when planned, or out of date when due. */
export type DropReason =
  | Skip
  | 'too late'
  | 'moved'
  | 'given up'
  | 'not by the rules now'
  | 'stopped by them';

export interface PlannedReminder {
  kind: ReminderKind;
  at: Temporal.Instant;
  /** Null for one that is sent. */
  skip: Skip | null;
}

/**
 * One reminder of a kind at most, the earliest first: of several rules for travel the earliest that is not past already.
 * @throws RangeError for a zone that is none
 */
export function planReminders(rules: readonly ReminderRule[], facts: ReminderFacts): PlannedReminder[] {
  const { place, since } = facts;
  const told = since.add({ hours: MERGE_HOURS });
  const start = instantOf(place.zone, place.wallStart);
  const planned = REMINDER_KINDS.flatMap((kind): PlannedReminder[] => {
    const all = rules
      .filter((one) => one.kind === kind && isForThem(one, facts))
      .map((one) => ({ kind, at: dueAt(one, facts), skip: null }))
      .sort((a, b) => Temporal.Instant.compare(a.at, b.at));
    const ahead = all.find((one) => isAfter(one.at, since)) ?? all.at(-1);
    if (!ahead) return [];
    if (!isAfter(ahead.at, since)) return [{ ...ahead, skip: 'past already' }];
    if (kind !== 'day' && !isAfter(ahead.at, told)) return [{ ...ahead, skip: 'told with the yes' }];
    if (!isAfter(start, ahead.at) || isOnTheWay(ahead.at, facts)) return [{ ...ahead, skip: 'on their way' }];
    return [ahead];
  }).sort((a, b) => Temporal.Instant.compare(a.at, b.at));
  return withinFour(merged(planned));
}

/** Of two before the day that are too near to each other, the one of the later kind goes and tells all. */
function merged(planned: PlannedReminder[]): PlannedReminder[] {
  const kept: PlannedReminder[] = [];
  for (const kind of [...REMINDER_KINDS].reverse()) {
    const one = planned.find((other) => other.kind === kind && other.skip === null);
    if (one && kind !== 'day' && kept.every((other) => areApart(one.at, other.at))) kept.push(one);
  }
  return planned.map((one) =>
    one.skip !== null || one.kind === 'day' || kept.includes(one) ? one : { ...one, skip: 'with another' },
  );
}

const areApart = (a: Temporal.Instant, b: Temporal.Instant): boolean =>
  Math.abs(a.since(b).total('hours')) >= MERGE_HOURS;

/** The nearest to the day stay. */
function withinFour(planned: PlannedReminder[]): PlannedReminder[] {
  const before = planned.filter((one) => one.skip === null && one.kind !== 'day');
  const tooMany = new Set(before.slice(0, Math.max(0, before.length - MOST_BEFORE)));
  return planned.map((one) => (tooMany.has(one) ? { ...one, skip: 'four at most' } : one));
}

/** What a reminder of a kind tells them besides, by the rules for them as they stand now; in no order. */
export function tellsOf(rules: readonly ReminderRule[], kind: ReminderKind, facts: ReminderFacts): Tells[] {
  return rules.filter((one) => one.kind === kind && isForThem(one, facts)).flatMap(({ tells }) => tells);
}

function isForThem(rule: ReminderRule, { forDay, place, since, coming }: ReminderFacts): boolean {
  if (rule.forDay !== forDay) return false;
  if (!rule.on || (coming?.km ?? 0) < rule.leastKm) return false;
  const asked = instantToWall(place.zone, since).toPlainDate();
  if (asked.until(place.wallStart.toPlainDate(), { largestUnit: 'days' }).days < rule.leastLeadDays)
    return false;
  if (rule.forWhom === 'everyone') return true;
  if (!coming) return false;
  if (rule.forWhom === 'stays a night') return coming.staysANight;
  return coming.flies && (rule.forWhom === 'flies' || coming.abroad);
}

/**
 * The rule's hour so many dates before the day, on the clock at home, or at the studio once they are on their way there.
 * What would come when they have left already, but is still for home, comes at that hour the day before they leave.
 */
function dueAt(rule: ReminderRule, { place, coming }: ReminderFacts): Temporal.Instant {
  const date = place.wallStart.toPlainDate().subtract({ days: rule.days });
  const hour = Math.min(Math.max(rule.hour, QUIET.until), QUIET.from - 1);
  const on = (zone: string, day: Temporal.PlainDate) => instantOf(zone, day.toPlainDateTime({ hour }));
  if (!coming) return on(place.zone, date);
  const atHome = on(coming.zone, date);
  if (!coming.leaveBy || isAfter(coming.leaveBy, atHome)) return atHome;
  const there = on(place.zone, date);
  if (rule.kind === 'day' && !isAfter(coming.leaveBy, there)) return there;
  const leaves = instantToWall(coming.zone, coming.leaveBy).toPlainDate();
  return on(coming.zone, leaves.subtract({ days: 1 }));
}

/** The message of the morning is of no use to whoever left home before it and is not there by the evening before. */
function isOnTheWay(at: Temporal.Instant, { coming }: ReminderFacts): boolean {
  return coming?.leaveBy != null && !coming.staysANight && isAfter(at, coming.leaveBy);
}

/** Where somebody is at an instant, as far as is known: at home until they leave, then on the studio's clock. */
export function zoneAt(
  at: Temporal.Instant,
  { place, coming }: Pick<ReminderFacts, 'place' | 'coming'>,
): string {
  if (!coming) return place.zone;
  return coming.leaveBy && !isAfter(coming.leaveBy, at) ? place.zone : coming.zone;
}

export const isQuiet = (at: Temporal.Instant, zone: string): boolean => {
  const { hour } = instantToWall(zone, at);
  return hour >= QUIET.from || hour < QUIET.until;
};

export type StillDue =
  | { send: true }
  /** The house was asleep until now, and it is night where they are. */
  | { send: false; waitUntil: Temporal.Instant }
  | { send: false; drop: 'too late' | 'on their way' };

/** Whether a reminder that was due at an instant is of use now. Never before it is due. */
export function stillDue(
  planned: Pick<PlannedReminder, 'kind' | 'at'>,
  facts: ReminderFacts,
  now: Temporal.Instant,
): StillDue {
  const start = instantOf(facts.place.zone, facts.place.wallStart);
  if (!isAfter(start, now) || isAfter(now, planned.at.add({ hours: LATE_HOURS })))
    return { send: false, drop: 'too late' };
  if (isOnTheWay(now, facts)) return { send: false, drop: 'on their way' };
  if (isAfter(planned.at, now)) return { send: false, waitUntil: planned.at };
  const zone = zoneAt(now, facts);
  if (!isQuiet(now, zone)) return { send: true };
  const wall = instantToWall(zone, now);
  const day = wall.hour < QUIET.until ? wall.toPlainDate() : wall.toPlainDate().add({ days: 1 });
  return { send: false, waitUntil: instantOf(zone, day.toPlainDateTime({ hour: QUIET.until })) };
}

const isAfter = (a: Temporal.Instant, b: Temporal.Instant): boolean => Temporal.Instant.compare(a, b) > 0;
