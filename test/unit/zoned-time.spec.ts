// Published cases of the IANA data 2026f (tz NEWS and zdump of Debian's tzdata 2026f): gaps, overlaps, days of
// odd length, weeks when two countries differ, the date line. Every zone at once: zoned-time-zones.spec.ts.
import { Temporal } from 'temporal-polyfill';
import {
  abbreviation,
  dayBounds,
  instantOf,
  instantToWall,
  isZone,
  offsetMinutes,
  transitions,
  wallToInstant,
  zoneDataFreshness,
  zoneDataVersion,
  zoneNames,
} from '../../src/lib/zoned-time.js';

const instant = (text: string) => Temporal.Instant.from(text);
const wall = (text: string) => Temporal.PlainDateTime.from(text);
const day = (text: string) => Temporal.PlainDate.from(text);
const utc = (zone: string, text: string, inOverlap?: 'earlier' | 'later') => {
  const answer = wallToInstant(zone, wall(text), inOverlap);
  return answer.ok ? answer.instant.toString() : answer.reason;
};
const hours = (zone: string, text: string) => {
  const { start, end } = dayBounds(zone, day(text));
  return (end.epochMilliseconds - start.epochMilliseconds) / 3_600_000;
};
const hoursBetween = (east: string, west: string, text: string) =>
  (offsetMinutes(east, instant(text)) - offsetMinutes(west, instant(text))) / 60;

describe('a wall time that clocks jump over', () => {
  it.each([
    ['America/New_York', '2027-03-14T02:30'],
    ['Europe/Paris', '2027-03-28T02:30'],
    ['Europe/London', '2027-03-28T01:30'],
    ['Australia/Sydney', '2026-10-04T02:30'],
    ['Australia/Lord_Howe', '2026-10-04T02:15'],
    ['America/Santiago', '2026-09-06T00:30'],
    ['Africa/Cairo', '2027-04-30T00:30'],
    ['Pacific/Apia', '2011-12-30T12:00'],
  ])('in %s does not exist at %s, whichever side is asked for', (zone, text) => {
    expect(utc(zone, text)).toBe('gap');
    expect(utc(zone, text, 'earlier')).toBe('gap');
    expect(utc(zone, text, 'later')).toBe('gap');
  });

  it('is refused from its first minute and accepted from the minute after its last', () => {
    expect(utc('Europe/London', '2027-03-28T00:59:59.999')).toBe('2027-03-28T00:59:59.999Z');
    expect(utc('Europe/London', '2027-03-28T01:00')).toBe('gap');
    expect(utc('Europe/London', '2027-03-28T01:59:59.999')).toBe('gap');
    expect(utc('Europe/London', '2027-03-28T02:00')).toBe('2027-03-28T01:00:00Z');
  });

  it('is half an hour long on Lord Howe Island', () => {
    expect(utc('Australia/Lord_Howe', '2026-10-04T02:29')).toBe('gap');
    expect(utc('Australia/Lord_Howe', '2026-10-04T02:30')).toBe('2026-10-03T15:30:00Z');
  });
});

describe('the instant of a wall time, whatever clocks do', () => {
  it.each([
    ['Europe/London', '2027-03-28T01:30', '2027-03-28T01:30:00Z'], // as 02:30
    ['America/Nuuk', '2023-03-25T22:00', '2023-03-26T01:00:00Z'], // as 23:00
    ['Pacific/Apia', '2011-12-30T12:00', '2011-12-30T10:00:00Z'], // as the first hour of the 31st
    ['Europe/London', '2027-10-31T01:30', '2027-10-31T00:30:00Z'], // the first of two
    ['Europe/London', '2027-05-14T11:15', '2027-05-14T10:15:00Z'],
  ])('in %s at %s is %s', (zone, text, instant) => {
    expect(instantOf(zone, wall(text)).toString()).toBe(instant);
  });
});

describe('a wall time that happens twice', () => {
  it.each([
    ['America/New_York', '2026-11-01T01:30', '2026-11-01T05:30:00Z', '2026-11-01T06:30:00Z'],
    ['Europe/Paris', '2026-10-25T02:30', '2026-10-25T00:30:00Z', '2026-10-25T01:30:00Z'],
    ['America/Santiago', '2027-04-03T23:30', '2027-04-04T02:30:00Z', '2027-04-04T03:30:00Z'],
  ])(
    'in %s at %s is answered with both instants, and with one only when chosen',
    (zone, text, earlier, later) => {
      const answer = wallToInstant(zone, wall(text));
      if (answer.ok || answer.reason !== 'overlap') throw new Error('expected an overlap');
      expect([answer.earlier.toString(), answer.later.toString()]).toEqual([earlier, later]);
      expect(utc(zone, text, 'earlier')).toBe(earlier);
      expect(utc(zone, text, 'later')).toBe(later);
    },
  );

  it('names the offset of the chosen side', () => {
    expect(wallToInstant('Europe/Paris', wall('2026-10-25T02:30'), 'earlier')).toMatchObject({ offset: 120 });
    expect(wallToInstant('Europe/Paris', wall('2026-10-25T02:30'), 'later')).toMatchObject({ offset: 60 });
  });
});

describe('a civil day', () => {
  it('has 23 hours in spring, 25 in autumn, and 24 else', () => {
    expect(hours('America/New_York', '2027-03-14')).toBe(23);
    expect(hours('America/New_York', '2026-11-01')).toBe(25);
    expect(hours('America/New_York', '2026-11-02')).toBe(24);
    expect(hours('America/Santiago', '2027-04-03')).toBe(25);
    expect(hours('Australia/Lord_Howe', '2026-10-04')).toBe(23.5);
  });

  it('starts at one in the morning where midnight is skipped', () => {
    const { start } = dayBounds('America/Santiago', day('2026-09-06'));
    expect(start.toString()).toBe('2026-09-06T04:00:00Z');
    expect(instantToWall('America/Santiago', start).toString()).toBe('2026-09-06T01:00:00');
  });

  it('starts at the earlier midnight where midnight happens twice', () => {
    // Cuba goes back from 01:00 to 00:00 on 2027-11-07 (tz NEWS 2026f)
    expect(dayBounds('America/Havana', day('2027-11-07')).start.toString()).toBe('2027-11-07T04:00:00Z');
    expect(hours('America/Havana', '2027-11-07')).toBe(25);
  });

  it('is empty where a zone left the date out, and its neighbours meet there', () => {
    const skipped = dayBounds('Pacific/Apia', day('2011-12-30'));
    expect(skipped.start.toString()).toBe('2011-12-30T10:00:00Z');
    expect(skipped.end.equals(skipped.start)).toBe(true);
    expect(dayBounds('Pacific/Apia', day('2011-12-29')).end.equals(skipped.start)).toBe(true);
    expect(dayBounds('Pacific/Apia', day('2011-12-31')).start.equals(skipped.end)).toBe(true);
    expect(hours('Pacific/Apia', '2011-12-31')).toBe(24);
  });

  it('one day earlier is the same wall time, not 24 hours less', () => {
    const sitting = wall('2027-03-14T10:00');
    const before = sitting.subtract({ days: 1 });
    expect(utc('America/New_York', sitting.toString())).toBe('2027-03-14T14:00:00Z');
    expect(utc('America/New_York', before.toString())).toBe('2027-03-13T15:00:00Z');
  });
});

describe('two places', () => {
  it('differ by other hours while only one of them has changed its clocks', () => {
    expect(hoursBetween('Europe/London', 'America/New_York', '2027-03-13T12:00Z')).toBe(5);
    expect(hoursBetween('Europe/London', 'America/New_York', '2027-03-20T12:00Z')).toBe(4);
    expect(hoursBetween('Europe/London', 'America/New_York', '2027-03-28T12:00Z')).toBe(5);
    expect(hoursBetween('Europe/London', 'America/New_York', '2026-10-28T12:00Z')).toBe(4);
    expect(hoursBetween('Australia/Sydney', 'Europe/London', '2026-12-15T12:00Z')).toBe(11);
    expect(hoursBetween('Australia/Sydney', 'Europe/London', '2027-07-15T12:00Z')).toBe(9);
    expect(hoursBetween('Australia/Sydney', 'Europe/London', '2027-04-02T12:00Z')).toBe(10);
  });

  it('have Arizona with Los Angeles in summer and with Denver in winter', () => {
    for (const [at, like, unlike] of [
      ['2026-07-15T12:00Z', 'America/Los_Angeles', 'America/Denver'],
      ['2026-12-15T12:00Z', 'America/Denver', 'America/Los_Angeles'],
    ] as const) {
      expect(offsetMinutes('America/Phoenix', instant(at))).toBe(offsetMinutes(like, instant(at)));
      expect(offsetMinutes('America/Phoenix', instant(at))).not.toBe(offsetMinutes(unlike, instant(at)));
    }
  });

  it('can stand on different dates at one instant', () => {
    const sitting = wallToInstant('Pacific/Auckland', wall('2027-01-15T10:00'));
    if (!sitting.ok) throw new Error(sitting.reason);
    expect(sitting.instant.toString()).toBe('2027-01-14T21:00:00Z');
    expect(instantToWall('America/Los_Angeles', sitting.instant).toString()).toBe('2027-01-14T13:00:00');
  });

  it('may be quarters of an hour apart', () => {
    expect(offsetMinutes('Pacific/Chatham', instant('2027-01-15T00:00Z'))).toBe(13 * 60 + 45);
    expect(offsetMinutes('Asia/Kathmandu', instant('2027-01-15T00:00Z'))).toBe(5 * 60 + 45);
    expect(utc('Asia/Kathmandu', '2027-01-15T10:00')).toBe('2027-01-15T04:15:00Z');
  });
});

describe('laws of 2026', () => {
  it('keep a sitting in Vancouver at its wall time and move its instant', () => {
    // Booked before tz 2026b, when December was reckoned at -08:00, that is 18:00Z.
    expect(utc('America/Vancouver', '2026-12-04T10:00')).toBe('2026-12-04T17:00:00Z');
  });

  it.each([
    ['America/Vancouver', '2026-12-15T12:00Z', -420],
    ['America/Edmonton', '2026-12-15T12:00Z', -360],
    ['America/Winnipeg', '2026-12-15T12:00Z', -300],
    ['America/Yellowknife', '2026-12-15T12:00Z', -360],
    ['America/Havana', '2026-12-15T12:00Z', -240],
    ['America/Havana', '2027-12-15T12:00Z', -300],
    ['Africa/Casablanca', '2026-12-15T12:00Z', 0],
    ['Africa/Casablanca', '2027-01-15T12:00Z', 0],
    ['Africa/Casablanca', '2027-07-15T12:00Z', 0],
  ])('give %s at %s the offset %d', (zone, at, offset) => {
    expect(offsetMinutes(zone, instant(at))).toBe(offset);
  });
});

describe('changes of a zone', () => {
  it('are listed with both offsets and the letters in force afterwards', () => {
    const found = transitions('Europe/London', instant('2027-01-01T00:00Z'), instant('2028-01-01T00:00Z'));
    expect(found.map(({ at, ...rest }) => ({ at: at.toString(), ...rest }))).toEqual([
      { at: '2027-03-28T01:00:00Z', before: 0, after: 60, abbreviation: 'BST' },
      { at: '2027-10-31T01:00:00Z', before: 60, after: 0, abbreviation: 'GMT' },
    ]);
    expect(abbreviation('Europe/London', instant('2027-07-01T00:00Z'))).toBe('BST');
  });

  it('include one at the start of the span and leave out one at its end', () => {
    const spring = instant('2027-03-28T01:00Z');
    const autumn = instant('2027-10-31T01:00Z');
    expect(transitions('Europe/London', spring, autumn)).toHaveLength(1);
    expect(transitions('Europe/London', spring.add({ milliseconds: 1 }), autumn)).toHaveLength(0);
    expect(transitions('Europe/London', spring, autumn.add({ milliseconds: 1 }))).toHaveLength(2);
  });

  it('are none where clocks stay', () => {
    const all = [instant('2026-01-01T00:00Z'), instant('2031-01-01T00:00Z')] as const;
    for (const zone of ['America/Phoenix', 'America/Regina', 'Asia/Tokyo', 'Atlantic/Reykjavik', 'UTC']) {
      expect(transitions(zone, ...all)).toEqual([]);
    }
  });
});

describe('names and precision', () => {
  it('knows zones by their exact name and nothing else', () => {
    for (const zone of ['Europe/London', 'GB', 'Etc/UTC', 'America/Argentina/Ushuaia', 'America/Coyhaique']) {
      expect(isZone(zone)).toBe(true);
    }
    for (const other of [
      'europe/london',
      'Europe_London',
      'Europe/Nowhere',
      '',
      'constructor',
      '__proto__',
    ]) {
      expect(isZone(other)).toBe(false);
      expect(() => offsetMinutes(other, instant('2026-01-01T00:00Z'))).toThrow(RangeError);
    }
    expect(zoneNames().length).toBeGreaterThan(590);
    expect(zoneNames().every(isZone)).toBe(true);
  });

  it('keeps nanoseconds both ways', () => {
    const at = instant('2027-07-01T09:08:07.006005004Z');
    const shown = instantToWall('Europe/London', at);
    expect(shown.toString()).toBe('2027-07-01T10:08:07.006005004');
    expect(utc('Europe/London', shown.toString())).toBe(at.toString());
    const old = instant('1969-07-20T20:17:40.123456789Z');
    expect(utc('Europe/London', instantToWall('Europe/London', old).toString())).toBe(old.toString());
  });
});

describe('the start-up self-test of the data', () => {
  const now = instant('2026-11-25T12:00Z');

  it('finds nothing to say about the data that the project ships', () => {
    expect(zoneDataFreshness(now)).toEqual({ version: zoneDataVersion, stale: [], old: false });
    expect(zoneDataVersion >= '2026f').toBe(true);
  });

  it('names each law that older data gets wrong', () => {
    const asIn2025 = (zone: string, at: Temporal.Instant) => {
      const then: Record<string, number> = { 'Africa/Casablanca': 60, 'America/Vancouver': -480 };
      return then[zone] ?? offsetMinutes(zone, at);
    };
    const { stale } = zoneDataFreshness(now, asIn2025, '2025c');
    expect(stale.map((law) => [law.zone, law.offset, law.found, law.release])).toEqual([
      ['America/Vancouver', -420, -480, '2026b'],
      ['Africa/Casablanca', 0, 60, '2026c'],
    ]);
  });

  it('counts a zone that the data lacks as stale instead of failing', () => {
    const empty = () => {
      throw new RangeError('unknown time zone');
    };
    const { stale } = zoneDataFreshness(now, empty);
    expect(stale.length).toBeGreaterThan(4);
    expect(stale.every((law) => law.found === null)).toBe(true);
  });

  it('calls data old once a whole year has passed without a new release, or when the version is unreadable', () => {
    const old = (version: string, at: string) => zoneDataFreshness(instant(at), undefined, version).old;
    expect(old('2026f', '2027-12-31T23:59Z')).toBe(false);
    expect(old('2026f', '2028-01-01T00:00Z')).toBe(true);
    expect(old('', '2026-11-25T00:00Z')).toBe(true);
  });
});
