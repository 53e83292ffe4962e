// Expected waits against tables of the gamma distribution, Little's law, and a stream of places drawn by chance.
import { describe, expect, it } from '@jest/globals';
import {
  acceptedShare,
  expectedWait,
  givenBackShare,
  MOST_MONTHS,
  placesToCome,
  waitQuantile,
} from '../../src/waiting/wait.calc.js';

/**
 * Quantiles of chi-square with 2n degrees of freedom, twice those of Gamma(n, 1): the table of every textbook (E. S.
 * Pearson and H. O. Hartley, Biometrika Tables for Statisticians, vol. 1, table 8; figures from memory).
 */
const TABLE = [
  { n: 1, q10: 0.211, q50: 1.386, q80: 3.219, q90: 4.605, q95: 5.991 },
  { n: 2, q10: 1.064, q50: 3.357, q80: 5.989, q90: 7.779, q95: 9.488 },
  { n: 3, q10: 2.204, q50: 5.348, q80: 8.558, q90: 10.645, q95: 12.592 },
  { n: 5, q10: 4.865, q50: 9.342, q80: 13.442, q90: 15.987, q95: 18.307 },
];

describe('the wait for the n-th of evenly coming places', () => {
  it.each(TABLE)('is that of the tables for n = $n', ({ n, ...expected }) => {
    for (const [name, value] of Object.entries(expected))
      expect(2 * waitQuantile(n, [1], Number(name.slice(1)) / 100)).toBeCloseTo(value, 2);
  });

  it('is shorter by as much as more places come', () => {
    // Third in line, two places a month of which 70 % are taken: half wait under 1.9 months, 90 % under 3.8.
    expect(waitQuantile(3, [1.4], 0.5)).toBeCloseTo(1.91, 2);
    expect(waitQuantile(3, [1.4], 0.9)).toBeCloseTo(3.8, 2);
  });

  it('has the mean of Little’s law: 12 waiting, 3 places a month, 4 months', () => {
    const steps = 4000;
    const all = Array.from({ length: steps }, (_, at) => waitQuantile(12, [3], (at + 0.5) / steps));
    expect(all.reduce((sum, one) => sum + one, 0) / steps).toBeCloseTo(4, 2);
  });
});

describe('the wait where places come by season', () => {
  it('stands still in months without places', () => {
    // Half a year of darkness: whatever would come in its first month comes in the seventh.
    expect(waitQuantile(1, [0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1], 0.5)).toBeCloseTo(6 + Math.LN2, 2);
  });

  it('goes through the year again and again', () => {
    // 6 places a year; the median of the 10th is 9.669 places: one whole year and 3.669 of the next.
    expect(waitQuantile(10, [0, 0, 0, 2, 2, 2], 0.5)).toBeCloseTo(6 + 3 + 3.669 / 2, 2);
  });

  it('is the same for even months, however they are cut', () => {
    expect(waitQuantile(7, Array(12).fill(1.5), 0.8)).toBeCloseTo(waitQuantile(7, [1.5], 0.8), 10);
  });

  it('agrees with places drawn by chance', () => {
    const rates = [0.2, 0.5, 1.5, 3, 3, 2.5, 2, 2, 1.5, 1, 0.4, 0.1];
    const chance = sequence(20_261_125);
    const drawn = Array.from({ length: 1500 }, () => drawWait(4, rates, chance)).sort((a, b) => a - b);
    for (const share of [0.1, 0.5, 0.9]) {
      const below = drawn.filter((one) => one <= waitQuantile(4, rates, share)).length / drawn.length;
      expect(Math.abs(below - share)).toBeLessThan(4 * Math.sqrt((share * (1 - share)) / drawn.length));
    }
  });
});

describe('what is told of a wait', () => {
  it('is a range of whole months, rounded outwards', () => {
    expect(expectedWait(3, [1.4])).toEqual({ ok: true, from: 0, to: 4 }); // 0.79 to 3.80
    expect(expectedWait(5, [1])).toEqual({ ok: true, from: 2, to: 8 });
    expect(expectedWait(1, [100])).toEqual({ ok: true, from: 0, to: 1 });
  });

  it('is nothing where no place is in sight, or none for years', () => {
    expect(expectedWait(1, [])).toEqual({ ok: false, reason: 'too few places' });
    expect(expectedWait(1, [0, 0, 0])).toEqual({ ok: false, reason: 'too few places' });
    expect(expectedWait(100, [100 / MOST_MONTHS])).toEqual({ ok: false, reason: 'too few places' });
  });

  it('never shrinks for who stands farther back', () => {
    const rates = [2, 0, 1, 3];
    const to = Array.from({ length: 30 }, (_, at) => waitQuantile(at + 1, rates, 0.9));
    expect([...to].sort((a, b) => a - b)).toEqual(to);
  });
});

describe('the places to come', () => {
  const none = { offersAnswered: 0, offersAccepted: 0, placesGiven: 0, placesGivenBack: 0 };

  it('go by 7 offers of 10 accepted and one place of 10 given back until the studio has its own figures', () => {
    expect([acceptedShare(none), givenBackShare(none)]).toEqual([0.7, 0.1]);
    expect(
      placesToCome(
        [
          { open: 4, given: 10 },
          { open: 0, given: 0 },
        ],
        none,
      ),
    ).toEqual([3.5, 0]);
  });

  it('go half by the studio’s own once ten were seen', () => {
    const seen = { offersAnswered: 10, offersAccepted: 3, placesGiven: 10, placesGivenBack: 3 };
    expect([acceptedShare(seen), givenBackShare(seen)]).toEqual([0.5, 0.2]);
  });
});

/** A stream of numbers between 0 and 1: mulberry32. */
function sequence(start: number): () => number {
  let state = start;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** Months until n places have come, by small steps of time: each brings one with its chance. */
function drawWait(n: number, rates: number[], chance: () => number): number {
  const step = 0.01;
  let come = 0;
  for (let at = 0; ; at += step) {
    if (chance() < (rates[Math.floor(at) % rates.length] ?? 0) * step) come += 1;
    if (come === n) return at;
  }
}
