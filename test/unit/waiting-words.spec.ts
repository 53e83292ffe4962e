// The reasons of the waiting list in plain words.
import { expect, it } from '@jest/globals';
import { reasonInWords } from '../../src/waiting/words.calc.js';

it.each([
  [0, 'asked today'],
  [1, 'asked one day ago'],
  [59, 'asked 59 days ago'],
  [60, 'asked one month ago'],
  [61, 'asked 2 months ago'],
])('tells that somebody asked %i days ago', (days, words) => {
  expect(reasonInWords({ what: 'asked', days, points: 0 })).toBe(words);
});

it.each([
  [1, 'needs one day’s notice'],
  [14, 'needs 14 days’ notice'],
])('tells that somebody needs %i days to come', (noticeDays, words) => {
  expect(reasonInWords({ what: 'far', noticeDays, points: 0 })).toBe(words);
});
