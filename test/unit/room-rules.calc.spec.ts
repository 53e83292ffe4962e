// The smaller rules of the room: who is there, who holds still how long, and closures in pieces.
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { isThere, needsHelper } from '../../src/room/attendance.calc.js';
import { overlap, piecesAround } from '../../src/room/pieces.calc.js';
import { DEFAULT_POSE_LIMITS, limitOfPlates, type Poser, tooLong } from '../../src/room/pose.calc.js';

describe('somebody is there', () => {
  const friday = Temporal.PlainDate.from('2027-05-14');
  it('on their weekdays and single days, and never on a day away', () => {
    const on = (weekdays: number[], also: string[] = [], away: string[] = []) =>
      isThere({ weekdays, also, away }, friday);
    expect(on([5])).toBe(true);
    expect(on([4])).toBe(false);
    expect(on([4], ['2027-05-14'])).toBe(true);
    expect(on([5], [], ['2027-05-14'])).toBe(false);
    expect(on([5], ['2027-05-14'], ['2027-05-14'])).toBe(false);
  });
});

describe('a helper is needed', () => {
  const whole = { widthMm: 165.1, heightMm: 215.9 };
  it('for three on a plate, and for a plate larger than a whole plate whichever way it stands', () => {
    expect(needsHelper({ ...whole, people: 2 })).toBe(false);
    expect(needsHelper({ ...whole, people: 3 })).toBe(true);
    expect(needsHelper({ widthMm: 215.9, heightMm: 165.1, people: 1 })).toBe(false);
    expect(needsHelper({ widthMm: 203.2, heightMm: 254, people: 1 })).toBe(true);
    expect(needsHelper({ widthMm: 254, heightMm: 120, people: 1 })).toBe(true);
  });
});

describe('people hold still', () => {
  const adult: Poser = { ageBand: 'adult', headRest: true };
  const freely: Poser = { ageBand: 'adult', headRest: false };
  const boy: Poser = { ageBand: '8 to 14', headRest: true };
  const girl: Poser = { ageBand: 'under 8', headRest: true };
  const limit = (...plates: Poser[][]) => limitOfPlates(plates, DEFAULT_POSE_LIMITS);

  it('as long as the least steady of all on the plates, groups of three less', () => {
    expect(limit([adult])).toBe(20);
    expect(limit([freely])).toBe(10);
    expect(limit([adult, boy])).toBe(8);
    expect(limit([adult], [girl])).toBe(4);
    expect(limit([adult, adult])).toBe(20);
    expect(limit([adult, adult, adult])).toBe(6);
    expect(limit([adult, adult, girl])).toBe(4);
    expect(limit()).toBe(Number.POSITIVE_INFINITY);
  });

  it('too long is told by whole seconds', () => {
    expect(tooLong({ to: 8.4 }, 8)).toBe(false);
    expect(tooLong({ to: 8.5 }, 8)).toBe(true);
  });
});

describe('the pieces of a closure', () => {
  const stretch = (from: number, until: number) => ({
    from: Temporal.Instant.fromEpochMilliseconds(from * 60_000),
    until: Temporal.Instant.fromEpochMilliseconds(until * 60_000),
  });
  const span = fc.tuple(fc.integer({ min: 0, max: 200 }), fc.integer({ min: 1, max: 60 }));

  it('take every minute that nothing else takes, and no other, and never overlap', () => {
    fc.assert(
      fc.property(span, fc.array(span, { maxLength: 8 }), ([from, length], others) => {
        const whole = stretch(from, from + length);
        const standing = others.map(([at, long]) => stretch(at, at + long));
        const pieces = piecesAround(whole, standing);
        for (let minute = 0; minute < 270; minute++) {
          const now = stretch(minute, minute + 1);
          const free = overlap(whole, now) && !standing.some((one) => overlap(one, now));
          expect(pieces.filter((one) => overlap(one, now))).toHaveLength(free ? 1 : 0);
        }
      }),
      { numRuns: 200 },
    );
  });
});
