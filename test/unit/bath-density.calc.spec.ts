// The strength of a silver bath by hydrometer and titration, and old measures of it in new ones.
import {
  mgPerLitreOf,
  strengthByChloride,
  strengthByDensity,
  strengthByTitration,
  strengthByVolume,
  strengthByWeight,
} from '../../src/chemistry/bath-density.calc.js';
import { NITRATE_PER_CHLORIDE } from '../../src/chemistry/stoichiometry.calc.js';

const at20 = (density: number) => {
  const answer = strengthByDensity(density, 20);
  if (!answer.ok) throw new Error(answer.reason);
  return answer.strength;
};

// engineeringtoolbox.com, page d_1958: per cent by weight and density at 20 degrees; by volume is their product.
test.each([
  [1, 1.007, 1.01],
  [5, 1.0417, 5.21],
  [10, 1.0882, 10.88],
  [20, 1.1942, 23.9],
  [30, 1.3204, 39.6],
  [40, 1.4743, 59.0],
])('%d g in 100 g has density %d and is %d g in 100 mL, read either way', (byWeight, density, byVolume) => {
  const read = at20(density);
  expect(read.byWeight).toBeCloseTo(byWeight, 6);
  expect(Math.abs(read.byVolume / byVolume - 1)).toBeLessThan(0.005);
  expect(strengthByWeight(byWeight)?.density).toBeCloseTo(density, 9);
  expect(strengthByVolume(read.mgPerLitre)?.byWeight).toBeCloseTo(byWeight, 6);
});

test('the usual bath of 9 g in 100 mL is 8.4 g in 100 g, with a density of 1.073', () => {
  const bath = strengthByVolume(90_000);
  expect(bath?.byWeight).toBeCloseTo(8.4, 1);
  expect(bath?.density).toBeCloseTo(1.073, 3);
  expect(at20(1.0728).byVolume).toBeCloseTo(9, 1);
});

// Old and new measures as printed side by side: grains to the ounce and grams in a litre, American / imperial.
test.each([
  [30, 66, 68],
  [35, 77, 80],
  [40, 88, 91],
  [45, 99, 103],
  [50, 110, 114],
])(
  '%d grains to the ounce are %d g in a litre of an American ounce, %d of an imperial',
  (grains, us, imp) => {
    expect(Math.round(mgPerLitreOf(grains, 'US') / 1000)).toBe(us);
    expect(Math.round(mgPerLitreOf(grains, 'imperial') / 1000)).toBe(imp);
    expect(strengthByVolume(mgPerLitreOf(grains, 'US'))?.grainsPerUsOunce).toBeCloseTo(grains, 9);
    expect(strengthByVolume(mgPerLitreOf(grains, 'imperial'))?.grainsPerImperialOunce).toBeCloseTo(grains, 9);
  },
);

test('one grain in an imperial ounce is 64.79891 mg in 28.4130625 mL', () => {
  expect(mgPerLitreOf(1, 'imperial')).toBeCloseTo((64.79891 / 28.4130625) * 1000, 6);
});

test('density rises with strength all along, also between the lines of the table', () => {
  let before = 0;
  for (let byWeight = 0; byWeight <= 40; byWeight += 0.25) {
    const density = strengthByWeight(byWeight)?.density ?? 0;
    expect(density).toBeGreaterThan(before);
    expect(at20(density).byWeight).toBeCloseTo(byWeight, 6);
    before = density;
  }
});

// Water at 10, 20 and 30 degrees: 0.99970, 0.99821, 0.99565 kg in a litre (Tanaka et al. 2001, their table).
test('a bath read warm or cold is carried over as if it swelled like water', () => {
  for (const [celsius, water] of [
    [10, 0.999702],
    [30, 0.995649],
  ] as const) {
    const answer = strengthByDensity((1.0882 * water) / 0.998207, celsius);
    if (!answer.ok) throw new Error(answer.reason);
    expect(answer.density).toBeCloseTo(1.0882, 4);
    expect(answer.strength.byWeight).toBeCloseTo(10, 2);
  }
  expect(strengthByDensity(0.99821, 20)).toMatchObject({ ok: true });
});

test('a reading that no clean bath gives has its reason', () => {
  expect(strengthByDensity(0.98, 20)).toEqual({ ok: false, reason: 'lighter than water' });
  expect(strengthByDensity(Number.NaN, 20)).toEqual({ ok: false, reason: 'lighter than water' });
  expect(strengthByDensity(1.5, 20)).toEqual({ ok: false, reason: 'heavier than the table' });
  expect(strengthByDensity(1.07, 2)).toEqual({ ok: false, reason: 'too cold or warm' });
  expect([
    strengthByWeight(41),
    strengthByWeight(-1),
    strengthByVolume(-1),
    strengthByVolume(600_000),
  ]).toEqual([null, null, null, null]);
});

// By hand: 26.49 mL of 0.1 mol/L hold 2.649 mmol, times 169.87 mg is 450 mg in 5 mL: 90 g in a litre.
test('26.5 mL of tenth-normal thiocyanate for 5 mL of bath are 90 g in a litre', () => {
  const found = strengthByTitration({ thiocyanateMl: 26.49, normality: 0.1, sampleMl: 5 });
  expect(Math.abs((found ?? 0) / 90_000 - 1)).toBeLessThan(0.0005);
  expect(strengthByTitration({ thiocyanateMl: 26, normality: 0.1, sampleMl: 0 })).toBeNull();
  expect(strengthByTitration({ thiocyanateMl: 26, normality: 0, sampleMl: 5 })).toBeNull();
  expect(strengthByTitration({ thiocyanateMl: Number.NaN, normality: 0.1, sampleMl: 5 })).toBeNull();
});

// "Photography", chestofbooks.com: dried silver chloride x 1.18; by molar masses 169.87 / 143.32 = 1.185.
test('dried silver chloride times 1.185 is the silver nitrate, half a per cent from the book', () => {
  expect(NITRATE_PER_CHLORIDE).toBeCloseTo(169.87 / 143.32, 4);
  expect(NITRATE_PER_CHLORIDE / 1.18 - 1).toBeLessThan(0.005);
  expect(strengthByChloride(0.7594, 10)).toBeCloseTo(90_000, -2);
  expect(strengthByChloride(0.7, 0)).toBeNull();
});
