// The owner's letter about the day ahead: when it is due over both changes of the clocks (28 March and 31 October 2027 at
// 01:00 UTC; IANA tz database), what is reason enough for one, and how it reads.
import { describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { dayLetterIn, dueAt, isNews, nextDay, standsNow } from '../../src/reminders/day-letter.calc.js';
import type { DayLetter } from '../../src/reminders/day-letter.schemas.js';

const rule = { hour: 7, on: true };
const day = (text: string) => Temporal.PlainDate.from(text);
const at = (text: string) => Temporal.Instant.from(text);
const ZONE = 'Europe/London';

describe('the letter of the day', () => {
  it('is due at the same hour of the clock all year', () => {
    const due = (date: string) => dueAt(rule, ZONE, day(date)).toString();
    expect([due('2027-03-27'), due('2027-03-28'), due('2027-10-30'), due('2027-10-31')]).toEqual([
      '2027-03-27T07:00:00Z',
      '2027-03-28T06:00:00Z',
      '2027-10-30T06:00:00Z',
      '2027-10-31T07:00:00Z',
    ]);
    // Greenland's clocks skipped 22:00 to 23:00 on 25 March 2023 (IANA tz database, America/Nuuk): 22 is taken as 23
    expect(dueAt({ hour: 22, on: true }, 'America/Nuuk', day('2023-03-25')).toString()).toBe(
      '2023-03-26T01:00:00Z',
    );
  });
  it('comes next today where its hour is ahead, else tomorrow', () => {
    expect(nextDay(rule, ZONE, at('2027-01-11T06:59:59Z')).toString()).toBe('2027-01-11');
    expect(nextDay(rule, ZONE, at('2027-01-11T07:00:00Z')).toString()).toBe('2027-01-12');
    // the date is the studio's
    expect(nextDay(rule, 'Pacific/Auckland', at('2027-01-11T12:00:00Z')).toString()).toBe('2027-01-12');
  });
  it('is dropped when it is late, and looked at again when it is early by the rule as it is now', () => {
    const stands = (now: string, by = rule) => standsNow(by, ZONE, day('2027-01-11'), at(now));
    expect(stands('2027-01-11T06:59:59Z')).toBe('too early');
    expect(stands('2027-01-11T07:00:00Z')).toBe('send');
    expect(stands('2027-01-11T12:00:00Z')).toBe('send');
    expect(stands('2027-01-11T12:00:01Z')).toBe('too late');
    expect(stands('2027-01-11T07:00:00Z', { hour: 18, on: true })).toBe('too early');
    expect(stands('2027-01-11T07:00:00Z', { hour: 7, on: false })).toBe('off');
  });
});

const nothing: DayLetter = {
  studio: { slug: 'loft', name: 'Sandpiper Loft', address: '', email: '', telephone: '', lat: 0, lon: 0 },
  day: '2027-05-06',
  evening: false,
  ...{ today: [], tomorrow: [], due: [], offers: [], calls: [] },
};

describe('what it tells', () => {
  it('is reason enough when it cannot wait; what is due later in the week goes along only', () => {
    expect(isNews(nothing)).toBe(false);
    const by = (date: string) => isNews({ ...nothing, due: [{ what: 'Mix developer', by: date }] });
    expect([by('2027-05-08'), by('2027-05-07'), by('2027-05-01')]).toEqual([false, true, true]);
    const comes = [{ at: '09:30', name: 'Una', learn: null }];
    expect(isNews({ ...nothing, tomorrow: comes })).toBe(true);
    expect(isNews({ ...nothing, calls: [{ name: 'Una', telephone: '1' }] })).toBe(true);
    expect(isNews({ ...nothing, offers: [{ name: 'Una', until: '2027-05-06T18:00' }] })).toBe(true);
  });
  it('reads in one look, with the sheet of the day', () => {
    const letter = dayLetterIn(
      {
        ...nothing,
        tomorrow: [
          { at: '09:30', name: 'Una Marsh', learn: null },
          { at: '13:00', name: 'First Plates', learn: 3 },
        ],
        due: [
          { what: 'Sun and filter Bath A', by: '2027-05-05' },
          { what: 'Mix developer', by: '2027-05-06' },
          { what: 'Order glass', by: '2027-05-10' },
        ],
        offers: [{ name: 'Corin', until: '2027-05-07T18:00' }],
        calls: [
          { name: 'Ada', telephone: '01632 960188' },
          { name: 'Ivo', telephone: null },
        ],
      },
      'https://x.example/desk',
    );
    expect(letter.subject).toBe('This morning at Sandpiper Loft: Thursday 6 May 2027');
    expect(letter.paragraphs).toEqual(['Today nobody comes. Tomorrow 2 places, from 09:30.']);
    expect(letter.facts).toEqual([
      { term: 'Tomorrow', detail: '09:30 Una Marsh; 13:00 First Plates, 3 students' },
      {
        term: 'To be done',
        detail: 'Sun and filter Bath A, late; Mix developer, today; Order glass, by Monday 10 May 2027',
      },
      { term: 'Offers that run out', detail: 'Corin, tomorrow at 18:00' },
      { term: 'To telephone or write to', detail: 'Ada, 01632 960188; Ivo, by letter' },
    ]);
    expect(letter.action?.url).toBe('https://x.example/desk/days/2027-05-07');
  });
});
