// Builds calendar files (RFC 5545): feeds to subscribe to and invitations to send by mail (RFC 5546). Pure text from
// entries; it reads no rows, sends nothing and knows no clock: equal entries give equal bytes.
// ical-generator writes the properties of an event. The file around them, the order that RFC 5545 3.6 asks for
// (properties before alarms, calendar properties before components) and folding are ours.
import {
  default as calendar,
  ICalAlarm,
  ICalAlarmType,
  ICalAttendeeStatus,
  ICalEvent,
  type ICalEventData,
  ICalEventStatus,
  ICalEventTransparency,
  type ICalLuxonDateTimeStub,
} from 'ical-generator';
import { Temporal } from 'temporal-polyfill';
import { wallToInstant } from '../lib/zoned-time.js';
import { LANGUAGE_OF_DESK, type Language } from '../words/languages.js';
import { wordsFor } from '../words/words-for.js';
import {
  basicDateTime,
  cleanLine,
  cleanName,
  cleanParagraphs,
  escapeText,
  foldLines,
  mailtoAddress,
  webAddress,
} from './ics-text.calc.js';
import { UTC_VTIMEZONE, vtimezone } from './vtimezone.calc.js';

/**
 * One event. `start` and `end` are wall times in `zone` and are what is written; `startInstant` and `endInstant` are
 * the same times, written instead where a wall time comes twice. An end not after the start is left out, as RFC 5545
 * 3.6.1 allows no such DTEND. `sequence` is 0 or more and grows, like `revisedAt`, with every visible change.
 * Alarms are whole minutes, 0 or more; others are left out, as are all of a cancelled entry. A `url` is written if it
 * is http or https, `geo` if it is on the globe.
 */
export interface CalendarEntry {
  uid: string;
  sequence: number;
  revisedAt: Temporal.Instant;
  createdAt?: Temporal.Instant;
  status: 'CONFIRMED' | 'TENTATIVE' | 'CANCELLED';
  zone: string;
  start: Temporal.PlainDateTime;
  end: Temporal.PlainDateTime;
  startInstant: Temporal.Instant;
  endInstant: Temporal.Instant;
  summary: string;
  description?: string;
  location?: string;
  geo?: { lat: number; lon: number };
  url?: string;
  alarmsMinutesBefore?: number[];
  transparent?: boolean;
  /** What its words are in; the desk's where nothing is said. */
  language?: Language;
}

interface Person {
  name: string;
  email: string;
}

/** Who invites whom; absent in feeds. */
interface Invitation {
  method: 'REQUEST' | 'CANCEL';
  organizer: Person;
  attendee: Person;
}

const HEAD = ['BEGIN:VCALENDAR', 'VERSION:2.0', 'PRODID:-//Plateday//Plateday//EN', 'CALSCALE:GREGORIAN'];

/**
 * A feed. It has no METHOD, so DTSTAMP means the last revision (RFC 5545 3.8.7.2), and no SOURCE, which would carry
 * the feed's secret address into every copy. Entries are sorted, so their order does not matter. `refreshHours` is
 * rounded to whole hours, at least one. Throws RangeError for an entry without UID.
 */
export function buildFeed(feed: {
  name: string;
  description?: string;
  entries: CalendarEntry[];
  refreshHours: number;
}): string {
  const name = escapeText(cleanLine(feed.name));
  const description = escapeText(cleanParagraphs(feed.description ?? ''));
  const refresh = `PT${Math.max(1, Math.round(feed.refreshHours))}H`;
  return calendarFile(
    [
      `NAME:${name}`,
      `X-WR-CALNAME:${name}`,
      ...(description === '' ? [] : [`DESCRIPTION:${description}`, `X-WR-CALDESC:${description}`]),
      `REFRESH-INTERVAL;VALUE=DURATION:${refresh}`,
      `X-PUBLISHED-TTL:${refresh}`,
    ],
    feed.entries,
  );
}

/**
 * The calendar part of an invitation or cancellation mail, for one attendee. A CANCEL always says CANCELLED, whatever
 * the entry's status; it needs the UID of the REQUEST and a higher SEQUENCE (RFC 5546 3.2.5), which the caller keeps.
 * Throws RangeError for a REQUEST of a cancelled entry (RFC 5546 3.2.2) and for an entry without UID, Error for an
 * empty address.
 */
export function buildInvitation(o: Invitation & { entry: CalendarEntry }): string {
  if (o.method === 'REQUEST' && o.entry.status === 'CANCELLED') {
    throw new RangeError('A cancelled entry cannot be requested');
  }
  const entry: CalendarEntry = o.method === 'CANCEL' ? { ...o.entry, status: 'CANCELLED' } : o.entry;
  return calendarFile([`METHOD:${o.method}`], [entry], o);
}

function calendarFile(properties: string[], entries: CalendarEntry[], invitation?: Invitation): string {
  const sorted = [...entries].sort(
    (a, b) => a.startInstant.epochMilliseconds - b.startInstant.epochMilliseconds || (a.uid < b.uid ? -1 : 1),
  );
  const local = new Set(sorted.filter(isWallTimeClear));
  const components = [
    ...timezones([...local]),
    ...sorted.map((entry) => event(entry, local.has(entry), invitation)),
  ];
  if (components.length === 0) components.push(UTC_VTIMEZONE);
  const lines = components.flatMap((component) => component.split('\r\n'));
  return foldLines([...HEAD, ...properties, ...lines, 'END:VCALENDAR']);
}

/**
 * Whether wall times with TZID can express the entry. One that starts or ends where a wall time comes twice is
 * written in UTC, in either pass: RFC 5545 3.3.5 can only mean the first, and ical.js 2.2.1 takes it for the second.
 */
function isWallTimeClear({ zone, start, end }: CalendarEntry): boolean {
  if (zone === 'UTC' || zone === 'Etc/UTC') return false;
  return [start, end].every((wall) => {
    const answer = wallToInstant(zone, wall);
    return answer.ok || answer.reason !== 'overlap';
  });
}

/** One VTIMEZONE for each zone, for the span of its entries. */
function timezones(entries: CalendarEntry[]): string[] {
  const zones = [...new Set(entries.map((entry) => entry.zone))].sort();
  return zones.map((zone) => {
    const times = entries
      .filter((entry) => entry.zone === zone)
      .flatMap((entry) => [entry.startInstant.epochMilliseconds, entry.endInstant.epochMilliseconds]);
    return vtimezone(
      zone,
      Temporal.Instant.fromEpochMilliseconds(times.reduce((a, b) => Math.min(a, b))),
      Temporal.Instant.fromEpochMilliseconds(times.reduce((a, b) => Math.max(a, b))),
    );
  });
}

/** The library asks an event's calendar for its zone only; ours has none, so its other times are written in UTC. */
const ZONELESS = calendar();
const END_OF_EVENT = 'END:VEVENT\r\n';

function event(entry: CalendarEntry, local: boolean, invitation?: Invitation): string {
  if (cleanLine(entry.uid) === '') throw new RangeError('A calendar entry needs a UID');
  const written = new ICalEvent(eventData(entry, local, invitation), ZONELESS);
  const wanted = entry.status === 'CANCELLED' ? [] : (entry.alarmsMinutesBefore ?? []);
  const alarms = [...new Set(wanted)].filter((minutes) => Number.isInteger(minutes) && minutes >= 0);
  return [
    written.toString().slice(0, -END_OF_EVENT.length),
    geoLine(entry.geo),
    ...alarms
      .sort((a, b) => b - a)
      .map((m) => new ICalAlarm({ type: ICalAlarmType.display, trigger: m * 60 }, written).toString()),
    END_OF_EVENT.trimEnd(),
  ].join('');
}

function eventData(entry: CalendarEntry, local: boolean, invitation?: Invitation): ICalEventData {
  const cancelled = entry.status === 'CANCELLED';
  const summary = cleanLine(entry.summary);
  const revised = writtenTime(entry.revisedAt, entry.revisedAt);
  const description = cleanParagraphs(entry.description ?? '');
  const location = cleanParagraphs(entry.location ?? '');
  const url = webAddress(entry.url ?? '');
  const ends = entry.endInstant.epochMilliseconds > entry.startInstant.epochMilliseconds;
  return {
    id: escapeText(cleanLine(entry.uid)),
    sequence: entry.sequence,
    stamp: revised,
    lastModified: revised,
    ...(entry.createdAt && { created: writtenTime(entry.createdAt, entry.createdAt) }),
    timezone: local ? entry.zone : null,
    start: writtenTime(local ? entry.start : entry.startInstant, entry.startInstant),
    ...(ends && { end: writtenTime(local ? entry.end : entry.endInstant, entry.endInstant) }),
    summary: cancelled ? wordsFor(entry.language ?? LANGUAGE_OF_DESK).calendar.cancelled(summary) : summary,
    ...(description !== '' && { description }),
    ...(location !== '' && { location }),
    ...(url !== null && { url }),
    status: ICalEventStatus[entry.status],
    transparency: ICalEventTransparency[cancelled || entry.transparent ? 'TRANSPARENT' : 'OPAQUE'],
    ...(invitation && {
      organizer: person(invitation.organizer),
      attendees: [{ ...person(invitation.attendee), status: ICalAttendeeStatus.ACCEPTED, rsvp: false }],
    }),
  };
}

function person({ name, email }: Person): Person {
  return { name: cleanName(name) || cleanName(email), email: mailtoAddress(email) };
}

/**
 * A time in the shape of a Luxon date, the one shape whose digits the library writes as they are. It would send a
 * Date through the server's zone, and a PlainDateTime through the zone data of Node, which may be older than ours.
 */
function writtenTime(
  time: Temporal.PlainDateTime | Temporal.Instant,
  instant: Temporal.Instant,
): ICalLuxonDateTimeStub {
  const basic = basicDateTime(time);
  const written: ICalLuxonDateTimeStub = {
    isValid: true,
    zone: { type: 'iana' },
    setZone: () => written,
    toFormat: (format) => (format === 'yyyyLLdd' ? basic.slice(0, 8) : basic.slice(9)),
    toJSDate: () => new Date(instant.epochMilliseconds),
    toJSON: () => basic,
  };
  return written;
}

/** Six decimals (RFC 5545 3.8.1.6). Ours, because the library leaves out a place on the equator or at Greenwich. */
function geoLine(geo: CalendarEntry['geo']): string {
  if (geo === undefined || !(Math.abs(geo.lat) <= 90) || !(Math.abs(geo.lon) <= 180)) return '';
  return `GEO:${geo.lat.toFixed(6)};${geo.lon.toFixed(6)}\r\n`;
}
