// What a change of the settings would do: which places open and close, and which confirmed sittings it touches.
import type { Temporal } from 'temporal-polyfill';
import { slotLight } from '../daylight/exposure.calc.js';
import { lightWindow } from '../daylight/window.calc.js';
import { dayBounds, wallToInstant } from '../lib/zoned-time.js';
import { isThere } from './attendance.calc.js';
import type { Settings } from './changes.calc.js';
import { bookableFrom, daysOf, type KindYear, type RoomFacts } from './days.calc.js';
import type { Occupancy } from './occupancy.schemas.js';
import { inBreak, isElsewhere, mostSittings, rhythmOn } from './openings.calc.js';
import { overlap, type Stretch } from './pieces.calc.js';
import type { Closure } from './rules.schemas.js';

/** Why a confirmed sitting would not stand under some settings. */
export type TouchedReason =
  | 'closed'
  | 'owner away'
  | 'elsewhere'
  | 'no rhythm'
  | 'other start'
  | 'break'
  | 'light'
  | 'day full'
  | 'no more plates'
  | 'other days'
  | 'year full';

/** Starts as wall times, in order of time. */
export interface Diff {
  opens: Temporal.PlainDateTime[];
  closes: Temporal.PlainDateTime[];
  /** Open before and after, but taken from the public's sight or shown to it. */
  heldBack: Temporal.PlainDateTime[];
  shown: Temporal.PlainDateTime[];
}

export interface Touched {
  occupancy: Occupancy;
  reason: TouchedReason;
}

/** The room, its present included, in which a change is looked at. */
export interface Circumstances {
  /** What holds the room from today on. */
  holding: Occupancy[];
  kindYears: KindYear[];
  today: Temporal.PlainDate;
  now: Temporal.Instant;
}

/** The time that a closure takes. An end that clocks skip or repeat is taken so that the closure is the longer. */
export function stretchOf(zone: string, { wallFrom, wallUntil }: Closure): Stretch {
  const at = (wall: Temporal.PlainDateTime, which: 'earlier' | 'later') => {
    const date = wall.toPlainDate();
    const answer = wallToInstant(zone, wall, which);
    if (wall.hour === 0 && wall.minute === 0) return dayBounds(zone, date).start;
    return answer.ok ? answer.instant : dayBounds(zone, date)[which === 'earlier' ? 'start' : 'end'];
  };
  return { from: at(wallFrom, 'earlier'), until: at(wallUntil, 'later') };
}

/** Places that open and close for one sitter on one plate; of a kind, when `kindId` names one. */
export function diffOf(before: Settings, after: Settings, room: Circumstances, kindId: string | null): Diff {
  const was = openOf(before, room, before.rules.closures, kindId);
  const is = openOf(after, room, before.rules.closures, kindId);
  const only = (all: Open, test: (key: string, heldBack: boolean) => boolean) =>
    [...all].flatMap(([key, one]) => (test(key, one.heldBack) ? [one.wallStart] : []));
  return {
    opens: only(is, (key) => !was.has(key)),
    closes: only(was, (key) => !is.has(key)),
    heldBack: only(is, (key, held) => held && was.get(key)?.heldBack === false),
    shown: only(is, (key, held) => !held && was.get(key)?.heldBack === true),
  };
}

type Open = Map<string, { wallStart: Temporal.PlainDateTime; heldBack: boolean }>;

function openOf(settings: Settings, room: Circumstances, laid: Closure[], kindId: string | null): Open {
  const { rules, booking } = settings;
  const kind = kindId === null ? null : (rules.kinds.find((one) => one.id === kindId) ?? null);
  if (kindId !== null && (!kind || kind.offered === 'not any more')) return new Map();
  const holding = heldUnder(settings, room.holding, laid);
  const facts: RoomFacts = { rules, booking, holding, kindYears: room.kindYears, today: room.today };
  const wanted = { plates: kind?.plates ?? 1, sitters: 1, kind };
  const slots = daysOf(facts, bookableFrom(room.today, booking), wanted).flatMap((day) => day.openings);
  return new Map(
    slots.flatMap(({ closed, wallStart, heldBack }) =>
      closed === null ? [[wallStart.toString(), { wallStart, heldBack: heldBack === true }] as const] : [],
    ),
  );
}

/** What would hold the room: all that is no closure, and the closures of these settings as they would lie. */
function heldUnder({ rules, booking }: Settings, holding: Occupancy[], laid: Closure[]): Occupancy[] {
  const kept = holding.filter(
    (one) => one.kind !== 'closure' || rules.closures.some((closure) => closure.id === one.heldFor),
  );
  const added = rules.closures.filter((one) => !laid.some((other) => other.id === one.id));
  const removed = laid.filter((one) => !rules.closures.some((other) => other.id === one.id));
  // where a closure goes, another under it takes its place: both lie whole, since only their sum counts
  const whole = removed.length > 0 ? rules.closures : added;
  return [...kept, ...whole.map((closure) => asOccupancy(closure, booking.zone))];
}

/** What would hold the room if some gave their places back; closures take what lies under them. */
export function heldWithout(
  leaving: readonly string[],
  holding: Occupancy[],
  zone: string,
  closures: Closure[],
): Occupancy[] {
  const ids = new Set(leaving);
  const gone = holding.filter((one) => one.kind === 'sitting' && ids.has(one.heldFor));
  if (gone.length === 0) return holding;
  const under = closures.filter((closure) => {
    const whole = stretchOf(zone, closure);
    return gone.some((one) => overlap(whole, { from: one.startsAt, until: one.busyUntil }));
  });
  return [
    ...holding.filter((one) => !gone.includes(one)),
    ...under.map((closure) => asOccupancy(closure, zone)),
  ];
}

function asOccupancy(closure: Closure, zone: string): Occupancy {
  const { from, until } = stretchOf(zone, closure);
  return {
    id: closure.id,
    resource: 'room',
    kind: 'closure',
    heldFor: closure.id,
    holds: true,
    tentative: false,
    zone,
    wallStart: closure.wallFrom,
    wallEnd: closure.wallUntil,
    startsAt: from,
    endsAt: until,
    busyUntil: until,
    title: closure.title,
    plates: 0,
    kindId: null,
    uid: closure.id,
    sequence: 0,
    revisedAt: from,
    createdAt: from,
  };
}

/** Sittings, or teaching days, to come that would not stand after a change and stood before it, or for another reason. */
export function touchedBy(
  before: Settings,
  after: Settings,
  room: Circumstances,
  kind: 'sitting' | 'teaching' = 'sitting',
): Touched[] {
  return toCome(room, kind).flatMap((occupancy) => {
    const reason = whyNotStanding(after, occupancy, room);
    return reason !== null && reason !== whyNotStanding(before, occupancy, room)
      ? [{ occupancy, reason }]
      : [];
  });
}

/** Sittings, or teaching days, to come that lie under a closure, or where the owner is away or elsewhere: they want another day. */
export function toBeMoved(
  settings: Settings,
  room: Circumstances,
  kind: 'sitting' | 'teaching' = 'sitting',
): Touched[] {
  return toCome(room, kind).flatMap((occupancy) => {
    const reason = closedOrAway(settings, occupancy);
    return reason === null ? [] : [{ occupancy, reason }];
  });
}

const toCome = ({ holding, now }: Circumstances, kind: Occupancy['kind']) =>
  holding.filter((one) => one.kind === kind && one.endsAt.epochMilliseconds > now.epochMilliseconds);

function closedOrAway({ rules, booking }: Settings, place: Occupancy): TouchedReason | null {
  const time = { from: place.startsAt, until: place.endsAt };
  if (rules.closures.some((one) => overlap(stretchOf(booking.zone, one), time))) return 'closed';
  if (!isThere(rules.owner, place.wallStart.toPlainDate())) return 'owner away';
  return rules.elsewhere.some(({ times }) => isElsewhere(times, place)) ? 'elsewhere' : null;
}

/** The first reason why a place already given would not be given so under some settings; null when it would. */
function whyNotStanding(settings: Settings, place: Occupancy, room: Circumstances): TouchedReason | null {
  const { rules, booking } = settings;
  const shut = closedOrAway(settings, place);
  if (shut) return shut;
  const date = place.wallStart.toPlainDate();
  const rhythm = rhythmOn(rules.rhythms, date);
  if (!rhythm) return 'no rhythm';
  const minute = place.wallStart.hour * 60 + place.wallStart.minute;
  if (!rhythm.starts.includes(minute)) return 'other start';
  if (inBreak(rhythm.breaks, place)) return 'break';
  const window = lightWindow(booking, date, booking.lightFloorDegrees);
  const time = { start: place.startsAt, end: place.endsAt };
  if (!slotLight(booking, booking, window, time, booking.exposureCapSeconds).ok) return 'light';
  const sameDay = toCome(room, 'sitting').filter((one) => one.wallStart.toPlainDate().equals(date));
  if (sameDay.length > mostSittings(rhythm, isThere(rules.helper, date))) return 'day full';
  if (sameDay.reduce((sum, one) => sum + one.plates, 0) > rhythm.mostPlates) return 'no more plates';
  const kind = rules.kinds.find((one) => one.id === place.kindId);
  if (kind && kind.weekdays.length > 0 && !kind.weekdays.includes(date.dayOfWeek)) return 'other days';
  const inYear = room.kindYears.find((one) => one.kindId === kind?.id && one.year === date.year);
  return kind?.yearlyQuota != null && (inYear?.sittings ?? 0) > kind.yearlyQuota ? 'year full' : null;
}
