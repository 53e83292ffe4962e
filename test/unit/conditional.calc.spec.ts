// Who has a file already: RFC 9110 sections 8.8.2, 13.1 and 13.2.
import { describe, expect, test } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { hasAlready, httpDateOf, lastOf } from '../../src/calendar/conditional.calc.js';

const at = (text: string) => Temporal.Instant.from(text);
/** The date that RFC 9110 5.6.7 writes in its three forms. */
const CHANGED = '1994-11-06T08:49:37Z';
const file = { etag: 'abc', changedAt: () => at(CHANGED) };
const since = (date: string, changedAt: string | null = CHANGED) =>
  hasAlready(
    { 'if-modified-since': date },
    { etag: 'abc', changedAt: () => (changedAt ? at(changedAt) : null) },
  );

describe('whoever asks with a tag', () => {
  test.each(['"abc"', 'W/"abc"', '"x", W/"abc"', '"x","abc","y"', '*', ' * '])('has it by %s', (tags) => {
    expect(hasAlready({ 'if-none-match': tags }, file)).toBe(true);
  });
  test.each(['"ab"', 'abc', '', 'W/"x"', 'w/"abc"', '"ABC"'])('does not have it by %j', (tags) => {
    expect(hasAlready({ 'if-none-match': tags }, file)).toBe(false);
  });
  test('is answered by the tag alone, whatever date stands beside it', () => {
    const dated = { 'if-modified-since': 'Sun, 06 Nov 2044 08:49:37 GMT' };
    expect(hasAlready({ 'if-none-match': '"old"', ...dated }, file)).toBe(false);
    expect(hasAlready({ 'if-none-match': '', ...dated }, file)).toBe(false);
  });
});

describe('whoever asks with a date', () => {
  test.each(['Sun, 06 Nov 1994 08:49:37 GMT', 'Sunday, 06-Nov-94 08:49:37 GMT', 'Sun Nov  6 08:49:37 1994'])(
    'has it by %s, and not once it changed a second later',
    (date) => {
      expect(since(date)).toBe(true);
      expect(since(date, '1994-11-06T08:49:37.999Z')).toBe(true);
      expect(since(date, '1994-11-06T08:49:38Z')).toBe(false);
      expect(since(date, null)).toBe(false);
    },
  );
  test.each([
    '',
    'yesterday',
    '1994-11-06T08:49:37Z',
    'Sun, 06 Nov 2044',
    'Sun, 66 Nov 2044 08:49:37 GMT',
    '4',
  ])('is sent it where the date is none: %j', (date) => expect(since(date)).toBe(false));
  test('is told the date in the form that is to be written', () => {
    expect(httpDateOf(at('1994-11-06T08:49:37.900Z'))).toBe('Sun, 06 Nov 1994 08:49:37 GMT');
  });
});

test('a file changed last when the last of all that changes it did, and is not dated before that second is over', () => {
  const changes = [at('2027-03-01T00:00:00Z'), at('2027-03-01T09:30:00.250Z')];
  const last = (now: string) => lastOf(changes, at(now))?.toString();
  expect(last('2027-03-01T09:30:01Z')).toBe('2027-03-01T09:30:00.25Z');
  expect(last('2027-03-01T09:30:00.999Z')).toBeUndefined();
  expect(last('2027-03-01T08:00:00Z')).toBeUndefined(); // acts in one second are dated one after the other
});
