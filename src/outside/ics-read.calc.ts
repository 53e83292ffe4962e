// Reads the entries of somebody else's calendar, without yet asking when they come again. Of each only what is needed to
// know when its owner is busy, and what they call it.
import ICAL from 'ical.js';
import { Temporal } from 'temporal-polyfill';
import { type When, whenOf, type ZoneBook, zoneBook } from './ics-times.calc.js';

/** How long something lasts: until a time, so many days and seconds, or, where nothing says so, neither. */
export type Lasting =
  | { until: When }
  | { days: number; seconds: number }
  | { days: 0; seconds: 0; unsaid: true };

export interface Entry {
  uid: string;
  title: string;
  /** Neither called off nor marked as free. */
  blocks: boolean;
  start: When;
  lasts: Lasting;
  rules: ICAL.Recur[];
  /** Further starts; a period lasts as it says. */
  also: { start: When; lasts: Lasting | null }[];
  /** Starts at which it does not take place. */
  not: When[];
  /** For an exception: the start that it stands for, and whether for all later ones too. */
  insteadOf: When | null;
  andAllLater: boolean;
}

export type Unreadable = 'not a calendar' | 'broken';
export type Read =
  | { ok: true; entries: Entry[]; calendars: ICAL.Component[]; book: ZoneBook }
  | { ok: false; reason: Unreadable };

/** @param studioZone where times without a zone, and days, are meant */
export function readCalendar(text: string, studioZone: string): Read {
  if (!/^﻿?\s*BEGIN:VCALENDAR/i.test(text)) return { ok: false, reason: 'not a calendar' };
  try {
    const parsed = ICAL.parse(text.replace(/^﻿?\s*/, '')) as unknown[];
    const all = (Array.isArray(parsed[0]) ? parsed : [parsed]) as ConstructorParameters<
      typeof ICAL.Component
    >[0][];
    const calendars = all.map((one) => new ICAL.Component(one));
    const book = zoneBook(calendars, studioZone);
    const events = calendars.flatMap((one) => one.getAllSubcomponents('vevent'));
    const entries = events.flatMap((event) => entryOf(event, book) ?? []);
    return { ok: true, entries, calendars, book };
  } catch {
    return { ok: false, reason: 'broken' }; // ical.js throws whatever it stumbles over
  }
}

function entryOf(event: ICAL.Component, book: ZoneBook): Entry | null {
  const [start] = timesOf(event, 'dtstart', book);
  if (!start) return null; // RFC 5545, 3.6.1: without METHOD there is always one
  const [insteadOf] = timesOf(event, 'recurrence-id', book);
  return {
    uid: textOf(event, 'uid'),
    title: textOf(event, 'summary').replace(/\s+/g, ' ').trim().slice(0, LONGEST_TITLE),
    blocks: upper(event, 'status') !== 'CANCELLED' && upper(event, 'transp') !== 'TRANSPARENT',
    start,
    lasts: lastingOf(event, start, book),
    rules: event.getAllProperties('rrule').map((one) => one.getFirstValue() as ICAL.Recur),
    also: furtherStarts(event, book),
    not: timesOf(event, 'exdate', book),
    insteadOf: insteadOf ?? null,
    andAllLater: event.getFirstProperty('recurrence-id')?.getFirstParameter('range') === 'THISANDFUTURE',
  };
}

/** Enough to know it again by. */
const LONGEST_TITLE = 80;
const DAY_SECONDS = 86_400;

const textOf = (event: ICAL.Component, name: string) => String(event.getFirstPropertyValue(name) ?? '');
const upper = (event: ICAL.Component, name: string) => textOf(event, name).toUpperCase();

function timesOf(event: ICAL.Component, name: string, book: ZoneBook): When[] {
  return event
    .getAllProperties(name)
    .flatMap((property) =>
      property
        .getValues()
        .flatMap((value: unknown) => (value instanceof ICAL.Time ? [whenOf(property, value, book)] : [])),
    );
}

function lastingOf(event: ICAL.Component, start: When, book: ZoneBook): Lasting {
  const [until] = timesOf(event, 'dtend', book);
  if (until) return { until };
  const duration = event.getFirstPropertyValue('duration');
  if (duration instanceof ICAL.Duration) return nominal(duration);
  // a date without an end is that day, a time without one takes no time (RFC 5545, 3.6.1)
  return start.isDate ? { days: 1, seconds: 0 } : { days: 0, seconds: 0, unsaid: true };
}

/** Days are counted on the wall, what is below them on the clock (RFC 5545, 3.3.6). */
function nominal({ weeks, days, hours, minutes, seconds, isNegative }: ICAL.Duration): Lasting {
  if (isNegative) return { days: 0, seconds: 0, unsaid: true };
  return { days: weeks * 7 + days, seconds: hours * 3600 + minutes * 60 + seconds };
}

function furtherStarts(event: ICAL.Component, book: ZoneBook): Entry['also'] {
  return event.getAllProperties('rdate').flatMap((property) =>
    property.getValues().flatMap((value: unknown) => {
      if (value instanceof ICAL.Time) return [{ start: whenOf(property, value, book), lasts: null }];
      if (!(value instanceof ICAL.Period)) return [];
      const { start, end, duration } = value as {
        start: ICAL.Time;
        end?: ICAL.Time;
        duration?: ICAL.Duration;
      };
      const lasts = end ? { until: whenOf(property, end, book) } : duration ? nominal(duration) : null;
      return [{ start: whenOf(property, start, book), lasts }];
    }),
  );
}

/** Whole days from one date to another, at least one. */
export function wholeDays(from: Temporal.PlainDateTime, until: Temporal.PlainDateTime): number {
  return Math.max(
    1,
    Math.round(from.until(until, { largestUnit: 'days' }).total({ unit: 'days', relativeTo: from })),
  );
}

/** Days of something that lasts from a date on. */
export function daysOfDate(start: When, lasts: Lasting): number {
  if ('until' in lasts) return wholeDays(start.wall, lasts.until.wall);
  return Math.max(1, lasts.days + Math.floor(lasts.seconds / DAY_SECONDS));
}

/** What we keep of a calendar: its zones and, of each entry, when it is and what it is called. People, places and words are left out. */
export function withoutTheRest(calendars: ICAL.Component[]): string {
  const kept = new ICAL.Component('vcalendar');
  kept.addPropertyWithValue('version', '2.0');
  kept.addPropertyWithValue('prodid', '-//Plateday//kept copy//EN');
  for (const calendar of calendars)
    for (const part of [
      ...calendar.getAllSubcomponents('vtimezone'),
      ...calendar.getAllSubcomponents('vevent').map(bareEvent),
    ])
      kept.addSubcomponent(part);
  return kept.toString();
}

const KEPT = [
  'uid',
  'dtstart',
  'dtend',
  'duration',
  'rrule',
  'rdate',
  'exdate',
  'recurrence-id',
  'status',
  'transp',
  'summary',
];

function bareEvent(event: ICAL.Component): ICAL.Component {
  const bare = new ICAL.Component('vevent');
  for (const name of KEPT) for (const property of event.getAllProperties(name)) bare.addProperty(property);
  return bare;
}
