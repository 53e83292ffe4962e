import {
  decimalRatio,
  divide,
  MG_PER_DRACHM,
  MG_PER_GRAIN,
  MG_PER_OUNCE_APOTHECARIES,
  MG_PER_OUNCE_AVOIRDUPOIS,
  type Ratio,
  scale,
  UL_PER_IMPERIAL_FLUID_DRACHM,
  UL_PER_IMPERIAL_FLUID_OUNCE,
  UL_PER_US_FLUID_DRACHM,
  UL_PER_US_FLUID_OUNCE,
} from '../../src/lib/units.js';

const same = (a: Ratio, b: Ratio) => a.num * b.den === b.num * a.den;

// NIST Handbook 44, Appendix C, General Tables of Units of Measurement; exact values.
test.each([
  ['grain', MG_PER_GRAIN, '64.79891'],
  ['apothecaries dram', MG_PER_DRACHM, '3887.9346'],
  ['avoirdupois ounce', MG_PER_OUNCE_AVOIRDUPOIS, '28349.523125'],
  ['apothecaries ounce', MG_PER_OUNCE_APOTHECARIES, '31103.4768'],
  ['US fluid ounce', UL_PER_US_FLUID_OUNCE, '29573.5295625'],
  ['US fluid dram', UL_PER_US_FLUID_DRACHM, '3696.6911953125'],
  ['imperial fluid ounce', UL_PER_IMPERIAL_FLUID_OUNCE, '28413.0625'],
  ['imperial fluid drachm', UL_PER_IMPERIAL_FLUID_DRACHM, '3551.6328125'],
])('one %s is exact', (_name, ratio, published) => {
  expect(same(ratio, decimalRatio(published))).toBe(true);
});

test('the gallons behind the ounces agree: 231 cubic inches, and 4.54609 litres', () => {
  const cubicInchUl = decimalRatio('16387.064'); // 2.54 cm cubed
  const us = { num: cubicInchUl.num * 231n, den: cubicInchUl.den * 128n };
  expect(same(UL_PER_US_FLUID_OUNCE, us)).toBe(true);
  expect(same(UL_PER_IMPERIAL_FLUID_OUNCE, { num: 4_546_090n, den: 160n })).toBe(true);
});

test('rounding is by name, away from zero for up and for halves', () => {
  const seven = (rounding: 'up' | 'down' | 'nearest') =>
    [7n, 8n, 10n, -7n, -8n].map((n) => divide(n, 4n, rounding));
  expect(seven('up')).toEqual([2n, 2n, 3n, -2n, -2n]);
  expect(seven('down')).toEqual([1n, 2n, 2n, -1n, -2n]);
  expect(seven('nearest')).toEqual([2n, 2n, 3n, -2n, -2n]);
  expect(divide(5n, 4n, 'nearest')).toBe(1n);
  expect(scale(1920n, MG_PER_GRAIN, 'nearest')).toBe(124_414n); // 1,920 grains are 124.4 g
  expect(() => divide(1n, 0n, 'up')).toThrow(RangeError);
  expect(() => decimalRatio('1,5')).toThrow(RangeError);
});
