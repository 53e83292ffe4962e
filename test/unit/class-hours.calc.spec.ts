// At what hours a class is held: which are plain, which are asked about, which cannot be.
import { Temporal } from 'temporal-polyfill';
import { hourProblem } from '../../src/room/class-hours.calc.js';

const of = (from: string, until: string) =>
  hourProblem(
    Temporal.PlainDateTime.from(`2027-04-07T${from}`),
    Temporal.PlainDateTime.from(until.includes('T') ? until : `2027-04-07T${until}`),
  );

it('are those of a day: from six in the morning until ten in the evening nobody is asked', () => {
  expect([of('06:00', '12:00'), of('10:00', '22:00'), of('21:00', '22:00')]).toEqual([null, null, null]);
});

it('are asked about where they begin earlier or end later, until midnight', () => {
  expect([of('05:59', '12:00'), of('00:00', '06:00'), of('10:01', '22:01')]).toEqual(
    Array(3).fill('unusual'),
  );
  expect(of('18:00', '2027-04-08T00:00')).toBe('unusual');
});

it('never run past midnight', () => {
  expect(of('18:01', '2027-04-08T00:01')).toBe('past midnight');
  expect(of('23:30', '2027-04-08T05:30')).toBe('past midnight');
});
