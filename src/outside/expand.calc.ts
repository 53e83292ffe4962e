// When somebody is busy by their calendar: every entry as often as it comes within a stretch of time, exceptions in their
// place (RFC 5545, 3.8.5). Bounded, since a rule of one line can mean any number of entries.
import type ICAL from 'ical.js';
import { Temporal } from 'temporal-polyfill';
import { dayBounds } from '../lib/zoned-time.js';
import {
  daysOfDate,
  type Entry,
  type Lasting,
  readCalendar,
  type Unreadable,
  withoutTheRest,
} from './ics-read.calc.js';
import { instantOf, toTime, toWall, wallIn, type When, type Zone } from './ics-times.calc.js';

/** From inclusive, until exclusive, in milliseconds since the epoch. */
export interface BusyTime {
  title: string;
  from: number;
  until: number;
  /** Days without hours. */
  wholeDays: boolean;
}

/** What is kept and known of a calendar; `free` entries are marked as free or called off, and block nothing. */
export type Reading =
  | { ok: true; copy: string; busy: BusyTime[]; entries: number; free: number }
  | { ok: false; reason: Unreadable | 'too often' | 'too many' | 'too long' };

export interface Asked {
  text: string;
  studioZone: string;
  /** Milliseconds since the epoch. */
  from: number;
  until: number;
}

/** Busy times within the stretch, and steps of all rules together from their beginning on, of which 30 years of a daily one have 11,000. */
const MOST = { times: 3_000, steps: 100_000 };
const DAY = 86_400_000;
/** What came longer ago is over, and was not moved to now with all later ones either: an assumption. */
const LONGEST = 400 * DAY;

class TooMuch extends Error {
  constructor(readonly reason: 'too often' | 'too many') {
    super(reason);
  }
}

/** Busy times that touch the stretch, in order of time. */
export function readBusyTimes({ text, studioZone, from, until }: Asked, most = MOST): Reading {
  const read = readCalendar(text, studioZone);
  if (!read.ok) return read;
  const stretch = { from, until, studioZone, steps: 0, found: 0, most };
  try {
    const busy = occurrences(read.entries, stretch)
      .filter((one) => one.from < until && from < one.until && one.from < one.until)
      .sort((a, b) => a.from - b.from || a.until - b.until);
    if (busy.length > most.times) throw new TooMuch('too many');
    const free = read.entries.filter((one) => !one.blocks).length;
    return { ok: true, copy: withoutTheRest(read.calendars), busy, entries: read.entries.length, free };
  } catch (error) {
    return { ok: false, reason: error instanceof TooMuch ? error.reason : 'broken' };
  }
}

interface Stretch {
  from: number;
  until: number;
  studioZone: string;
  /** Steps taken so far, and how many of them may matter. */
  steps: number;
  found: number;
  most: typeof MOST;
}

function occurrences(entries: Entry[], stretch: Stretch): BusyTime[] {
  const exceptions = new Map<string, Entry[]>();
  for (const one of entries)
    if (one.insteadOf) exceptions.set(one.uid, [...(exceptions.get(one.uid) ?? []), one]);
  return entries.flatMap((entry) => {
    // an exception takes place by itself, whether or not what it stands for is in the file
    if (entry.insteadOf) return entry.blocks ? [at(entry, entry.start.wall, stretch)] : [];
    return series(entry, exceptions.get(entry.uid) ?? [], stretch);
  });
}

/** One entry as often as it comes, without those that exceptions stand for. */
function series(entry: Entry, exceptions: Entry[], stretch: Stretch): BusyTime[] {
  const { zone } = entry.start;
  const key = (when: When) => wallIn(zone, when).toString();
  const replaced = new Set(exceptions.map((one) => (one.insteadOf ? key(one.insteadOf) : '')));
  const later = exceptions.filter((one) => one.andAllLater).map((one) => shiftOf(one, zone));
  const notAt = new Set(entry.not.filter((one) => !one.isDate || entry.start.isDate).map(key));
  const notOn = new Set(
    entry.not.filter((one) => one.isDate).map((one) => one.wall.toPlainDate().toString()),
  );
  const found: BusyTime[] = [];
  for (const [start, lasts] of startsOf(entry, stretch)) {
    const wall = Temporal.PlainDateTime.from(start);
    if (replaced.has(start) || notAt.has(start) || notOn.has(wall.toPlainDate().toString())) continue;
    const change = latestBefore(later, wall);
    const shown = change ? change.entry : lasts ? { ...entry, lasts } : entry;
    if (shown.blocks) found.push(at(shown, change ? wall.add(change.by) : wall, stretch));
  }
  return found;
}

/** Starts on the wall of the entry's zone, each with how long it lasts where that is its own. */
function startsOf(entry: Entry, stretch: Stretch): Map<string, Lasting | null> {
  const { zone } = entry.start;
  const starts = new Map<string, Lasting | null>([[entry.start.wall.toString(), null]]);
  for (const rule of entry.rules)
    for (const wall of stepsOf(entry, rule, stretch)) starts.set(wall.toString(), null);
  for (const { start, lasts } of entry.also) starts.set(wallIn(zone, start).toString(), lasts);
  return starts;
}

function* stepsOf(entry: Entry, rule: ICAL.Recur, stretch: Stretch): Generator<Temporal.PlainDateTime> {
  if (rule.freq === 'SECONDLY' || rule.freq === 'MINUTELY') throw new TooMuch('too often');
  const { start } = entry;
  if (rule.until) rule.until = toTime(lastStart(rule.until, start));
  const steps = rule.iterator(toTime(start.wall));
  const take = () => steps.next() as ICAL.Time | null; // ical.js types its end away
  for (let next = take(); next; next = take()) {
    stretch.steps += 1;
    if (stretch.steps > stretch.most.steps) throw new TooMuch('too often');
    // counted as if the wall were in UTC, which is a day off at most
    const about = Date.UTC(next.year, next.month - 1, next.day, next.hour);
    if (about > stretch.until + DAY) return;
    if (about <= stretch.from - LONGEST) continue;
    stretch.found += 1;
    if (stretch.found > 3 * stretch.most.times) throw new TooMuch('too many'); // some are before, or left out
    yield toWall(next);
  }
}

/** UNTIL on the wall of the entry: a time in UTC, or a date, which then is in (RFC 5545, 3.3.10). */
function lastStart(until: ICAL.Time, { isDate, zone }: When): Temporal.PlainDateTime {
  const wall = toWall(until);
  if (until.isDate || isDate) return wall.with({ hour: 23, minute: 59, second: 59 });
  const inUtc = (until.zone as ICAL.Timezone | null)?.tzid === 'UTC';
  return inUtc ? wallIn(zone, { isDate: false, wall, zone: 'UTC' }) : wall;
}

interface Shift {
  from: Temporal.PlainDateTime;
  by: Temporal.Duration;
  entry: Entry;
}

/** An exception for one start and all later ones (RANGE=THISANDFUTURE) moves them by as much as itself. */
function shiftOf(exception: Entry, zone: Zone): Shift {
  const from = exception.insteadOf ? wallIn(zone, exception.insteadOf) : exception.start.wall;
  return {
    from,
    by: from.until(wallIn(zone, exception.start)),
    entry: { ...exception, start: { ...exception.start, zone } },
  };
}

function latestBefore(later: Shift[], wall: Temporal.PlainDateTime): Shift | null {
  const { compare } = Temporal.PlainDateTime;
  const before = later.filter(({ from }) => compare(from, wall) <= 0);
  return before.sort((a, b) => compare(b.from, a.from))[0] ?? null;
}

/** The time an entry takes when it starts at a wall time of its zone. */
function at(entry: Entry, wall: Temporal.PlainDateTime, { studioZone }: Stretch): BusyTime {
  const { title, lasts, start } = entry;
  if (start.isDate) {
    const first = wall.toPlainDate();
    const lastDay = first.add({ days: daysOfDate(start, lasts) - 1 });
    const from = dayBounds(studioZone, first).start.epochMilliseconds;
    return { title, from, until: dayBounds(studioZone, lastDay).end.epochMilliseconds, wholeDays: true };
  }
  const from = instantOf(start.zone, wall);
  return { title, from, until: from + lengthFrom(entry, wall, from), wholeDays: false };
}

/** An end gives each occurrence the same exact length, a duration the same days and hours (RFC 5545, 3.8.5.3). */
function lengthFrom({ start, lasts }: Entry, wall: Temporal.PlainDateTime, from: number): number {
  if ('until' in lasts)
    return instantOf(lasts.until.zone, lasts.until.wall) - instantOf(start.zone, start.wall);
  const days = lasts.days === 0 ? from : instantOf(start.zone, wall.add({ days: lasts.days }));
  return days + lasts.seconds * 1000 - from;
}
