import fc from 'fast-check';
import { estimateNeeds, quantitiesToReserve, useWithFormula } from '../../src/chemistry/estimate.calc.js';
import { STARTER_PLATE_SIZES } from '../../src/chemistry/plate-sizes.calc.js';
import { silverNitratePerMl } from '../../src/chemistry/stoichiometry.calc.js';
import {
  type AttemptRule,
  BEGINNER_ATTEMPTS,
  DEFAULT_USE,
  SITTING_ATTEMPTS,
} from '../../src/chemistry/use-per-area.calc.js';

const rule = (keeperShare: number, stopAfter: number | null = null): AttemptRule => ({
  keeperShare,
  stopAfter,
  source: 'test',
});
const size = (key: string, keepers: number) => {
  const starter = STARTER_PLATE_SIZES.find((s) => s.key === key);
  if (!starter) throw new Error(`No size ${key}`);
  return { widthMm: starter.widthMm, heightMm: starter.heightMm, keepers };
};

// B. Cuyler, "Amount of Silver Nitrate Used Per Plate", UV Photographics blog, 14 January 2026: the low figures of
// 4 x 5, 5 x 7 and 8 x 10. Wilson's Photographics (1881), "about ten grains a plate" of 7 1/2 x 7 1/2 in: the high one.
test.each([
  ['4x5', 180, 246],
  ['5x7', 315, 431],
  ['8x10', 720, 984],
  ['half-american', 211, 288],
  ['whole', 498, 680],
])('silver nitrate for one plate of %s is %d to %d mg', (key, low, high) => {
  const { total } = estimateNeeds([size(key, 1)], DEFAULT_USE, rule(1)).silverNitrate;
  expect([total.low, total.high]).toEqual([BigInt(low), BigInt(high)]);
});

test('silver of the measured plates is within two per cent of the measurement', () => {
  for (const [key, measuredMg] of [
    ['4x5', 180],
    ['5x7', 310],
    ['8x10', 720],
  ] as const) {
    const { total } = estimateNeeds([size(key, 1)], DEFAULT_USE, rule(1)).silverNitrate;
    expect(Math.abs(Number(total.low) / measuredMg - 1)).toBeLessThan(0.02);
  }
  const wilson = { widthMm: 190.5, heightMm: 190.5, keepers: 180 };
  const { total } = estimateNeeds([wilson], DEFAULT_USE, rule(1)).silverNitrate;
  expect(Math.abs(Number(total.high) / (1920 * 64.79891) - 1)).toBeLessThan(0.02);
});

test('the film takes up only part of the silver, and its strength is that of the two formulas named', () => {
  const { total, inFilm } = estimateNeeds([size('4x5', 1)], DEFAULT_USE, rule(1)).silverNitrate;
  expect(inFilm).toEqual({ low: 39n, likely: 64n, ninety: 64n, high: 94n }); // 3 to 5 mL at 12.9 to 18.7 mg
  expect(inFilm.high).toBeLessThan(total.low);
  const estabrooke = silverNitratePerMl({
    salts: [
      { salt: 'ammonium iodide', mg: 3888n },
      { salt: 'cadmium iodide', mg: 1944n },
      { salt: 'cadmium bromide, tetrahydrate', mg: 1296n },
    ],
    volumeUl: 591_471n,
  });
  expect(estabrooke).toBeCloseTo(Number(DEFAULT_USE.silverPerMlCollodion.low) / 1000, 1);
});

// Wilson's Photographics (1881), par. 131, tetrahydrate: 17.53 mg of silver nitrate for each millilitre left on a plate.
test("the studio's own formula says what its film takes up, and moves nothing else", () => {
  const own = useWithFormula(DEFAULT_USE, {
    salts: [
      { salt: 'cadmium iodide', mg: 8748n },
      { salt: 'potassium iodide', mg: 4536n },
      { salt: 'cadmium bromide, tetrahydrate', mg: 4536n },
      { salt: 'ammonium iodide', mg: 778n },
    ],
    volumeUl: 1_035_074n,
  });
  if (!own) throw new Error('This formula has a volume.');
  expect(Number(own.silverPerMlCollodion.likely) / 17_530).toBeCloseTo(1, 2);
  const [usual, with4x5] = [DEFAULT_USE, own].map((use) => estimateNeeds([size('4x5', 1)], use, rule(1)));
  expect(with4x5?.silverNitrate.inFilm.likely).toBe(71n); // 4 mL at 17.53 mg, rounded up
  expect({ ...with4x5?.silverNitrate, inFilm: null }).toEqual({ ...usual?.silverNitrate, inFilm: null });
  expect(with4x5?.solutions).toEqual(usual?.solutions);
  expect(useWithFormula(DEFAULT_USE, { salts: [], volumeUl: 0n })).toBeNull();
});

test('glass and metal of one measure are counted apart, and their failures together', () => {
  const plates = ['clear glass', 'black-lacquered metal'].map((sizeId) => ({ ...size('4x5', 2), sizeId }));
  const needs = estimateNeeds(plates, DEFAULT_USE, SITTING_ATTEMPTS);
  expect(needs.glass.map(({ sizeId, sheets }) => [sizeId, sheets.likely])).toEqual([
    ['clear glass', 3n],
    ['black-lacquered metal', 3n],
  ]);
  expect(needs.solutions).toEqual(estimateNeeds([size('4x5', 4)], DEFAULT_USE, SITTING_ATTEMPTS).solutions);
});

test('three whole plates of a sitting: sheets and solutions, set aside by either choice', () => {
  const needs = estimateNeeds([size('whole', 3)], DEFAULT_USE, SITTING_ATTEMPTS);
  expect(needs.glass).toEqual([
    { widthMm: 165.1, heightMm: 215.9, keepers: 3, sheets: { low: 3n, likely: 4n, ninety: 6n, high: 6n } },
  ]);
  // 55.25 square inches x tries x microlitres per square inch, rounded up once
  expect(needs.solutions.collodion).toEqual({
    low: 24_863n,
    likely: 44_200n,
    ninety: 66_300n,
    high: 82_875n,
  });
  expect(quantitiesToReserve(needs, 'likely')).toEqual({
    glass: [{ widthMm: 165.1, heightMm: 215.9, sheets: 4n }],
    solutions: { collodion: 44_200n, developer: 276_250n, fixer: 552_500n, varnish: 27_625n },
  });
  expect(quantitiesToReserve(needs, 'ninety').glass[0]?.sheets).toBe(6n);
});

test('plates of one size are taken together, so their failures are shared', () => {
  const six = [1, 1, 1, 1, 1, 1].map(() => size('4x5', 1));
  expect(estimateNeeds(six, DEFAULT_USE, BEGINNER_ATTEMPTS)).toEqual(
    estimateNeeds([size('4x5', 6)], DEFAULT_USE, BEGINNER_ATTEMPTS),
  );
  expect(estimateNeeds([], DEFAULT_USE, BEGINNER_ATTEMPTS).solutions.fixer.high).toBe(0n);
});

test('with two sizes the ninety quantity holds in at least nine cases of ten, counted out', () => {
  const share = 0.7;
  const needs = estimateNeeds([size('whole', 2), size('half-american', 3)], DEFAULT_USE, rule(share));
  const chance = (keepers: number, failures: number): number => {
    let ways = 1;
    for (let i = 1; i <= failures; i += 1) ways = (ways * (keepers - 1 + i)) / i;
    return ways * share ** keepers * (1 - share) ** failures;
  };
  const heldBy = (quantity: bigint): number => {
    let held = 0;
    for (let whole = 0; whole < 60; whole += 1)
      for (let half = 0; half < 60; half += 1) {
        const used = ((2 + whole) * 55.25 + (3 + half) * 23.375) * 200;
        if (used <= Number(quantity)) held += chance(2, whole) * chance(3, half);
      }
    return held;
  };
  expect(heldBy(needs.solutions.collodion.ninety)).toBeGreaterThanOrEqual(0.9);
  expect(heldBy(needs.solutions.collodion.likely)).toBeGreaterThan(0.4);
  expect(heldBy(needs.solutions.collodion.likely)).toBeLessThan(0.7);
});

test('low, likely, ninety and high are in order, and more plates never need less', () => {
  const plates = fc.array(
    fc.record({
      key: fc.constantFrom(...STARTER_PLATE_SIZES.map(({ key }) => key)),
      keepers: fc.integer({ min: 1, max: 20 }),
    }),
    { maxLength: 4 },
  );
  const attempts = fc.record({
    keeperShare: fc.integer({ min: 5, max: 100 }).map((n) => n / 100),
    stopAfter: fc.option(fc.integer({ min: 1, max: 4 })),
    source: fc.constant('test'),
  });
  fc.assert(
    fc.property(plates, attempts, (wanted, by) => {
      const list = wanted.map(({ key, keepers }) => size(key, keepers));
      const needs = estimateNeeds(list, DEFAULT_USE, by);
      const more = estimateNeeds([...list, size('quarter', 1)], DEFAULT_USE, by);
      for (const { low, likely, ninety, high } of [
        ...Object.values(needs.solutions),
        ...needs.glass.map(({ sheets }) => sheets),
      ]) {
        expect([low, likely, ninety, high]).toEqual(
          [low, likely, ninety, high].sort((a, b) => (a < b ? -1 : 1)),
        );
      }
      for (const kind of ['collodion', 'developer', 'fixer', 'varnish'] as const)
        for (const figure of ['low', 'ninety', 'high'] as const)
          expect(more.solutions[kind][figure]).toBeGreaterThan(needs.solutions[kind][figure]);
    }),
  );
});

test('a size, number or range out of bounds is a programming error', () => {
  const use = (low: bigint) => ({ ...DEFAULT_USE, silverNitrate: { ...DEFAULT_USE.silverNitrate, low } });
  expect(() => estimateNeeds([{ widthMm: 0, heightMm: 1, keepers: 1 }], DEFAULT_USE, rule(1))).toThrow(
    RangeError,
  );
  expect(() => estimateNeeds([size('whole', 0)], DEFAULT_USE, rule(1))).toThrow(RangeError);
  expect(() => estimateNeeds([size('whole', 900), size('whole', 101)], DEFAULT_USE, rule(1))).toThrow(
    RangeError,
  );
  expect(() => estimateNeeds([], use(20_000n), rule(1))).toThrow(RangeError);
  expect(() => estimateNeeds([], use(-1n), rule(1))).toThrow(RangeError);
});
