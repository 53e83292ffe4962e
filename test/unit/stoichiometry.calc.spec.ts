import {
  HALIDE_SALTS,
  type HalideSalt,
  halidePerMl,
  molarMass,
  SILVER_NITRATE_G_PER_MOL,
  silverNitratePerMl,
} from '../../src/chemistry/stoichiometry.calc.js';
import { MG_PER_GRAIN, scale, UL_PER_US_FLUID_OUNCE } from '../../src/lib/units.js';

const grains = (salt: HalideSalt, count: bigint) => ({ salt, mg: scale(count, MG_PER_GRAIN, 'nearest') });
const usFluidOunces = (count: bigint) => scale(count, UL_PER_US_FLUID_OUNCE, 'nearest');
const off = (value: number | null, published: number) => Math.abs((value ?? 0) / published - 1);

test('molar masses agree with the safety data sheets', () => {
  expect(SILVER_NITRATE_G_PER_MOL).toBeCloseTo(169.87, 2); // Chief Medical SDS M-D6-009
  expect(HALIDE_SALTS['cadmium bromide, anhydrous'].gPerMol).toBeCloseTo(272.21, 1); // chemicaldictionary.org
  expect(molarMass({ K: 1, I: 1 })).toBeCloseTo(166.0, 2);
});

test('a cadmium salt takes two silvers, and four waters make 21 % of its bromide', () => {
  expect(HALIDE_SALTS['cadmium iodide'].halides).toBe(2);
  const { 'cadmium bromide, anhydrous': dry, 'cadmium bromide, tetrahydrate': wet } = HALIDE_SALTS;
  expect(1 - dry.gPerMol / wet.gPerMol).toBeCloseTo(0.209, 3);
});

// E. M. Estabrooke, Photography in the Studio and in the Field, p. 29: in 20 oz of ether and alcohol 60 gr of ammonium
// iodide, 30 of cadmium iodide, 20 of cadmium bromide. Reckoned by hand: 26.82 + 10.62 + 9.52 mmol in 591.5 mL.
const estabrooke = (bromide: HalideSalt, volumeUl = usFluidOunces(20n)) => ({
  salts: [grains('ammonium iodide', 60n), grains('cadmium iodide', 30n), grains(bromide, 20n)],
  volumeUl,
});

test("Estabrooke's collodion takes 13.5 mg of silver nitrate per millilitre", () => {
  const anhydrous = estabrooke('cadmium bromide, anhydrous');
  expect(off(halidePerMl(anhydrous), 0.0794)).toBeLessThan(0.005);
  expect(off(silverNitratePerMl(anhydrous), 13.49)).toBeLessThan(0.005);
  expect(off(silverNitratePerMl(estabrooke('cadmium bromide, tetrahydrate')), 12.92)).toBeLessThan(0.005);
});

test('taking the ounces for imperial ones makes it 4 % stronger', () => {
  const imperial = estabrooke('cadmium bromide, anhydrous', 568_261n); // an imperial pint
  expect(off(silverNitratePerMl(imperial), 14.04)).toBeLessThan(0.005);
});

// E. L. Wilson, Wilson's Photographics (1881), par. 131: in 35 oz 135 gr of cadmium iodide, 70 of potassium iodide,
// 70 of cadmium bromide, 12 of ammonium iodide. By hand: 47.77 + 27.32 + 33.33 + 5.36 mmol in 1035.1 mL.
test("Wilson's collodion takes 18.7 mg of silver nitrate per millilitre", () => {
  const wilson = (bromide: HalideSalt) => ({
    salts: [
      grains('cadmium iodide', 135n),
      grains('potassium iodide', 70n),
      grains(bromide, 70n),
      grains('ammonium iodide', 12n),
    ],
    volumeUl: usFluidOunces(35n),
  });
  const anhydrous = wilson('cadmium bromide, anhydrous');
  expect(off(halidePerMl(anhydrous), 0.1099)).toBeLessThan(0.005);
  expect(off(silverNitratePerMl(anhydrous), 18.67)).toBeLessThan(0.005);
  expect(off(silverNitratePerMl(wilson('cadmium bromide, tetrahydrate')), 17.53)).toBeLessThan(0.005);
});

test('without a volume there is no strength', () => {
  expect(silverNitratePerMl({ salts: [grains('potassium iodide', 5n)], volumeUl: 0n })).toBeNull();
  expect(halidePerMl({ salts: [{ salt: 'potassium iodide', mg: -1n }], volumeUl: 1000n })).toBeNull();
  expect(halidePerMl({ salts: [], volumeUl: 1000n })).toBe(0);
});
