// Every zone of the data, 2026 to 2030, against two readers that share no code with lib/zoned-time.ts:
// (1) test/golden/zones/transitions.txt, printed by zdump from Debian's compilation of the IANA sources of
//     the same release: another compiler (zic) and another reader, and no zone is excused;
// (2) Temporal.ZonedDateTime on Node's own ICU data, whose rules for gaps, overlaps and the start of a day are
//     the ECMAScript ones. That data is older, so zones whose law changed since are named below and left out.
import { readFileSync } from 'node:fs';
import { Temporal } from 'temporal-polyfill';
import {
  abbreviation,
  dayBounds,
  instantToWall,
  offsetMinutes,
  transitions,
  wallToInstant,
  zoneDataVersion,
  zoneNames,
} from '../../src/lib/zoned-time.js';
import { scale } from '../support/scale.js';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;
const FROM = Date.UTC(2026, 0, 1);
const TO = Date.UTC(2031, 0, 1);

interface Printed {
  /** In force from the start of 2026. */
  offset: number;
  letters: string;
  changes: { at: number; offset: number; letters: string }[];
}

/** "+0530", "-03" or "+00" in minutes. */
function printedMinutes(text: string): number {
  const size = Number(text.slice(1, 3)) * 60 + Number(text.slice(3, 5) || 0);
  return text.startsWith('-') ? 0 - size : size;
}

/** "01" or "02:30" in milliseconds. */
function printedTime(text: string): number {
  const [hour, minute = '0', second = '0'] = text.split(':');
  return (Number(hour) * 60 + Number(minute)) * MINUTE + Number(second) * 1000;
}

function readPrinted(): { version: string; zones: Map<string, Printed> } {
  const text = readFileSync(new URL('../golden/zones/transitions.txt', import.meta.url), 'utf8');
  const zones = new Map<string, Printed>();
  for (const block of text.split('\n= ').slice(1)) {
    const [names = '', first = '', ...lines] = block.trim().split('\n');
    const [, , start = '', name = ''] = first.split('\t');
    const changes = lines.map((line) => {
      const [date = '', time = '', offset = '', name = ''] = line.split('\t');
      const local = Date.parse(`${date}T00:00:00Z`) + printedTime(time);
      const minutes = printedMinutes(offset);
      return { at: local - minutes * MINUTE, offset: minutes, letters: name || offset };
    });
    const zone = { offset: printedMinutes(start), letters: name || start, changes };
    for (const each of names.split(' ')) zones.set(each, zone);
  }
  return { version: /^# version (\S+)/.exec(text)?.[1] ?? '', zones };
}

const printed = readPrinted();

function printedOffset(zone: Printed, at: number): number {
  return zone.changes.findLast((change) => change.at <= at)?.offset ?? zone.offset;
}

/** All instants at which the printed table shows a wall time, by definition and without cleverness. */
function printedInstants(zone: Printed, wall: number): number[] {
  const all = [zone.offset, ...zone.changes.map((change) => change.offset)];
  const found = all.filter(
    (offset, i) => all.indexOf(offset) === i && printedOffset(zone, wall - offset * MINUTE) === offset,
  );
  return found.map((offset) => wall - offset * MINUTE).sort((a, b) => a - b);
}

/** A wall time from its milliseconds as if in UTC. */
const wallOf = (ms: number) => {
  const shown = new Date(ms);
  const [date, time] = [shown.getUTCDate(), ms - Math.floor(ms / DAY) * DAY];
  const midnight = [shown.getUTCFullYear(), shown.getUTCMonth() + 1, date] as const;
  const [hour, minute] = [Math.floor(time / HOUR), Math.floor(time / MINUTE) % 60];
  return new Temporal.PlainDateTime(...midnight, hour, minute, Math.floor(time / 1000) % 60, time % 1000);
};
const instantOf = (ms: number) => Temporal.Instant.fromEpochMilliseconds(ms);

/** Our answer as a list of instants, to compare with printedInstants. */
function ourInstants(zone: string, wall: Temporal.PlainDateTime): number[] {
  const answer = wallToInstant(zone, wall);
  if (answer.ok) return [answer.instant.epochMilliseconds];
  if (answer.reason === 'gap') return [];
  return [answer.earlier.epochMilliseconds, answer.later.epochMilliseconds];
}

/** Wall times worth asking about: every quarter of an hour, and its edges, near each change. */
function wallsAroundChanges(zone: Printed): number[] {
  const walls: number[] = [];
  for (const { at } of zone.changes) {
    const middle = at + printedOffset(zone, at - 1) * MINUTE;
    for (let ms = middle - 75 * MINUTE; ms <= middle + 75 * MINUTE; ms += 15 * MINUTE) walls.push(ms - 1, ms);
  }
  return walls;
}

/** Other wall times of the years, spread over all hours; a prime step so that no weekday or hour is missed. */
function wallsOfTheYears(stepMinutes: number): number[] {
  const walls: number[] = [];
  for (let ms = FROM + DAY; ms < TO - DAY; ms += stepMinutes * MINUTE) walls.push(ms);
  return walls;
}

describe('every zone from 2026 to 2030', () => {
  it('is in the printed table, which is of the version that the project ships', () => {
    // After updating moment-timezone: run test/golden/zones/make-transitions.mjs where tzdata is as new.
    expect(printed.version).toBe(zoneDataVersion);
    expect(zoneNames().filter((zone) => !printed.zones.has(zone))).toEqual([]);
  });

  it('changes its clocks exactly when zdump says, to the same offset and letters', () => {
    // Debian keeps the zone MET with its old letters; since 2024b the IANA data link it to Brussels (CET).
    const letters = (zone: string, text: string) => (zone === 'MET' ? text.replace('CE', 'ME') : text);
    for (const [zone, table] of printed.zones) {
      const changes = transitions(zone, instantOf(FROM), instantOf(TO)).map((change) => ({
        at: change.at.epochMilliseconds,
        offset: change.after,
        letters: letters(zone, change.abbreviation),
      }));
      const start = instantOf(FROM);
      const ours = {
        offset: offsetMinutes(zone, start),
        letters: letters(zone, abbreviation(zone, start)),
        changes,
      };
      expect([zone, ours]).toEqual([zone, table]);
    }
  });

  it('answers a wall time with all instants that show it: none in a gap, two in an overlap, else one', () => {
    const years = wallsOfTheYears(scale(1447, 30_011)).map((ms) => ({ ms, wall: wallOf(ms) }));
    const counted = [0, 0, 0];
    for (const zone of zoneNames()) {
      const table = printed.zones.get(zone);
      if (!table) continue; // the first test fails then
      const around = wallsAroundChanges(table).map((ms) => ({ ms, wall: wallOf(ms) }));
      for (const { ms, wall } of [...around, ...years]) {
        const ours = ourInstants(zone, wall);
        const expected = printedInstants(table, ms);
        if (ours.join() !== expected.join())
          expect([zone, wall.toString(), ours]).toEqual([zone, '', expected]);
        for (const at of ours) {
          const back = instantToWall(zone, instantOf(at));
          if (!back.equals(wall)) expect([zone, at, back.toString()]).toEqual([zone, at, wall.toString()]);
        }
        counted[ours.length] = (counted[ours.length] ?? 0) + 1;
      }
    }
    const [gaps = 0, single = 0, overlaps = 0] = counted;
    expect(gaps).toBeGreaterThan(5_000);
    expect(overlaps).toBeGreaterThan(5_000);
    expect(single).toBeGreaterThan(50_000);
  });

  it('has days that tile time: each instant is in the civil day that its wall time names', () => {
    for (const zone of zoneNames()) {
      const dates = (printed.zones.get(zone)?.changes ?? [])
        .filter((_, index) => index < scale(20, 4))
        .flatMap(({ at }) =>
          [-1, 0, 1].map((days) => instantToWall(zone, instantOf(at + days * DAY)).toPlainDate()),
        );
      for (const date of dates) {
        const { start, end } = dayBounds(zone, date);
        const inside = [start, end.subtract({ milliseconds: 1 })].map((at) =>
          instantToWall(zone, at).toPlainDate(),
        );
        const outside = [start.subtract({ milliseconds: 1 }), end].map((at) =>
          instantToWall(zone, at).toPlainDate(),
        );
        expect([zone, inside.map(String), outside.map(String)]).toEqual([
          zone,
          [String(date), String(date)],
          [String(date.subtract({ days: 1 })), String(date.add({ days: 1 }))],
        ]);
      }
    }
  });
});

/** Zones whose law from 2026 on changed in releases 2025a to 2026f, with their links (tz NEWS). */
const LAW_CHANGED =
  'Africa/Casablanca Africa/El_Aaiun America/Coyhaique America/Edmonton America/Havana America/Inuvik ' +
  'America/Rainy_River America/Vancouver America/Winnipeg America/Yellowknife Canada/Central Canada/Mountain ' +
  'Canada/Pacific Cuba Europe/Chisinau Europe/Tiraspol';

/** Whether Node's data knows the zone and gives all these instants our offset. */
function agreesWithNode(zone: string, at: number[]): boolean {
  try {
    return at.every((ms) => {
      const shown = instantOf(ms).toZonedDateTimeISO(zone);
      return shown.offsetNanoseconds === offsetMinutes(zone, instantOf(ms)) * MINUTE * 1e6;
    });
  } catch {
    return false;
  }
}

describe('Temporal on the data of Node', () => {
  const monthly = Array.from({ length: 60 }, (_, month) => Date.UTC(2026, month, 15, 12));
  const changesOf = (zone: string) => printed.zones.get(zone)?.changes ?? [];
  const same = zoneNames().filter((zone) =>
    agreesWithNode(zone, [...monthly, ...changesOf(zone).flatMap(({ at }) => [at - 1, at])]),
  );

  it('differs only in zones whose law changed since its release', () => {
    const differing = zoneNames().filter((zone) => !same.includes(zone));
    expect(differing.filter((zone) => !LAW_CHANGED.split(' ').includes(zone))).toEqual([]);
  });

  it('chooses and refuses like us around every change, and starts days like us', () => {
    for (const zone of same) {
      for (const { at } of changesOf(zone).slice(0, scale(20, 2))) {
        const change = instantToWall(zone, instantOf(at - 1)).add({ milliseconds: 1 });
        for (const minutes of [-90, -60, -30, -1, 0, 29, 30, 59, 60, 90]) {
          const wall = change.add({ minutes });
          const earlier = wall.toZonedDateTime(zone, { disambiguation: 'earlier' }).epochMilliseconds;
          const later = wall.toZonedDateTime(zone, { disambiguation: 'later' }).epochMilliseconds;
          const isGap = !instantOf(later).toZonedDateTimeISO(zone).toPlainDateTime().equals(wall);
          const theirs = isGap ? [] : [...new Set([earlier, later])];
          expect([zone, wall.toString(), ourInstants(zone, wall)]).toEqual([zone, wall.toString(), theirs]);
        }
        const date = change.toPlainDate();
        const { start, end } = dayBounds(zone, date);
        expect([zone, start.epochMilliseconds, end.epochMilliseconds]).toEqual([
          zone,
          date.toZonedDateTime(zone).startOfDay().epochMilliseconds,
          date.add({ days: 1 }).toZonedDateTime(zone).startOfDay().epochMilliseconds,
        ]);
      }
    }
  });
});
