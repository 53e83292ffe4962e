// What is typed into a formula, and from which bottles it is mixed.
import { Temporal } from 'temporal-polyfill';
import { bottlesOf, shareAll, shareOut, takenFrom, tooMuch } from '../../src/stock/bench.calc.js';
import {
  cyanideMeetsAcid,
  formValues,
  readLine,
  substanceNamed,
  typedLines,
} from '../../src/stock/formulas.calc.js';
import {
  type Item,
  type Lot,
  type NewItem,
  withExtras,
  withLotExtras,
} from '../../src/stock/stock.schemas.js';

const item = (name: string, more: Partial<NewItem> = {}): Item => ({
  id: name,
  ...withExtras({
    name,
    kind: 'chemical',
    unit: 'uL',
    plateSizeId: null,
    leadDays: 14,
    ripenDays: null,
    lifeDays: null,
    ...more,
  }),
});
const typed = (ingredient: string, amount: string) => ({
  ingredient,
  amount,
  note: '',
  was: '',
  written: '',
});
const read = (ingredient: string, amount: string, items: Item[] = []) => {
  const answer = readLine(typed(ingredient, amount), items);
  return answer.ok ? [answer.line.quantity, answer.line.unit, answer.line.substance] : answer.reason;
};

// 64.79891 mg to the grain and 29.5735295625 mL to the American fluid ounce: NIST Handbook 44, Appendix C.
test.each([
  ['Ammonium iodide', '60 grains', [3_888n, 'mg', 'ammonium iodide']],
  ['ether', '10 US fl oz', [295_735n, 'uL', 'diethyl ether']],
  ['Gum sandarac', '32 g', [32_000n, 'mg', 'gum sandarac']],
  ['Alcohol (ethanol)', '220 ml', [220_000n, 'uL', 'ethanol']],
  ['Nitric acid', '1.41 g', [1_000n, 'uL', 'nitric acid']], // weighed; 1.41 g to the millilitre
  ['Rose water', '2 ml', [2_000n, 'uL', null]],
  ['Secret cakes', '3 pieces', [3n, 'piece', null]],
  ['Ammonium iodide', '5 ml', 'other kind of unit'],
  ['Ether', '10 fl oz', 'which ounce'],
  ['Ether', '0 ml', 'nothing'],
  ['Rose water', '5', 'unit missing'],
  ['Rose water', 'some', 'not a number'],
  ['Cadmium bromide', '20 grains', 'which cadmium bromide'],
  ['', '3 g', 'missing'],
])('%s, %s', (ingredient, amount, outcome) => {
  expect(read(ingredient, amount)).toEqual(outcome);
});

test('an ingredient is found on the shelf by its name or by its substance, where it is measured alike', () => {
  const ether = item('Big ether', { substance: 'diethyl ether' });
  const cotton = item('Tufts', { unit: 'mg' });
  const answer = readLine(typed('Ether', '10 ml'), [cotton, ether]);
  expect(answer.ok && answer.line.itemId).toBe('Big ether');
  expect(read('tufts', '6 g', [cotton])).toEqual([6_000n, 'mg', null]);
  const gone = readLine(typed('Ether', '10 ml'), [item('E', { substance: 'diethyl ether', archived: true })]);
  expect(gone.ok && gone.line.itemId).toBeNull();
  expect(substanceNamed('Toluene')).toBeNull();
});

test('a form filled with a version and sent back keeps how each line was written, unless its amount is changed', () => {
  const line = {
    ingredient: 'Ammonium iodide',
    substance: 'ammonium iodide',
    itemId: null,
    quantity: 3_888n,
    unit: 'mg',
    asWritten: '60 gr',
    note: '',
  } as const;
  const text = {
    batch: 1n,
    batchAsWritten: '',
    ripenDays: 0,
    lifeDays: null,
    source: '',
    method: [],
    note: '',
  };
  const version = { ...text, version: 1, createdAt: Temporal.Instant.fromEpochMilliseconds(0), who: '' };
  const formula = {
    id: 'f',
    kind: 'collodion',
    name: 'F',
    own: true,
    starterKey: null,
    currentVersion: 1,
    archived: false,
  } as const;
  const values = formValues(formula, { ...version, lines: [line, line] });
  const back = typedLines({ ...values, 'amount-2': '4 g' }).map((one) => readLine(one, []));
  expect(back.map((one) => one.ok && [one.line.quantity, one.line.asWritten])).toEqual([
    [3_888n, '60 gr'],
    [4_000n, '4 g'],
  ]);
});

test('cyanide meets an acid that is named, that is in the kind, or not at all', () => {
  const line = (substance: string) => ({
    ingredient: substance,
    substance: substance as string | null,
    itemId: null as string | null,
    quantity: 1n,
    unit: 'mg' as const,
    asWritten: '',
    note: '',
  });
  const lines = [line('distilled water'), line('potassium cyanide')];
  const meets = (kind: string, of: typeof lines) => cyanideMeetsAcid(kind, of, [], new Map());
  expect(meets('fixer', lines)).toBeNull();
  expect(meets('developer', lines)).toBe(1);
  expect(meets('bath', lines)).toBe(1);
  expect(meets('fixer', [...lines, line('acetic acid, dilute')])).toBe(1);
  const tin = { ...line(''), ingredient: 'Old tin', substance: null, itemId: 'Old tin' };
  const kept = [item('Old tin', { hCodes: ['EUH032'] })];
  expect(cyanideMeetsAcid('developer', [tin], kept, new Map())).toBe(0);
});

describe('bottles for a batch', () => {
  const today = Temporal.PlainDate.from('2026-11-25');
  const ether = item('Ether', { heel: 20_000n });
  const lot = (id: string, onHand: bigint, until: string | null, more: Partial<Lot> = {}): Lot => ({
    id,
    ...withLotExtras({
      itemId: 'Ether',
      label: id,
      usableFrom: today,
      usableUntil: until ? Temporal.PlainDate.from(until) : null,
    }),
    onHand,
    reserved: 0n,
    ...more,
  });

  it('are taken first expiring first, without their heels, none that is suspect or past its end', () => {
    const lots = [
      lot('late', 500_000n, '2027-06-01'),
      lot('soon', 120_000n, '2026-12-01'),
      lot('past', 500_000n, '2026-11-24'),
      lot('foul', 500_000n, null, { state: 'suspect' }),
      lot('dregs', 20_000n, null),
    ];
    const { from, missing } = shareOut(700_000n, ether, lots, today);
    expect(from.map((one) => [one.lot.id, one.quantity])).toEqual([
      ['late', 480_000n],
      ['soon', 100_000n],
    ]);
    expect(missing).toBe(120_000n);
    expect(shareOut(150_000n, ether, lots, today).from.map((one) => one.quantity)).toEqual([
      50_000n,
      100_000n,
    ]);
    expect(shareOut(5n, null, lots, today)).toEqual({ from: [], missing: 5n });
  });

  // Each line by itself would take 80 mL of the same 100.
  it('are shared between two lines of the same ingredient, and stand on the card once', () => {
    const line = { quantity: 80_000n, item: ether, unit: 'uL' as const };
    const lines = shareAll([line, line], [lot('only', 120_000n, null)], today);
    expect(lines.map((one) => [one.from[0]?.quantity, one.missing])).toEqual([
      [80_000n, 0n],
      [20_000n, 60_000n],
    ]);
    const [bottle, ...more] = bottlesOf(lines);
    expect([bottle?.quantity, bottle?.lot.onHand, more]).toEqual([100_000n, 120_000n, []]);
  });

  it('are read from the card as they were typed, and one that holds less is named', () => {
    const taken = takenFrom({ 'from-a': '10 ml', 'from-a-in': 'ml', 'from-b': ' ', quantity: '1 l' });
    expect(taken).toEqual([{ lotId: 'a', quantity: '10 ml' }]);
    const lines = [{ unit: 'uL' as const, from: [{ lot: lot('a', 9_999n, null), quantity: 0n }] }];
    expect(tooMuch(taken, lines).map(({ field }) => field)).toEqual(['from-a']);
    expect(tooMuch([{ lotId: 'a', quantity: '9.999 ml' }], lines)).toEqual([]);
  });
});
