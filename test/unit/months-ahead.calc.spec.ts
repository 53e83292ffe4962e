// The places of the months ahead, counted by hand.
import { describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { monthsOfPlaces } from '../../src/sittings/months-ahead.calc.js';

const day = (text: string) => Temporal.PlainDate.from(text);
const at = (text: string) => Temporal.Instant.from(text);
const TODAY = day('2026-11-25');

const slot = (date: string, from: string, until: string, closed: string | null = null) => ({
  closed,
  startsAt: at(`${date}T${from}Z`),
  busyUntil: at(`${date}T${until}Z`),
});

describe('the months ahead', () => {
  it('begin today, and each ends on the same day of the month', () => {
    const given = ['2026-12-24', '2026-12-25', '2027-01-24', '2027-02-24'].map(day);
    const months = monthsOfPlaces(TODAY, day('2027-02-25'), [], given);
    expect(months.map((month) => month.given)).toEqual([1, 2, 1]);
  });

  it('count what is open and not what is closed', () => {
    const days = [
      {
        date: day('2026-12-04'),
        openings: [
          slot('2026-12-04', '09:30', '11:15'),
          slot('2026-12-04', '11:15', '13:00', 'room taken'),
          slot('2026-12-04', '13:00', '14:45'),
        ],
      },
      { date: day('2027-01-08'), openings: [slot('2027-01-08', '09:30', '11:15')] },
    ];
    expect(monthsOfPlaces(TODAY, day('2027-01-25'), days, [])).toEqual([
      { open: 2, given: 0 },
      { open: 1, given: 0 },
    ]);
  });

  it('count starts that take each other’s time as those that fit one after the other', () => {
    const date = '2026-12-04';
    const openings = [
      slot(date, '09:00', '10:45'),
      slot(date, '09:30', '11:15'),
      slot(date, '10:00', '11:45'),
      slot(date, '10:45', '12:30'),
    ];
    expect(monthsOfPlaces(TODAY, day('2026-12-25'), [{ date: day(date), openings }], [])).toEqual([
      { open: 2, given: 0 },
    ]);
  });

  it('leave out what lies before today or beyond the last', () => {
    const given = ['2026-11-20', '2027-01-30'].map(day);
    expect(monthsOfPlaces(TODAY, day('2026-12-25'), [], given)).toEqual([{ open: 0, given: 0 }]);
  });
});
