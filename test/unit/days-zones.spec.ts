// The places of days in every zone of the data, 2026 to 2030, against a small implementation of its own: it
// tries offsets instead of looking them up, looks at the sun's height at the ends of a sitting instead of at
// crossings, and sorts rhythms instead of folding them. Zones are held against zdump elsewhere.
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { exposureRange } from '../../src/daylight/exposure.calc.js';
import { sunAt } from '../../src/daylight/sun.calc.js';
import { instantToWall, offsetMinutes, transitions, zoneNames } from '../../src/lib/zoned-time.js';
import { type Booking, daysOf, type RoomFacts } from '../../src/room/days.calc.js';
import type { Occupancy } from '../../src/room/occupancy.schemas.js';
import { DEFAULT_POSE_LIMITS } from '../../src/room/pose.calc.js';
import { RHYTHM_DEFAULTS, type Rhythm, type RoomRules } from '../../src/room/rules.schemas.js';
import { scale } from '../support/scale.js';

const DAY = 86_400_000;
const utc = (year: number) => Date.UTC(year, 0, 1);
const dateAt = (milliseconds: number) =>
  Temporal.PlainDate.from(new Date(milliseconds).toISOString().slice(0, 10));
/** Degrees and per cent within which two ways of computing may differ. */
const NEAR = { degrees: 0.02, ratio: 0.01 };

const always = { weekdays: [1, 2, 3, 4, 5, 6, 7], also: [], away: [] };

interface Case {
  zone: string;
  first: number;
  rhythms: Rhythm[];
  awayEvery: number;
  plates: number;
  sitters: number;
  floor: number;
  latitude: number;
  /** Hours after the first day's midnight, in UTC, and minutes: what holds the room. */
  taken: [number, number][];
}

const minutes = fc.uniqueArray(fc.integer({ min: 0, max: 1439 }), { minLength: 1, maxLength: 6 });
const rhythm = (first: number) =>
  fc
    .record({
      weekday: fc.integer({ min: 1, max: 7 }),
      starts: minutes,
      night: fc.uniqueArray(fc.integer({ min: 0, max: 180 }), { minLength: 1, maxLength: 4 }),
      from: fc.integer({ min: -20, max: 9 }),
      long: fc.option(fc.integer({ min: 0, max: 20 })),
      breakAt: fc.integer({ min: 0, max: 1300 }),
      mostSittings: fc.integer({ min: 1, max: 4 }),
      further: fc.integer({ min: 0, max: 30 }),
    })
    .map((one): Rhythm => {
      const effectiveFrom = dateAt(first + one.from * DAY);
      return {
        ...RHYTHM_DEFAULTS,
        id: JSON.stringify(one),
        weekday: one.long === 0 ? effectiveFrom.dayOfWeek : one.weekday,
        starts: [...new Set([...one.starts, ...one.night])].sort((a, b) => a - b),
        furtherSitterMinutes: one.further,
        breaks: [one.breakAt, one.breakAt + 60],
        mostSittings: one.mostSittings,
        heldBack: 0,
        effectiveFrom,
        effectiveUntil: one.long === null ? null : effectiveFrom.add({ days: one.long }),
      };
    });

function cases(zone: string): fc.Arbitrary<Case> {
  const changes = transitions(
    zone,
    Temporal.Instant.fromEpochMilliseconds(utc(2026)),
    Temporal.Instant.fromEpochMilliseconds(utc(2031)),
  ).map((one) => Math.floor(one.at.epochMilliseconds / DAY) * DAY - 4 * DAY);
  const anywhere = fc.integer({ min: 0, max: 1815 }).map((day) => utc(2026) + day * DAY);
  const first = changes.length === 0 ? anywhere : fc.oneof(anywhere, fc.constantFrom(...changes));
  return first.chain((start) =>
    fc.record({
      zone: fc.constant(zone),
      first: fc.constant(start),
      rhythms: fc.array(rhythm(start), { minLength: 4, maxLength: 8 }),
      awayEvery: fc.integer({ min: 2, max: 9 }),
      plates: fc.integer({ min: 1, max: 3 }),
      sitters: fc.integer({ min: 1, max: 3 }),
      floor: fc.integer({ min: 0, max: 20 }),
      latitude: fc.integer({ min: -60, max: 60 }),
      taken: fc.array(fc.tuple(fc.integer({ min: 0, max: 220 }), fc.integer({ min: 20, max: 300 })), {
        maxLength: 8,
      }),
    }),
  );
}

function setting(one: Case): {
  facts: RoomFacts;
  range: { from: Temporal.PlainDate; until: Temporal.PlainDate };
} {
  const from = dateAt(one.first);
  const until = from.add({ days: 9 });
  const booking: Booking = {
    lat: one.latitude,
    lon: offsetMinutes(one.zone, Temporal.Instant.fromEpochMilliseconds(one.first)) / 4,
    zone: one.zone,
    windowKind: 'open shade',
    lightFloorDegrees: one.floor,
    referenceSeconds: 6,
    referenceAltitudeDegrees: 45,
    exposureCapSeconds: 15,
    horizonMonths: 12,
    leastNoticeDays: 2,
  };
  const away = Array.from({ length: 10 }, (_, at) => at)
    .filter((at) => at % one.awayEvery === 0)
    .map((at) => from.add({ days: at }).toString());
  const rules: RoomRules = {
    rhythms: one.rhythms,
    owner: { ...always, away },
    helper: { weekdays: [], also: [], away: [] },
    kinds: [],
    closures: [],
    elsewhere: [],
    limits: DEFAULT_POSE_LIMITS,
  };
  const holding = one.taken.map(([hours, long]): Occupancy => {
    const startsAt = Temporal.Instant.fromEpochMilliseconds(one.first + hours * 3_600_000);
    const busyUntil = startsAt.add({ minutes: long });
    const wallStart = instantToWall(one.zone, startsAt);
    return { kind: 'sitting', startsAt, busyUntil, wallStart, plates: 1 } as Occupancy;
  });
  return {
    facts: { rules, booking, holding, kindYears: [], today: from.subtract({ days: 1 }) },
    range: { from, until },
  };
}

/** Every instant at which clocks of the zone show this wall time, found by trying the offsets around it. */
function instantsOf(zone: string, wallAsUtc: number): number[] {
  const offsets = new Set<number>();
  for (let at = wallAsUtc - 2 * DAY; at <= wallAsUtc + 2 * DAY; at += DAY / 8)
    offsets.add(offsetMinutes(zone, Temporal.Instant.fromEpochMilliseconds(at)));
  return [...offsets]
    .map((offset) => ({ offset, at: wallAsUtc - offset * 60_000 }))
    .filter(({ offset, at }) => offsetMinutes(zone, Temporal.Instant.fromEpochMilliseconds(at)) === offset)
    .map(({ at }) => at);
}

type Judged = { wall: string; at: number | null; closed: string | null };

/** The same again in another way; 'unsure' where the sun is too near a limit for two ways to agree. */
function judge(one: Case): Judged[] {
  const { facts, range } = setting(one);
  const { booking, rules } = facts;
  const found: Judged[] = [];
  for (let day = 0; day < 10; day++) {
    const date = range.from.add({ days: day });
    const text = date.toString();
    const inForce = rules.rhythms
      .filter(
        ({ weekday, effectiveFrom, effectiveUntil }) =>
          weekday === date.dayOfWeek &&
          effectiveFrom.toString() <= text &&
          text <= (effectiveUntil?.toString() ?? '9999-12-31'),
      )
      .map((candidate, position) => ({ candidate, position }))
      .sort((a, b) => {
        const began = (two: typeof a) => two.candidate.effectiveFrom.toString();
        const single = (two: typeof a) => (two.candidate.effectiveUntil?.toString() === began(two) ? 1 : 0);
        if (began(a) !== began(b)) return began(a) < began(b) ? 1 : -1;
        if (single(a) !== single(b)) return single(b) - single(a);
        return single(a) ? b.position - a.position : a.position - b.position;
      });
    const chosen = inForce[0]?.candidate;
    if (!chosen) continue;
    const long = 75 + 25 * (one.plates - 1) + chosen.furtherSitterMinutes * (one.sitters - 1);
    const sameDay = facts.holding.filter((held) => held.wallStart.toString().startsWith(text)).length;
    for (const minute of chosen.starts) {
      const wallAsUtc = Date.UTC(date.year, date.month - 1, date.day) + minute * 60_000;
      const wall = new Date(wallAsUtc).toISOString().slice(0, 16);
      const instants = instantsOf(one.zone, wallAsUtc);
      const [at] = instants;
      if (instants.length !== 1 || at === undefined) {
        found.push({ wall, at: null, closed: 'clock gap' });
        continue;
      }
      const end = at + long * 60_000;
      const endOffset = offsetMinutes(one.zone, Temporal.Instant.fromEpochMilliseconds(end));
      const endMinute = (end + endOffset * 60_000 - Date.UTC(date.year, date.month - 1, date.day)) / 60_000;
      const [breakFrom = 0, breakUntil = 0] = chosen.breaks;
      const busy = end + 30 * 60_000;
      const taken = facts.holding.some(
        (held) => held.startsAt.epochMilliseconds < busy && at < held.busyUntil.epochMilliseconds,
      );
      let closed: string | null = light(booking, at, end);
      if (closed === null) closed = taken ? 'room taken' : sameDay >= chosen.mostSittings ? 'day full' : null;
      if (closed === null && sameDay + one.plates > 10) closed = 'no more plates';
      if (minute < breakUntil && breakFrom < endMinute) closed = 'break';
      if (rules.owner.away.includes(text)) closed = 'owner away';
      if (day < 1) closed = 'too soon';
      found.push({ wall, at, closed });
    }
  }
  return found;
}

function light(booking: Booking, from: number, until: number): 'light' | 'unsure' | null {
  const heights = [from, until].map(
    (at) => sunAt(booking, Temporal.Instant.fromEpochMilliseconds(at)).altitude,
  );
  const lowest = Math.min(...heights);
  if (Math.abs(lowest - booking.lightFloorDegrees) < NEAR.degrees) return 'unsure';
  if (lowest < booking.lightFloorDegrees) return 'light';
  const seconds =
    exposureRange(booking, { from: lowest, to: lowest }, 'clear')?.to ?? Number.POSITIVE_INFINITY;
  if (Math.abs(seconds / booking.exposureCapSeconds - 1) < NEAR.ratio) return 'unsure';
  return seconds > booking.exposureCapSeconds ? 'light' : null;
}

const LIGHT = ['no light that day', 'starts before good light', 'light ends first', 'exposure above cap'];

describe('the places of ten days', () => {
  const names = zoneNames();
  let gaps = 0;
  it.each(Array.from({ length: 10 }, (_, part) => part))(
    'are those of another implementation, each once, none lost, none in a gap: every tenth zone from %i',
    (part) => {
      let open = 0;
      for (const zone of names.filter((_, at) => at % 10 === part))
        fc.assert(
          fc.property(cases(zone), (one) => {
            const { facts, range } = setting(one);
            const days = daysOf(facts, range, { plates: one.plates, sitters: one.sitters, kind: null });
            const slots = days.flatMap((day) => day.openings);
            const expected = judge(one);
            expect(slots.map((slot) => slot.wallStart.toString({ smallestUnit: 'minute' }))).toEqual(
              expected.map(({ wall }) => wall),
            );
            expect(new Set(expected.map(({ wall }) => wall)).size).toBe(slots.length);
            slots.forEach((slot, at) => {
              expect(slot.startsAt?.epochMilliseconds ?? null).toBe(expected[at]?.at);
              if (slot.startsAt)
                expect(instantToWall(one.zone, slot.startsAt).equals(slot.wallStart)).toBe(true);
              else gaps++;
              if (slot.closed === null) open++;
              if (expected[at]?.closed === 'unsure') return;
              const told = slot.closed !== null && LIGHT.includes(slot.closed) ? 'light' : slot.closed;
              expect(told).toBe(expected[at]?.closed);
            });
          }),
          { numRuns: scale(60, 2) },
        );
      expect(open).toBeGreaterThan(10);
    },
    scale(600_000, 30_000),
  );

  it('were looked at where hours are skipped or come twice, too', () => {
    expect(gaps).toBeGreaterThan(15);
  });
});
