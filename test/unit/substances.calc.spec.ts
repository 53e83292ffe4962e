import { MF } from 'mf-parser';
import { asOtherCadmiumBromide, SUBSTANCES, substanceOf } from '../../src/chemistry/substances.calc.js';

const pure = Object.entries(SUBSTANCES).filter(([, one]) => one.gPerMol !== null);

// mf-parser (Zakodium) carries the IUPAC atomic weights and reads the formula as it is written.
test.each(pure)('the molar mass of %s is that of mf-parser', (_, { formula, gPerMol }) => {
  const { mass } = new MF(formula ?? '').getInfo() as { mass: number };
  expect(Math.abs((gPerMol ?? 0) / mass - 1)).toBeLessThan(0.0005);
});

test('most of the catalogue is weighed against the reference', () => {
  expect(pure.length).toBeGreaterThan(18);
});

test('the two cadmium bromides are 21 % apart in bromide and convert there and back', () => {
  expect(Number(asOtherCadmiumBromide(1_000_000n, 'anhydrous')) / 1e6).toBeCloseTo(344.28 / 272.22, 4);
  const back = asOtherCadmiumBromide(asOtherCadmiumBromide(777_000n, 'tetrahydrate'), 'anhydrous');
  expect(back - 777_000n).toBeLessThanOrEqual(2n);
  expect(back).toBeGreaterThanOrEqual(777_000n);
});

test('a key that is not in the catalogue has no substance, not even one that every object has', () => {
  expect(substanceOf('toString')).toBeNull();
  expect(substanceOf(null)).toBeNull();
  expect(substanceOf('potassium cyanide')?.has).toContain('cyanide');
});

test('what takes fire, bites or poisons is not sent by post', () => {
  for (const one of Object.values(SUBSTANCES))
    if (one.has.some((has) => ['cyanide', 'flammable vapour', 'nitric acid'].includes(has)))
      expect([one.name, one.noPost]).toEqual([one.name, true]);
});
