// The one place where wall time, zone and instant meet. It reads the offsets of the moment-timezone
// package, whose data the project updates like any dependency, and never that package's date objects:
// the zone data inside Node and PostgreSQL is of other versions and must not decide anything here.
// Offsets are minutes east of UTC. An unknown zone name is a RangeError: ask isZone first.
import moment from 'moment-timezone';
import { Temporal } from 'temporal-polyfill';

/** Version of the IANA data in use, for example "2026f". */
export const zoneDataVersion: string = moment.tz.dataVersion;

export type WallAnswer =
  | { ok: true; instant: Temporal.Instant; offset: number }
  /** Clocks jump over this wall time: it never happens. */
  | { ok: false; reason: 'gap' }
  /** Clocks are set back over this wall time: it happens twice, and the caller must choose. */
  | { ok: false; reason: 'overlap'; earlier: Temporal.Instant; later: Temporal.Instant };

export interface ZoneTransition {
  at: Temporal.Instant;
  /** Offsets on both sides; equal when only the abbreviation changes. */
  before: number;
  after: number;
  /** In force from `at` on. */
  abbreviation: string;
}

/** One zone: offsets[i] holds from untils[i - 1] (inclusive) to untils[i] (exclusive); the last for ever. */
interface ZoneTable {
  untils: readonly number[];
  offsets: readonly number[];
  abbreviations: readonly string[];
}

/** A law that data of this release and later knows and older data does not. */
export interface LawProbe {
  zone: string;
  at: Temporal.Instant;
  /** Minutes east of UTC that the law gives at that instant. */
  offset: number;
  /** First IANA release with the law (from the NEWS file of the tz database). */
  release: string;
}

export interface ZoneDataFreshness {
  version: string;
  /** Laws that the data gets wrong; empty when all is well. `found` is null for an unknown zone. */
  stale: (LawProbe & { found: number | null })[];
  /** The data is of the year before last or older: some law has surely changed since (assumption). */
  old: boolean;
}

const MINUTE = 60_000;
/** No zone has ever been further than this from UTC, so an instant lies within it of its wall time. */
const REACH = 16 * 60 * MINUTE;

const WINTER = Temporal.Instant.from('2026-12-15T12:00:00Z');
/** All in one winter, so that later laws cannot make a probe wrong. Add one when a release moves a zone. */
const LAW_PROBES: readonly LawProbe[] = [
  { zone: 'America/Vancouver', at: WINTER, offset: -420, release: '2026b' },
  { zone: 'America/Edmonton', at: WINTER, offset: -360, release: '2026c' },
  { zone: 'Africa/Casablanca', at: WINTER, offset: 0, release: '2026c' },
  { zone: 'America/Inuvik', at: WINTER, offset: -360, release: '2026d' },
  { zone: 'America/Winnipeg', at: WINTER, offset: -300, release: '2026e' },
  { zone: 'America/Havana', at: WINTER, offset: -240, release: '2026f' },
];

const names: readonly string[] = [...moment.tz.names()].sort();
const known = new Set(names);
const tables = new Map<string, ZoneTable>();

/** True for an IANA name or link in the data, written exactly ("Europe/London", not "europe/london"). */
export function isZone(name: string): boolean {
  return known.has(name);
}

/** Every zone and link in the data, sorted. */
export function zoneNames(): string[] {
  return [...names];
}

/** Minutes east of UTC. Whole from 1972 on; local mean times before may be fractions. */
export function offsetMinutes(zone: string, at: Temporal.Instant): number {
  const table = tableOf(zone);
  return offsetAt(table, segmentOf(table, at.epochMilliseconds));
}

/** "BST", "GMT", or a numeric form such as "+0545" where a zone has no letters. */
export function abbreviation(zone: string, at: Temporal.Instant): string {
  const table = tableOf(zone);
  return table.abbreviations[segmentOf(table, at.epochMilliseconds)] ?? '';
}

/**
 * The instant at which clocks of the zone show this wall time. A wall time that is skipped is refused;
 * one that happens twice is answered with both instants unless `inOverlap` says which is meant.
 */
export function wallToInstant(
  zone: string,
  wall: Temporal.PlainDateTime,
  inOverlap?: 'earlier' | 'later',
): WallAnswer {
  const table = tableOf(zone);
  const found = segmentsShowing(table, wallMilliseconds(wall));
  const first = found[0];
  const last = found[found.length - 1];
  if (first === undefined || last === undefined) return { ok: false, reason: 'gap' };
  const answer = (segment: number) => instantIn(table, segment, wall);
  if (first !== last && inOverlap === undefined) {
    return { ok: false, reason: 'overlap', earlier: answer(first), later: answer(last) };
  }
  const chosen = inOverlap === 'later' ? last : first;
  return { ok: true, instant: answer(chosen), offset: offsetAt(table, chosen) };
}

/** The instant of a wall time, the first of one that comes twice; an hour the clock skips is taken as the one after it. */
export function instantOf(zone: string, wall: Temporal.PlainDateTime): Temporal.Instant {
  const answer = wallToInstant(zone, wall, 'earlier');
  return answer.ok ? answer.instant : instantOf(zone, wall.add({ hours: 1 }));
}

/** What clocks of the zone show at an instant. */
export function instantToWall(zone: string, at: Temporal.Instant): Temporal.PlainDateTime {
  const milliseconds = at.epochMilliseconds;
  const table = tableOf(zone);
  const offset = offsetAt(table, segmentOf(table, milliseconds));
  const shown = new Date(milliseconds + Math.round(offset * MINUTE));
  const belowMillisecond = Number(at.epochNanoseconds - BigInt(milliseconds) * 1_000_000n);
  return new Temporal.PlainDateTime(
    shown.getUTCFullYear(),
    shown.getUTCMonth() + 1,
    shown.getUTCDate(),
    shown.getUTCHours(),
    shown.getUTCMinutes(),
    shown.getUTCSeconds(),
    shown.getUTCMilliseconds(),
    Math.floor(belowMillisecond / 1000),
    belowMillisecond % 1000,
  );
}

/** An instant as RFC 3339 writes it, with the zone's offset, rounded to whole seconds: "2027-05-14T04:58:12+01:00". */
export function withOffset(zone: string, at: Temporal.Instant): string {
  const rounded = at.round('second');
  const minutes = Math.round(offsetMinutes(zone, rounded));
  const size = Math.abs(minutes);
  const two = (value: number) => String(value).padStart(2, '0');
  const wall = instantToWall(zone, rounded).toString({ smallestUnit: 'second' });
  return `${wall}${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

/**
 * Start (inclusive) and end (exclusive) of a civil day: 23 or 25 hours long when clocks change. Days tile
 * time: the end of one is the start of the next. A day whose midnight is skipped starts when the gap ends;
 * where midnight happens twice it starts at the earlier one. A date that the zone left out altogether
 * (Pacific/Apia 2011-12-30, where the date line moved) has start = end.
 */
export function dayBounds(
  zone: string,
  date: Temporal.PlainDate,
): { start: Temporal.Instant; end: Temporal.Instant } {
  return { start: startOfDay(zone, date), end: startOfDay(zone, date.add({ days: 1 })) };
}

/** Changes of offset or abbreviation with from <= at < to, in order. */
export function transitions(zone: string, from: Temporal.Instant, to: Temporal.Instant): ZoneTransition[] {
  const table = tableOf(zone);
  const end = to.epochMilliseconds;
  const found: ZoneTransition[] = [];
  for (let i = segmentOf(table, from.epochMilliseconds - 1); ; i++) {
    const until = table.untils[i];
    if (until === undefined || until >= end) return found;
    const before = offsetAt(table, i);
    const after = offsetAt(table, i + 1);
    const letters = table.abbreviations[i + 1] ?? '';
    found.push({ at: Temporal.Instant.fromEpochMilliseconds(until), before, after, abbreviation: letters });
  }
}

/**
 * A start-up self-test: the version of the data and the known laws that it gets wrong. It says what is
 * stale and prints nothing. `lookup` and `version` are arguments so that other data can be judged too;
 * `lookup` may throw for a zone that its data lacks.
 */
export function zoneDataFreshness(
  now: Temporal.Instant,
  lookup: (zone: string, at: Temporal.Instant) => number = offsetMinutes,
  version: string = zoneDataVersion,
): ZoneDataFreshness {
  const stale: ZoneDataFreshness['stale'] = [];
  for (const probe of LAW_PROBES) {
    const found = offsetOrNull(lookup, probe);
    if (found !== probe.offset) stale.push({ ...probe, found });
  }
  const year = Number.parseInt(version, 10);
  const thisYear = new Date(now.epochMilliseconds).getUTCFullYear();
  return { version, stale, old: !(year >= thisYear - 1) };
}

function offsetOrNull(lookup: typeof offsetMinutes, probe: LawProbe): number | null {
  try {
    return lookup(probe.zone, probe.at);
  } catch {
    return null;
  }
}

function tableOf(zone: string): ZoneTable {
  const ready = tables.get(zone);
  if (ready) return ready;
  // moment's lookup forgives case and spelling; two spellings of one zone must not both pass here
  const data = known.has(zone) ? moment.tz.zone(zone) : null;
  if (!data) throw new RangeError(`unknown time zone: ${zone}`);
  const table = {
    untils: data.untils.filter(Number.isFinite), // the last is Infinity
    offsets: data.offsets.map((west) => 0 - west), // moment counts minutes west; 0 - 0 is not -0
    abbreviations: data.abbrs,
  };
  tables.set(zone, table);
  return table;
}

function offsetAt(table: ZoneTable, segment: number): number {
  return table.offsets[segment] ?? 0;
}

/** Index of the segment that holds this instant: the first whose end lies after it. */
function segmentOf(table: ZoneTable, milliseconds: number): number {
  let low = 0;
  let high = table.untils.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((table.untils[middle] ?? Infinity) <= milliseconds) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Segments in which clocks show this wall time, in the order of time: none in a gap, two in an overlap. */
function segmentsShowing(table: ZoneTable, wall: number): number[] {
  const found: number[] = [];
  for (let i = segmentOf(table, wall - REACH); i <= table.untils.length; i++) {
    const starts = table.untils[i - 1] ?? -Infinity;
    if (starts > wall + REACH) break;
    const at = wall - Math.round(offsetAt(table, i) * MINUTE);
    if (at >= starts && at < (table.untils[i] ?? Infinity)) found.push(i);
  }
  return found;
}

function instantIn(table: ZoneTable, segment: number, wall: Temporal.PlainDateTime): Temporal.Instant {
  const offset = Math.round(offsetAt(table, segment) * MINUTE);
  const instant = Temporal.Instant.fromEpochMilliseconds(wallMilliseconds(wall) - offset);
  const { microsecond, nanosecond } = wall;
  if (microsecond === 0 && nanosecond === 0) return instant;
  return instant.add({ microseconds: microsecond, nanoseconds: nanosecond });
}

/** The wall time as if it were UTC, which is what makes it comparable with offsets. */
function wallMilliseconds(wall: Temporal.PlainDateTime): number {
  const { year, month, day, hour, minute, second, millisecond } = wall;
  return Date.UTC(year, month - 1, day, hour, minute, second, millisecond);
}

function startOfDay(zone: string, date: Temporal.PlainDate): Temporal.Instant {
  const midnight = date.toPlainDateTime();
  const answer = wallToInstant(zone, midnight, 'earlier');
  if (answer.ok) return answer.instant;
  const table = tableOf(zone);
  const wall = wallMilliseconds(midnight);
  // the gap is the first jump that lands on a later wall time than this midnight
  let i = segmentOf(table, wall - REACH);
  while ((table.untils[i] ?? Infinity) + Math.round(offsetAt(table, i + 1) * MINUTE) <= wall) i++;
  return Temporal.Instant.fromEpochMilliseconds(table.untils[i] ?? wall);
}
