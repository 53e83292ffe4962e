// Times of somebody else's calendar: a date, or wall time with a zone. Zones that the IANA data know by name go by our own
// data, others by the VTIMEZONE of the file, and what has neither (a floating time) by the studio's clock.
import ICAL from 'ical.js';
import { Temporal } from 'temporal-polyfill';
import { instantToWall, isZone, wallToInstant } from '../lib/zoned-time.js';

/** A zone by its IANA name, or one that only the file knows. */
export type Zone = string | ICAL.Timezone;

export interface When {
  /** A date without a time: `wall` is its midnight. */
  isDate: boolean;
  wall: Temporal.PlainDateTime;
  zone: Zone;
}

/** What times are read against: the zones that come with the file, and the studio's own. */
export interface ZoneBook {
  studio: string;
  ofFile: Map<string, ICAL.Timezone>;
}

export function zoneBook(calendars: ICAL.Component[], studio: string): ZoneBook {
  const ofFile = new Map<string, ICAL.Timezone>();
  for (const calendar of calendars)
    for (const part of calendar.getAllSubcomponents('vtimezone')) {
      const zone = new ICAL.Timezone({ component: part, tzid: String(part.getFirstPropertyValue('tzid')) });
      ofFile.set(zone.tzid, zone);
    }
  return { studio, ofFile };
}

/** A time of a property, whose TZID says where it is meant. */
export function whenOf(property: ICAL.Property, time: ICAL.Time, book: ZoneBook): When {
  const wall = toWall(time);
  if (time.isDate) return { isDate: true, wall: wall.with(MIDNIGHT), zone: book.studio };
  if (time.zone === ICAL.Timezone.utcTimezone) return { isDate: false, wall, zone: 'UTC' };
  const tzid = property.getFirstParameter('tzid');
  return { isDate: false, wall, zone: tzid ? zoneNamed(tzid, book) : book.studio };
}

/** Some write a path before the name: "/example.org/Europe/London". A name that nothing knows is the studio's zone. */
function zoneNamed(tzid: string, { studio, ofFile }: ZoneBook): Zone {
  const parts = tzid.split('/').filter(Boolean);
  for (let from = 0; from < parts.length; from++) {
    const name = parts.slice(from).join('/');
    if (isZone(name)) return name;
  }
  return ofFile.get(tzid) ?? studio;
}

/**
 * Milliseconds since the epoch. A wall time that clocks skip goes by the offset before, one that they show twice is
 * the first (RFC 5545, 3.3.5).
 */
export function instantOf(zone: Zone, wall: Temporal.PlainDateTime): number {
  if (typeof zone !== 'string')
    return utcMilliseconds(wall) - ICAL.Timezone.prototype.utcOffset.call(zone, toTime(wall)) * 1000;
  for (let hours = 0; hours <= LONGEST_GAP_HOURS; hours++) {
    const found = wallToInstant(zone, wall.subtract({ hours }), 'earlier');
    if (found.ok) return utcMilliseconds(wall) - Math.round(found.offset * 60_000);
  }
  throw new RangeError(`no such wall time in ${zone}: ${wall}`);
}

/** What clocks of the zone show, in whole seconds. */
export function wallAt(zone: Zone, milliseconds: number): Temporal.PlainDateTime {
  if (typeof zone === 'string')
    return instantToWall(zone, Temporal.Instant.fromEpochMilliseconds(milliseconds));
  const utc = ICAL.Time.fromJSDate(new Date(milliseconds), true);
  return toWall(utc.convertToZone(zone));
}

/** The same moment on the clock of another zone; a date stays the date that it is. */
export function wallIn(zone: Zone, { isDate, wall, zone: own }: When): Temporal.PlainDateTime {
  return isDate || own === zone ? wall : wallAt(zone, instantOf(own, wall));
}

/** Wall time for ical.js, without a zone: it counts on the wall, we know where the wall is. */
export function toTime(wall: Temporal.PlainDateTime): ICAL.Time {
  const { year, month, day, hour, minute, second } = wall;
  return new ICAL.Time(
    { year, month, day, hour, minute, second, isDate: false },
    ICAL.Timezone.localTimezone,
  );
}

export function toWall(time: ICAL.Time): Temporal.PlainDateTime {
  const { year, month, day, hour, minute, second } = time;
  // a leap second is the one before it
  return new Temporal.PlainDateTime(year, month, day, hour, minute, Math.min(second, 59));
}

const MIDNIGHT = { hour: 0, minute: 0, second: 0 };
/** The longest that clocks ever skipped, a day at the date line, and an hour. */
const LONGEST_GAP_HOURS = 25;

const utcMilliseconds = ({ year, month, day, hour, minute, second }: Temporal.PlainDateTime) =>
  Date.UTC(year, month - 1, day, hour, minute, second);
