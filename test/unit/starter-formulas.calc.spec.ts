import fc from 'fast-check';
import { mgPerLitreOf } from '../../src/chemistry/bath-density.calc.js';
import { grainsToTheOunce, oldVolume, oldWeight, readAmount } from '../../src/chemistry/old-amounts.calc.js';
import { scaleLines } from '../../src/chemistry/scaling.calc.js';
import { STARTER_FORMULAS, starterFormula } from '../../src/chemistry/starter-formulas.calc.js';
import {
  HALIDE_SALTS,
  type HalideSalt,
  halidePerMl,
  silverNitratePerMl,
} from '../../src/chemistry/stoichiometry.calc.js';

const halides = (key: string, wet = false) => {
  const formula = starterFormula(key);
  const salts = (formula?.lines ?? []).flatMap(({ substance, quantity: mg }) => {
    if (substance === null || !Object.hasOwn(HALIDE_SALTS, substance)) return [];
    const dry = substance === 'cadmium bromide, anhydrous';
    return [{ salt: wet && dry ? 'cadmium bromide, tetrahydrate' : (substance as HalideSalt), mg }];
  });
  return { salts, volumeUl: formula?.batch ?? 0n } as const;
};
const off = (value: number | null, reckoned: number) => Math.abs((value ?? 0) / reckoned - 1);

// Reckoned by hand from the printed formulas (grains x 64.79891 mg, ounces of 29.5735 mL), anhydrous and tetrahydrate
// cadmium bromide: millimoles of halide, and grams of silver nitrate, in a millilitre. Two, three figures were kept.
test.each([
  ['collodion-schriever-ferrotype', 0.1095, 0.1011, 0.0186, 0.0172],
  ['collodion-estabrooke-negative-c', 0.105, 0.098, 0.0179, 0.0167],
  ['collodion-estabrooke-p29', 0.0794, 0.076, 0.0135, 0.0129],
  ['collodion-wilson-131', 0.1099, 0.1032, 0.01867, 0.01753],
  ['collodion-oneil-hot-weather', 0.102, 0.098, 0.0173, 0.0167],
  ['collodion-chambers', 0.06495, 0.06096, 0.01103, 0.01036],
  ['collodion-cooley', 0.0722, 0.0675, 0.0123, 0.0115],
])('%s holds the halide that was reckoned by hand', (key, dry, wet, silverDry, silverWet) => {
  expect(off(halidePerMl(halides(key)), dry)).toBeLessThan(0.005);
  expect(off(halidePerMl(halides(key, true)), wet)).toBeLessThan(0.006); // 0.098 has two figures
  expect(off((silverNitratePerMl(halides(key)) ?? 0) / 1000, silverDry)).toBeLessThan(0.005);
  expect(off((silverNitratePerMl(halides(key, true)) ?? 0) / 1000, silverWet)).toBeLessThan(0.006);
});

test.each([
  ['collodion-estabrooke-positive', 0.12, 0.0204],
  ['collodion-wilkinson-zinc', 0.097, 0.0164],
])('%s holds the halide that was reckoned by hand, in two figures', (key, halide, silver) => {
  expect(off(halidePerMl(halides(key)), halide)).toBeLessThan(0.006);
  expect(off((silverNitratePerMl(halides(key)) ?? 0) / 1000, silver)).toBeLessThan(0.006);
});

test('the strengths of the books are told in grams to the litre, by either ounce', () => {
  // 30 grains to the ounce = 66 / 68 g/L, 35 = 77 / 80, 40 = 88 / 91, 45 = 99 / 103, 50 = 110 / 114.
  const table = [30, 35, 40, 45, 50].map((grains) =>
    (['US', 'imperial'] as const).map((ounce) => Math.round(mgPerLitreOf(grains, ounce) / 1000)),
  );
  expect(table).toEqual([
    [66, 68],
    [77, 80],
    [88, 91],
    [99, 103],
    [110, 114],
  ]);
});

test('old weights and measures are those of NIST Handbook 44, Appendix C', () => {
  expect(oldWeight('1', 'grain').quantity).toBe(65n); // 64.79891 mg
  expect(oldWeight('1000', 'grain').quantity).toBe(64_799n);
  expect(oldWeight('10', 'scruple').quantity).toBe(12_960n); // 1.295 978 g each
  expect(oldVolume('100', 'minim', 'US').quantity).toBe(6_161n); // 0.061 611 52 mL each
  expect(oldWeight('1', 'drachm').quantity).toBe(3_888n); // 3.887 934 6 g
  expect(oldWeight('1', 'ounce avoirdupois').quantity).toBe(28_350n); // 28.349 523 g
  expect(oldWeight('1', 'ounce apothecaries').quantity).toBe(31_103n); // 31.103 476 8 g
  expect(oldVolume('1', 'fluid ounce', 'US').quantity).toBe(29_574n); // 29.573 53 mL
  expect(oldVolume('1', 'fluid drachm', 'US').quantity).toBe(3_697n); // 3.696 691 mL
  expect(oldVolume('20', 'fluid ounce', 'imperial').quantity).toBe(568_261n); // a pint
});

test('an amount is read as it is printed, and what is not an amount is refused', () => {
  expect(readAmount('1 1/2')).toEqual({ num: 3n, den: 2n });
  expect(readAmount('1/4')).toEqual({ num: 1n, den: 4n });
  expect(readAmount('17.5')).toEqual({ num: 175n, den: 10n });
  for (const wrong of ['', ' ', '1/0', '1,5', '-1', '1 /2', 'a'])
    expect(() => readAmount(wrong)).toThrow(RangeError);
  expect(grainsToTheOunce('5.5', '16')).toEqual({
    quantity: 5_702n,
    unit: 'mg',
    asWritten: '5.5 gr to the fl oz',
  });
});

test('strengths of fixers and developer come out as the books are understood', () => {
  const share = (key: string, at: number) => {
    const formula = starterFormula(key);
    return Number(formula?.lines[at]?.quantity) / Number(formula?.batch); // mg in a microlitre: grams in a millilitre
  };
  expect(share('fixer-cyanide-schriever', 0)).toBeCloseTo(0.032, 3);
  expect(share('fixer-hypo-schriever', 0)).toBeCloseTo(0.16, 2);
  expect(share('developer-towler-1', 1)).toBeCloseTo(0.085, 3);
  expect(share('bath-wilson', 0) * 1000).toBeCloseTo(79.9, 1); // 36.5 grains to the ounce
});

test('every formula of the library names its source, its steps and what is assumed, under a key of its own', () => {
  expect(new Set(STARTER_FORMULAS.map((one) => one.key)).size).toBe(STARTER_FORMULAS.length);
  for (const one of STARTER_FORMULAS) {
    expect([one.key, one.batch > 0n, one.source.length > 10, one.method.length > 1, one.note !== '']).toEqual(
      [one.key, true, true, true, true],
    );
    for (const line of one.lines)
      expect([one.key, line.quantity > 0n, line.asWritten !== '']).toEqual([one.key, true, true]);
  }
});

test('a scaled formula keeps its proportions within the rounding of one unit', () => {
  const amount = fc.bigInt({ min: 0n, max: 10_000_000n });
  fc.assert(
    fc.property(
      amount,
      fc.bigInt({ min: 1n, max: 10_000_000n }),
      fc.bigInt({ min: 1n, max: 50_000_000n }),
      (quantity, batch, wanted) => {
        const scaled = scaleLines([{ quantity }], batch, wanted)[0]?.quantity ?? -1n;
        const apart = scaled * batch - quantity * wanted;
        const limit = scaled === 1n ? batch : batch / 2n + 1n;
        expect(apart <= limit && apart >= -limit).toBe(true);
        expect(scaled === 0n).toBe(quantity === 0n);
      },
    ),
  );
  expect(() => scaleLines([], 1000n, 0n)).toThrow(RangeError);
});
