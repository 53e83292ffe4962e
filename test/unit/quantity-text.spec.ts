import fc from 'fast-check';
import { formatQuantity, parseQuantity } from '../../src/lib/quantity-text.js';
import type { Unit } from '../../src/lib/units.js';

test.each<[bigint, Unit, string]>([
  [1_250_000n, 'uL', '1.25 L'],
  [340_000n, 'uL', '340 mL'],
  [12_000n, 'mg', '12 g'],
  [9n, 'sheet', '9 sheets'],
  [1n, 'sheet', '1 sheet'],
  [0n, 'piece', '0 pieces'],
  [180n, 'mg', '180 mg'],
  [1_234n, 'mg', '1.23 g'],
  [12_345n, 'mg', '12.3 g'],
  [2_500_000n, 'mg', '2.5 kg'],
  [7n, 'uL', '0.007 mL'],
  [0n, 'uL', '0 mL'],
  [4_250n, 'uL', '4.25 mL'],
  [999_600n, 'uL', '1 L'],
  [-35_000n, 'uL', '\u221235 mL'],
])('%d %s is written %s', (amount, unit, text) => {
  expect(formatQuantity(amount, unit)).toBe(text);
});

test('what is needed is rounded up, what is edited is not rounded at all', () => {
  expect(formatQuantity(340_001n, 'uL', 'up')).toBe('341 mL');
  expect(formatQuantity(340_001n, 'uL')).toBe('340 mL');
  expect(formatQuantity(340_001n, 'uL', 'exact')).toBe('340.001 mL');
});

test.each<[string, Unit, bigint]>([
  ['1,5 l', 'uL', 1_500_000n],
  ['250 ml', 'uL', 250_000n],
  ['250mL', 'uL', 250_000n],
  ['0.18 g', 'mg', 180n],
  ['0,125 g', 'mg', 125n],
  ['1 250 ml', 'uL', 1_250_000n],
  ["1'250.5 ml", 'uL', 1_250_500n],
  ['2 Litres', 'uL', 2_000_000n],
  ['75 cl', 'uL', 750_000n],
  ['9', 'sheet', 9n],
  ['12 sheets', 'sheet', 12n],
])('"%s" is read as %s %d', (text, unit, amount) => {
  expect(parseQuantity(text, unit)).toEqual({ ok: true, amount, exact: true });
});

test('old units are read to the nearest whole and say so', () => {
  expect(parseQuantity('40 grains', 'mg')).toEqual({ ok: true, amount: 2592n, exact: false });
  expect(parseQuantity('3 drachms', 'mg')).toEqual({ ok: true, amount: 11_664n, exact: false });
  expect(parseQuantity('1 av. oz', 'mg')).toEqual({ ok: true, amount: 28_350n, exact: false });
  expect(parseQuantity('1 oz troy', 'mg')).toEqual({ ok: true, amount: 31_103n, exact: false });
  expect(parseQuantity('2 US fl dr', 'uL')).toEqual({ ok: true, amount: 7_393n, exact: false });
  expect(parseQuantity('8 US fl. oz.', 'uL')).toEqual({ ok: true, amount: 236_588n, exact: false });
  expect(parseQuantity('160 imp fl oz', 'uL')).toEqual({ ok: true, amount: 4_546_090n, exact: true });
});

test.each<[string, Unit, string]>([
  ['', 'mg', 'empty'],
  ['a little', 'mg', 'not a number'],
  ['1.2.3 g', 'mg', 'not a number'],
  ['-5 ml', 'uL', 'below zero'],
  ['250', 'uL', 'unit missing'],
  ['3 gr', 'mg', 'unit unknown'],
  ['3 buckets', 'uL', 'unit unknown'],
  ['3 g', 'uL', 'other kind of unit'],
  ['3 ml', 'sheet', 'other kind of unit'],
  ['3 oz', 'mg', 'which ounce'],
  ['3 fl oz', 'uL', 'which ounce'],
  ['1,250 ml', 'uL', 'comma or thousands'],
  ['0.0001 g', 'mg', 'too fine'],
  ['1.5', 'sheet', 'too fine'],
  ['1000000000000 kg', 'mg', 'too much'],
])('"%s" for %s is refused: %s', (text, unit, reason) => {
  expect(parseQuantity(text, unit)).toEqual({ ok: false, reason });
});

test('whatever is written exactly is read back as the same amount', () => {
  const units = fc.constantFrom<Unit>('mg', 'uL', 'sheet', 'piece');
  fc.assert(
    fc.property(fc.bigInt(0n, 1_000_000_000_000n), units, (amount, unit) => {
      expect(parseQuantity(formatQuantity(amount, unit, 'exact'), unit)).toEqual({
        ok: true,
        amount,
        exact: true,
      });
    }),
  );
});

test('a written amount is off by less than one per cent', () => {
  fc.assert(
    fc.property(fc.bigInt(1n, 10_000_000n), fc.constantFrom<Unit>('mg', 'uL'), (amount, unit) => {
      const read = parseQuantity(formatQuantity(amount, unit), unit);
      const off = read.ok ? read.amount - amount : amount;
      expect((off < 0n ? -off : off) * 100n).toBeLessThan(amount);
    }),
  );
});
