// Writes the VTIMEZONE of a zone for a span of time (RFC 5545 3.6.5) from the same zone data that made our instants,
// so no second source of zone rules can disagree with them. It does not decide which zones a file needs.
// Where one yearly pair of rules holds for the years around the span, it is written as two RRULEs, as Outlook takes
// one STANDARD only, or refuses several (MS-OXCICAL 2.1.3.1.1.19.2). Else one observance per change, never RDATE.
import { Temporal } from 'temporal-polyfill';
import { abbreviation, offsetMinutes, transitions, type ZoneTransition } from '../lib/zoned-time.js';
import { basicDateTime } from './ics-text.calc.js';

/** The zone of files that would otherwise hold no component at all, which RFC 5545 3.4 forbids. */
export const UTC_VTIMEZONE = vtimezoneLines('UTC', [
  observance('STANDARD', '19700101T000000', 0, 0, 'UTC'),
]).join('\r\n');

const MARGIN = { hours: 24 };

/**
 * The VTIMEZONE component of `zone`, lines joined by CRLF, without a last one. It agrees with our zone data at every
 * instant from `from` to `to` (inclusive, and a day around them); outside it may not. It always has a STANDARD part,
 * also for a span inside summer time. An unknown zone is a RangeError.
 */
export function vtimezone(zone: string, from: Temporal.Instant, to: Temporal.Instant): string {
  return vtimezoneLines(zone, yearlyRules(zone, from, to) ?? singleChanges(zone, from, to)).join('\r\n');
}

function vtimezoneLines(zone: string, observances: string[][]): string[] {
  return ['BEGIN:VTIMEZONE', `TZID:${zone}`, ...observances.flat(), 'END:VTIMEZONE'];
}

/** One observance for the offset in force at the start, and one for each change of offset in the span. */
function singleChanges(zone: string, from: Temporal.Instant, to: Temporal.Instant): string[][] {
  const start = from.subtract(MARGIN);
  const changes = offsetChanges(zone, start, to.add(MARGIN));
  const atStart = offsetMinutes(zone, start);
  const first = changes[0];
  // Before a step back there was daylight time, before a step forward (or none) standard time.
  const kind = first !== undefined && first.after < first.before ? 'DAYLIGHT' : 'STANDARD';
  return [
    observance(kind, '19700101T000000', atStart, atStart, abbreviation(zone, start)),
    ...changes.map((change) => changeObservance(change)),
  ];
}

/**
 * Two observances with yearly rules, or null where the whole years around the span do not follow them. Dates that
 * are no fixed weekday of the month, such as the first Sunday after the 1st, are not expressed by a rule either:
 * MS-OXCICAL 2.1.3.1.1.19.2.2 reads only one numbered weekday.
 */
function yearlyRules(zone: string, from: Temporal.Instant, to: Temporal.Instant): string[][] | null {
  const firstYear = utcYear(from) - 1;
  const years = utcYear(to) + 2 - firstYear;
  const key = `${zone} ${firstYear} ${years}`;
  let rules = RULES.get(key);
  if (rules === undefined) {
    rules = rulesOf(zone, firstYear, years);
    if (RULES.size === RULES_KEPT) RULES.clear();
    RULES.set(key, rules);
  }
  return rules;
}

/** Each invitation asks again for the same few; the zone data of a process do not change. */
const RULES = new Map<string, string[][] | null>();
const RULES_KEPT = 200;

function rulesOf(zone: string, firstYear: number, years: number): string[][] | null {
  const changes = offsetChanges(zone, yearStart(firstYear), yearStart(firstYear + years));
  const forward = changes.filter((change) => change.after > change.before);
  const back = changes.filter((change) => change.after < change.before);
  const pair = [forward, back].map((side) => sideRule(side, years));
  return pair.every((side) => side !== null) ? pair : null;
}

/**
 * The rule of one side of the year, or null if its changes differ in anything. As many changes as years, all on the
 * same numbered weekday of the same month, are one in each year.
 */
function sideRule(changes: ZoneTransition[], years: number): string[] | null {
  const first = changes[0];
  if (first === undefined || changes.length !== years) return null;
  const onsets = changes.map(onsetWall);
  const sameChange = changes.every((c) => c.before === first.before && c.after === first.after);
  const month = sameValue(onsets.map((onset) => onset.month));
  const time = sameValue(onsets.map((onset) => onset.toPlainTime().toString()));
  const weekday = sameValue(onsets.map((onset) => onset.dayOfWeek));
  const last = onsets.every((onset) => onset.day > onset.daysInMonth - 7);
  const nth = last ? -1 : sameValue(onsets.map((onset) => Math.ceil(onset.day / 7)));
  if (!sameChange || month === null || time === null || weekday === null) return null;
  if (nth === null) return null;
  const byDay = `${nth}${['MO', 'TU', 'WE', 'TH', 'FR', 'SA', 'SU'][weekday - 1]}`;
  return changeObservance(first, `RRULE:FREQ=YEARLY;BYMONTH=${month};BYDAY=${byDay}`);
}

function changeObservance(change: ZoneTransition, rule?: string): string[] {
  const kind = change.after > change.before ? 'DAYLIGHT' : 'STANDARD';
  const onset = basicDateTime(onsetWall(change));
  return observance(kind, onset, change.before, change.after, change.abbreviation, rule);
}

function observance(
  kind: 'STANDARD' | 'DAYLIGHT',
  onset: string,
  before: number,
  after: number,
  name: string,
  rule?: string,
): string[] {
  return [
    `BEGIN:${kind}`,
    `DTSTART:${onset}`,
    ...(rule === undefined ? [] : [rule]),
    `TZOFFSETFROM:${utcOffset(before)}`,
    `TZOFFSETTO:${utcOffset(after)}`,
    `TZNAME:${name}`,
    `END:${kind}`,
  ];
}

/** Changes of abbreviation alone move no clock and are left out. */
function offsetChanges(zone: string, from: Temporal.Instant, to: Temporal.Instant): ZoneTransition[] {
  return transitions(zone, from, to).filter((change) => change.before !== change.after);
}

/** The moment of change on the clock that was right until then, as DTSTART of an observance is defined. */
function onsetWall(change: ZoneTransition): Temporal.PlainDateTime {
  const utc = Temporal.PlainDateTime.from(change.at.toString().replace('Z', ''));
  return utc.add({ seconds: Math.round(change.before * 60) });
}

/** `+0530`, or `-003630` for an offset with seconds. Minutes east of Greenwich. */
function utcOffset(minutes: number): string {
  const seconds = Math.round(Math.abs(minutes) * 60);
  const parts = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
  const shown = parts[2] === 0 ? parts.slice(0, 2) : parts;
  return (minutes < 0 ? '-' : '+') + shown.map((part) => String(part).padStart(2, '0')).join('');
}

function sameValue<T>(values: T[]): T | null {
  const first = values[0];
  return first !== undefined && values.every((value) => value === first) ? first : null;
}

function utcYear(instant: Temporal.Instant): number {
  return new Date(instant.epochMilliseconds).getUTCFullYear();
}

function yearStart(year: number): Temporal.Instant {
  return Temporal.Instant.from(`${String(year).padStart(4, '0')}-01-01T00:00:00Z`);
}
