// Tries for plates kept: negative binomial, and beta negative binomial where plates of a day fail together.
import { attemptsFor } from '../../src/chemistry/attempts.calc.js';
import type { AttemptRule } from '../../src/chemistry/use-per-area.calc.js';

const rule = (keeperShare: number, stopAfter: number | null = null, sameDay = 0): AttemptRule => ({
  keeperShare,
  stopAfter,
  sameDay,
  source: 'test',
});

// scipy.stats.nbinom.ppf of SciPy 1.17.1, at 0.5 and 0.9: failures before so many keepers.
test.each([
  [1, 0.1, 6, 21],
  [1, 0.3, 1, 6],
  [1, 0.55, 0, 2],
  [1, 0.7, 0, 1],
  [2, 0.3, 4, 10],
  [3, 0.7, 1, 3],
  [6, 0.1, 51, 85],
  [6, 0.55, 4, 9],
  [10, 0.7, 4, 8],
  [24, 0.3, 55, 74],
  [24, 0.9, 2, 5],
  [100, 0.1, 897, 1023],
  [100, 0.7, 43, 53],
  [1000, 0.1, 8997, 9386],
  [1000, 0.55, 818, 868],
])('%d kept of a share of %d: the failures before them as SciPy has them', (keepers, share, half, ninety) => {
  expect(attemptsFor(keepers, rule(share), 0.5)).toBe(keepers + half);
  expect(attemptsFor(keepers, rule(share), 0.9)).toBe(keepers + ninety);
});

/** Least tries with P(done) >= certainty, summed in exact fractions: share = of/20, certainty = hundredths. */
function attemptsExactly(keepers: number, of20: number, hundredths: number): number {
  const [p, q] = [BigInt(of20), BigInt(20 - of20)];
  let ways = 1n; // C(tries - 1, keepers - 1)
  let done = 0n; // over 20^tries
  for (let tries = keepers; ; tries += 1) {
    const failures = BigInt(tries - keepers);
    done = done * (tries === keepers ? 1n : 20n) + ways * p ** BigInt(keepers) * q ** failures;
    if (done * 100n >= BigInt(hundredths) * 20n ** BigInt(tries)) return tries;
    ways = (ways * BigInt(tries)) / BigInt(tries - keepers + 1);
  }
}

test('tries for keepers agree with exact fractions', () => {
  for (const keepers of [1, 2, 3, 5, 8, 13, 24, 60])
    for (let of20 = 1; of20 <= 20; of20 += 1)
      for (const hundredths of [50, 90])
        expect([keepers, of20, hundredths, attemptsFor(keepers, rule(of20 / 20), hundredths / 100)]).toEqual([
          keepers,
          of20,
          hundredths,
          attemptsExactly(keepers, of20, hundredths),
        ]);
});

test('one plate at nine in ten is one sheet for nine cases of ten, in spite of binary fractions', () => {
  expect(attemptsFor(1, rule(0.9), 0.9)).toBe(1);
  expect(attemptsFor(1, rule(0.5), 0.5)).toBe(1);
});

test('one stops after the third try', () => {
  expect(attemptsFor(1, rule(0.3), 0.9)).toBe(7);
  expect(attemptsFor(1, rule(0.3, 3), 0.9)).toBe(3);
});

test('a rule nobody can follow is a programming error', () => {
  const wrong: [number, AttemptRule, number][] = [
    [0, rule(0.5), 0.9],
    [1.5, rule(0.5), 0.9],
    [1, rule(0), 0.9],
    [1, rule(1.01), 0.9],
    [1, rule(Number.NaN), 0.9],
    [1, rule(0.5, 0), 0.9],
    [1, rule(0.5), 1],
  ];
  for (const [keepers, attempts, certainty] of wrong)
    expect(() => attemptsFor(keepers, attempts, certainty)).toThrow(RangeError);
});

describe('plates that fail together', () => {
  // Terms of scipy.stats.betanbinom of SciPy 1.17.1, with a and b of the mean and correlation given, added up to 0.5 and 0.9.
  it.each([
    [1, 0.7, 0.05, 0, 2],
    [1, 0.55, 0.1, 0, 3],
    [1, 0.9, 0.25, 0, 0],
    [2, 0.7, 0.2, 0, 4],
    [2, 0.3, 0.1, 4, 17],
    [3, 0.7, 0.2, 1, 5],
    [3, 0.3, 0.1, 7, 24],
    [6, 0.7, 0.05, 2, 6],
    [6, 0.55, 0.1, 4, 13],
    [12, 0.7, 0.2, 4, 19],
    [12, 0.9, 0.25, 0, 6],
    [40, 0.7, 0.05, 16, 33],
    [40, 0.55, 0.1, 32, 80],
    [40, 0.3, 0.1, 100, 292],
  ])('%d kept of %d, alike by %d', (keepers, share, sameDay, half, ninety) => {
    expect(attemptsFor(keepers, rule(share, null, sameDay), 0.5)).toBe(keepers + half);
    expect(attemptsFor(keepers, rule(share, null, sameDay), 0.9)).toBe(keepers + ninety);
  });

  it('come to the same as plates on their own when they are hardly alike', () => {
    for (const keepers of [1, 6, 24])
      for (const certainty of [0.5, 0.9])
        expect(attemptsFor(keepers, rule(0.7, null, 0.0051), certainty)).toBeLessThanOrEqual(
          attemptsFor(keepers, rule(0.7), certainty) + 1,
        );
  });

  it('stop after so many tries each, as others do, and end somewhere in any case', () => {
    expect(attemptsFor(1, rule(0.3, 3, 0.2), 0.9)).toBe(3);
    expect(attemptsFor(2, rule(0.05, null, 0.5), 0.99)).toBe(100);
    expect(attemptsFor(1000, rule(0.7, null, 0.2), 0.9)).toBeGreaterThan(attemptsFor(1000, rule(0.7), 0.9));
  });

  it('are alike by nothing to one half', () => {
    for (const sameDay of [-0.1, 0.51, Number.NaN])
      expect(() => attemptsFor(1, rule(0.7, null, sameDay), 0.9)).toThrow(RangeError);
  });
});
