// A studio's own figures by what it wrote down, weighed against the usual ones by the stated rule.
import fc from 'fast-check';
import { attemptsFor } from '../../src/chemistry/attempts.calc.js';
import { estimateNeeds } from '../../src/chemistry/estimate.calc.js';
import { type DayActuals, intraclass, ownFigures } from '../../src/chemistry/learning.calc.js';
import { UM2_PER_SQUARE_INCH } from '../../src/chemistry/plate-sizes.calc.js';
import { DEFAULT_USE, SITTING_ATTEMPTS } from '../../src/chemistry/use-per-area.calc.js';

const FOUR_BY_FIVE = 20n * UM2_PER_SQUARE_INCH;
const day = (tries: number, keepers: number, used: DayActuals['used'] = {}): DayActuals => ({
  madeBy: 'sittings',
  plates: [{ areaUm2: FOUR_BY_FIVE, tries, keepers }],
  used,
});

test('without a day the figures are the usual ones, with all the weight', () => {
  const { use, attempts, learnedUse, learnedShare } = ownFigures([]);
  expect(use).toEqual(DEFAULT_USE);
  expect(attempts.sittings).toEqual({ ...SITTING_ATTEMPTS, sameDay: 0 });
  expect(learnedUse.collodion).toEqual({ usual: 200, own: null, count: 0, usualWeight: 1, figure: 200 });
  expect(learnedShare.beginners.figure).toBe(0.55);
});

// By hand: 10 and 30 plates of 20 square inches took 60 and 180 mL, 300 microlitres by square inch. Usual: 200 as 5 days.
test('two days of collodion move it from 200 by two sevenths of the way to their own 300', () => {
  const { learnedUse, use } = ownFigures([
    day(10, 8, { collodion: 60_000n }),
    day(30, 20, { collodion: 180_000n }),
  ]);
  expect(learnedUse.collodion).toMatchObject({ own: 300, count: 2 });
  expect(learnedUse.collodion.usualWeight).toBeCloseTo(5 / 7, 12);
  expect(learnedUse.collodion.figure).toBeCloseTo((5 * 200 + 2 * 300) / 7, 9);
  expect(use.solutions.collodion).toMatchObject({ low: 172n, likely: 229n, high: 286n }); // 150 : 200 : 250
  expect(use.solutions.developer).toEqual(DEFAULT_USE.solutions.developer);
});

test('silver is learned in micrograms by what the bath lost', () => {
  // 2.4 g for 10 plates of 20 square inches: 12,000 micrograms each
  const { learnedUse, use } = ownFigures([day(10, 8, { silver: 2_400n })]);
  expect(learnedUse.silver).toMatchObject({ usual: 10_600, own: 12_000, count: 1 });
  expect(use.silverNitrate.likely).toBe(10_833n); // (5 x 10,600 + 12,000) / 6
});

test('a day without plates, or without a use told, teaches nothing of it', () => {
  const none = { madeBy: 'sittings', plates: [], used: { collodion: 90_000n } } as const;
  expect(ownFigures([none, day(4, 4)]).learnedUse.collodion.own).toBeNull();
  expect(ownFigures([day(3, 3, { collodion: 0n })]).learnedUse.collodion.own).toBe(0);
});

// Beta-Binomial by hand: (30 x 0.7 + 18) / (30 + 20).
test('eighteen kept of twenty make a share of 0.78, and beginners are counted apart', () => {
  const { attempts, learnedShare } = ownFigures([
    day(12, 11),
    day(8, 7),
    { ...day(10, 2), madeBy: 'beginners' },
  ]);
  expect(learnedShare.sittings).toMatchObject({ own: 0.9, count: 20, usualWeight: 0.6 });
  expect(attempts.sittings.keeperShare).toBeCloseTo(0.78, 12);
  expect(attempts.sittings.stopAfter).toBe(3);
  expect(attempts.beginners.keeperShare).toBeCloseTo((30 * 0.55 + 2) / 40, 12);
});

describe('bad days', () => {
  // Analysis of variance, worked in Python's floats outside this program.
  const DAYS = [
    [6, 6],
    [5, 1],
    [8, 6],
    [4, 4],
    [6, 3],
    [7, 0],
  ] as const;

  it('show in how alike the plates of a day are', () => {
    const counts = DAYS.map(([tries, keepers]) => ({ tries, keepers }));
    expect(intraclass(counts)).toBeCloseTo(0.5420139671, 9);
    const { learnedSameDay, attempts } = ownFigures(DAYS.map(([tries, keepers]) => day(tries, keepers)));
    expect(learnedSameDay.sittings.usualWeight).toBeCloseTo(10 / 16, 12);
    expect(attempts.sittings.sameDay).toBeCloseTo((6 / 16) * 0.5420139671, 9);
    const apart = { ...attempts.sittings, sameDay: 0, stopAfter: null };
    const together = { ...attempts.sittings, stopAfter: null };
    expect(attemptsFor(6, together, 0.9)).toBeGreaterThan(attemptsFor(6, apart, 0.9));
  });

  it('show nowhere in days that are all alike, and cannot be told from one', () => {
    expect(intraclass([1, 2, 3].map(() => ({ tries: 4, keepers: 3 })))).toBe(0);
    expect(intraclass([{ tries: 9, keepers: 3 }])).toBeNull();
    expect(intraclass([1, 2].map(() => ({ tries: 1, keepers: 1 })))).toBeNull();
    expect(intraclass([1, 2].map(() => ({ tries: 5, keepers: 5 })))).toBeNull();
  });
});

test('a figure lies between the usual and the own, and an estimate can be made with whatever was learned', () => {
  const days = fc.array(
    fc
      .record({
        madeBy: fc.constantFrom('sittings' as const, 'beginners' as const),
        tries: fc.integer({ min: 0, max: 40 }),
        kept: fc.double({ min: 0, max: 1, noNaN: true }),
        collodion: fc.option(fc.bigInt({ min: 0n, max: 5_000_000n }), { nil: undefined }),
      })
      .map(({ madeBy, tries, kept, collodion }) => ({
        ...day(tries, Math.floor(tries * kept), collodion === undefined ? {} : { collodion }),
        madeBy,
      })),
    { maxLength: 30 },
  );
  fc.assert(
    fc.property(days, (recorded) => {
      const own = ownFigures(recorded);
      for (const { usual, own: alone, figure } of [
        ...Object.values(own.learnedUse),
        ...Object.values(own.learnedShare),
      ]) {
        expect(figure).toBeGreaterThanOrEqual(Math.min(usual, alone ?? usual) - 1e-9);
        expect(figure).toBeLessThanOrEqual(Math.max(usual, alone ?? usual) + 1e-9);
      }
      const plates = [{ widthMm: 101.6, heightMm: 127, keepers: 3 }];
      for (const rule of Object.values(own.attempts)) {
        const { low, likely, ninety, high } = estimateNeeds(plates, own.use, rule).solutions.collodion;
        expect(low <= likely && likely <= ninety && ninety <= high).toBe(true);
      }
    }),
  );
});
