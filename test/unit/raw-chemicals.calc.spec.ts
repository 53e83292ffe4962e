// From solutions to what is in their bottles.
import { estimateNeeds } from '../../src/chemistry/estimate.calc.js';
import { type Recipe, rawChemicals } from '../../src/chemistry/raw-chemicals.calc.js';
import { DEFAULT_USE } from '../../src/chemistry/use-per-area.calc.js';

const PLATE = { widthMm: 101.6, heightMm: 127, keepers: 10 };
const ONCE = { keeperShare: 1, stopAfter: null, source: 'test' };
const needs = estimateNeeds([PLATE], DEFAULT_USE, ONCE);

// E. M. Estabrooke, Photography in the Studio and in the Field, p. 29, in American ounces: 591.471 mL with 3.888 g of
// ammonium iodide. Ten plates of 4 x 5 in take 30, 40, 50 mL of collodion: 0.197, 0.263, 0.329 g by hand.
const collodion: Recipe = {
  solution: 'collodion',
  batchUl: 591_471n,
  lines: [
    { ingredient: 'ammonium iodide', unit: 'mg', quantity: 3_888n },
    { ingredient: 'ethanol', unit: 'uL', quantity: 295_735n },
  ],
};
// J. Towler, The Silver Sunbeam (1864), ch. XVI, No. 1: 11.664 g of iron sulphate, 7.39 mL of alcohol in about 137 mL.
const developer: Recipe = {
  solution: 'developer',
  batchUl: 136_777n,
  lines: [
    { ingredient: 'iron sulphate', unit: 'mg', quantity: 11_664n },
    { ingredient: 'ethanol', unit: 'uL', quantity: 7_393n },
  ],
};

test('ten plates of 4 x 5 in by two printed formulas', () => {
  const [silver, iodide, ethanol, iron, ...more] = rawChemicals(needs, [collodion, developer]);
  expect(more).toEqual([]);
  expect(silver).toEqual({
    ingredient: 'Silver nitrate',
    unit: 'mg',
    quantity: { low: 1_800n, likely: 2_120n, ninety: 2_120n, high: 2_460n },
  });
  expect(iodide?.quantity).toEqual({ low: 198n, likely: 263n, ninety: 263n, high: 329n });
  expect(iron?.quantity.likely).toBe(21_320n); // 250 mL x 11.664 g / 136.777 mL
  // 40 mL x 295.735 / 591.471 + 250 mL x 7.393 / 136.777: once rounded, not twice
  expect(ethanol?.quantity.likely).toBe(33_513n);
});

test('an ingredient told in another unit stands apart, and an unknown solution asks for nothing', () => {
  const pieces: Recipe = {
    solution: 'varnish',
    batchUl: 1000n,
    lines: [{ ingredient: 'ethanol', unit: 'mg', quantity: 1n }],
  };
  const chemicals = rawChemicals(needs, [developer, pieces]);
  expect(chemicals.map(({ ingredient, unit }) => `${ingredient}, ${unit}`)).toEqual([
    'Silver nitrate, mg',
    'iron sulphate, mg',
    'ethanol, uL',
    'ethanol, mg',
  ]);
  expect(rawChemicals(needs, [])).toHaveLength(1);
});

test('a batch of nothing is a programming error', () => {
  expect(() => rawChemicals(needs, [{ ...collodion, batchUl: 0n }])).toThrow(RangeError);
  const less = { ...collodion, lines: [{ ingredient: 'x', unit: 'mg' as const, quantity: -1n }] };
  expect(() => rawChemicals(needs, [less])).toThrow(RangeError);
});
