import ICAL from 'ical.js';
import type { Temporal } from 'temporal-polyfill';
import { UTC_VTIMEZONE, vtimezone } from '../../src/calendar/vtimezone.calc.js';
import { instantToWall, offsetMinutes, transitions, zoneNames } from '../../src/lib/zoned-time.js';
import { at } from '../support/calendar-entries.js';

const linesOf = (zone: string, from: string, to: string) => vtimezone(zone, at(from), at(to)).split('\r\n');
const count = (lines: string[], line: string) => lines.filter((one) => one === line).length;

describe('the VTIMEZONE of a zone', () => {
  // The rules below: European Union directive 2000/84/EC for the last Sundays at 01:00 UTC.
  test('with one yearly pair of rules is written as two RRULEs', () => {
    expect(linesOf('Europe/Berlin', '2027-01-10T00:00:00Z', '2027-12-10T00:00:00Z')).toEqual([
      'BEGIN:VTIMEZONE',
      'TZID:Europe/Berlin',
      'BEGIN:DAYLIGHT',
      'DTSTART:20260329T020000',
      'RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=-1SU',
      'TZOFFSETFROM:+0100',
      'TZOFFSETTO:+0200',
      'TZNAME:CEST',
      'END:DAYLIGHT',
      'BEGIN:STANDARD',
      'DTSTART:20261025T030000',
      'RRULE:FREQ=YEARLY;BYMONTH=10;BYDAY=-1SU',
      'TZOFFSETFROM:+0200',
      'TZOFFSETTO:+0100',
      'TZNAME:CET',
      'END:STANDARD',
      'END:VTIMEZONE',
    ]);
  });

  test('counts weekdays from the start of the month where the last one does not fit', () => {
    // Second Sunday of March and first of November: 15 U.S.C. 260a.
    const lines = linesOf('America/New_York', '2027-07-01T00:00:00Z', '2027-07-02T00:00:00Z');
    expect(lines).toContain('RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=2SU');
    expect(lines).toContain('RRULE:FREQ=YEARLY;BYMONTH=11;BYDAY=1SU');
  });

  test('can move by half an hour', () => {
    const lines = linesOf('Australia/Lord_Howe', '2027-07-01T00:00:00Z', '2027-07-02T00:00:00Z');
    expect(lines).toContain('TZOFFSETFROM:+1100');
    expect(lines).toContain('TZOFFSETTO:+1030');
  });

  test('that never changes is one STANDARD', () => {
    expect(linesOf('Asia/Kathmandu', '2027-01-01T00:00:00Z', '2027-12-01T00:00:00Z')).toEqual([
      'BEGIN:VTIMEZONE',
      'TZID:Asia/Kathmandu',
      'BEGIN:STANDARD',
      'DTSTART:19700101T000000',
      'TZOFFSETFROM:+0545',
      'TZOFFSETTO:+0545',
      'TZNAME:+0545',
      'END:STANDARD',
      'END:VTIMEZONE',
    ]);
  });

  test('whose rules follow the moon has one observance for each change, and no rule', () => {
    // Morocco set its clocks back for each Ramadan until 2026 (tz database, africa).
    const from = '2024-01-10T00:00:00Z';
    const to = '2025-12-20T00:00:00Z';
    const changes = transitions('Africa/Casablanca', at(from), at(to));
    const lines = linesOf('Africa/Casablanca', from, to);
    expect(changes).toHaveLength(4);
    expect(lines.filter((line) => line.startsWith('DTSTART'))).toHaveLength(changes.length + 1);
    expect(lines.join()).not.toMatch(/RRULE|RDATE/u);
  });

  test('reaches a day beyond its span, so that wall times at its edges are clear', () => {
    const edge = at('2025-02-23T02:00:00Z'); // Ramadan 2025 (tz database, africa)
    const onsets = (from: Temporal.Instant, to: Temporal.Instant) =>
      vtimezone('Africa/Casablanca', from, to).match(/DTSTART/gu)?.length;
    const [before, after] = [edge.subtract({ hours: 23 }), edge.add({ hours: 23 })];
    expect(onsets(before.subtract({ hours: 1 }), before)).toBe(2);
    expect(onsets(after, after.add({ hours: 1 }))).toBe(2);
    expect(onsets(after.add({ hours: 2 }), after.add({ hours: 3 }))).toBe(1);
  });

  test('that renames its time without moving clocks is one STANDARD', () => {
    const lines = linesOf('America/Vancouver', '2026-06-10T00:00:00Z', '2027-06-10T00:00:00Z');
    expect(
      transitions('America/Vancouver', at('2026-06-10T00:00:00Z'), at('2027-06-10T00:00:00Z')),
    ).toMatchObject([{ before: -420, after: -420 }]);
    expect(lines.filter((line) => /^(BEGIN|TZOFFSET)/u.test(line))).toEqual([
      'BEGIN:VTIMEZONE',
      'BEGIN:STANDARD',
      'TZOFFSETFROM:-0700',
      'TZOFFSETTO:-0700',
    ]);
  });

  test('writes the seconds of an old offset', () => {
    // Liberia was 44 minutes 30 seconds west until 7 January 1972 (tz database, africa).
    const lines = linesOf('Africa/Monrovia', '1971-06-01T00:00:00Z', '1972-06-01T00:00:00Z');
    expect(lines).toContain('TZOFFSETFROM:-004430');
    expect(lines).toContain('DTSTART:19720107T000000');
  });

  test('is UTC for a file without other components', () => {
    expect(UTC_VTIMEZONE.split('\r\n')).toContain('TZOFFSETTO:+0000');
  });

  test('is refused for a zone nobody knows', () => {
    expect(() => linesOf('Europe/Kittiwake', '2027-01-01T00:00:00Z', '2027-12-01T00:00:00Z')).toThrow(
      RangeError,
    );
  });
});

/** Rules that change offset (Bahía de Banderas), that change hour (Newfoundland), and a fourth Friday near the last. */
const YEARS = ['2009', '2011', '2027'];
if (process.env.PLATEDAY_DEEP) YEARS.push('1974', '1985', '1996', '2005', '2015', '2026', '2033');

describe.each(YEARS)('in all zones of the data, a year from June %s', (year) => {
  const from = at(`${year}-06-10T12:00:00Z`);
  const to = from.add({ hours: 24 * 365 });

  test('has a STANDARD part, and at most one of each kind where it has rules', () => {
    for (const zone of zoneNames()) {
      const lines = vtimezone(zone, from, to).split('\r\n');
      expect(count(lines, 'BEGIN:STANDARD')).toBeGreaterThan(0);
      const rules = lines.filter((line) => line.startsWith('RRULE')).length;
      expect([0, 2]).toContain(rules);
      if (rules === 2)
        expect([count(lines, 'BEGIN:STANDARD'), count(lines, 'BEGIN:DAYLIGHT')]).toEqual([1, 1]);
    }
  });

  test('gives ical.js our offset on both sides of every change and at both ends', () => {
    const wrong: string[] = [];
    for (const zone of zoneNames()) {
      const component = new ICAL.Component(ICAL.parse(vtimezone(zone, from, to)) as unknown[]);
      const timezone = new ICAL.Timezone({ component, tzid: zone });
      const changes = transitions(zone, from, to).flatMap(({ at: change, before, after }) => {
        const moved = Math.abs(after - before);
        return [change.subtract({ minutes: moved + 1 }), change.add({ minutes: moved + 1 })];
      });
      for (const instant of [from, ...changes, to]) {
        if (offsetSeenBy(timezone, instantToWall(zone, instant)) !== offsetMinutes(zone, instant) * 60) {
          wrong.push(`${zone} ${instant}`);
        }
      }
    }
    expect(wrong).toEqual([]);
  });
});

/** Seconds east of UTC that ical.js gives a wall time in the zone. */
function offsetSeenBy(timezone: ICAL.Timezone, wall: Temporal.PlainDateTime): number {
  const { year, month, day, hour, minute, second } = wall;
  return timezone.utcOffset(
    new ICAL.Time({ year, month, day, hour, minute, second, isDate: false }, timezone),
  );
}
