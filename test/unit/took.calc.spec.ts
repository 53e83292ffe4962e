// What a typed plate took of which bottle, and by how much a correction differs.
import { describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { DEFAULT_USE } from '../../src/chemistry/use-per-area.calc.js';
import { allot, differencesOf, takesOtherwise, wantsOf } from '../../src/plates/took.calc.js';
import { type Item, withExtras } from '../../src/stock/stock.schemas.js';
import { made, plateSize } from '../support/made-facts.js';

const SIZES = [plateSize('whole', 215.9, 165.1)];
const item = (id: string, kind: Item['kind'], plateSizeId: string | null = null): Item => ({
  id,
  ...withExtras({
    ...{ name: id, kind, unit: kind === 'glass' ? 'sheet' : 'uL', plateSizeId },
    ...{ leadDays: null, ripenDays: null, lifeDays: null },
  }),
});
const ITEMS = [
  item('glass', 'glass', 'whole'),
  item('collodion', 'collodion'),
  item('developer', 'developer'),
  item('varnish', 'varnish'),
];
const quantities = (wants: { itemId: string; quantity: bigint }[]) =>
  Object.fromEntries(wants.map(({ itemId, quantity }) => [itemId, quantity]));

describe('a plate', () => {
  const plate = { plateSizeId: 'whole', keeper: true, lotId: null };
  /** 215.9 x 165.1 mm are 8.5 x 6.5 inches: 55.25 square inches. */
  const onPlate = (kind: 'collodion' | 'developer' | 'varnish') =>
    BigInt(Math.ceil(Number(DEFAULT_USE.solutions[kind].likely) * 55.25));

  it('takes one sheet, and solutions by its area; what the studio does not keep is not asked for', () => {
    expect(quantities(wantsOf(plate, SIZES, ITEMS, null, DEFAULT_USE))).toEqual({
      glass: 1n,
      collodion: onPlate('collodion'),
      developer: onPlate('developer'),
      varnish: onPlate('varnish'),
    });
  });

  it('is varnished only where it is kept, and takes nothing of a size that is not known', () => {
    const lost = wantsOf({ ...plate, keeper: false }, SIZES, ITEMS, null, DEFAULT_USE);
    expect(lost.map((one) => one.itemId)).toEqual(['glass', 'collodion', 'developer']);
    expect(wantsOf({ ...plate, plateSizeId: 'half' }, SIZES, ITEMS, null, DEFAULT_USE)).toEqual([]);
  });

  it('takes collodion of the bottle that is named, also where it is of another item than the usual', () => {
    const wants = wantsOf({ ...plate, lotId: 'old' }, SIZES, ITEMS, { itemId: 'cadmium' }, DEFAULT_USE);
    expect(wants[1]).toEqual({ itemId: 'cadmium', quantity: onPlate('collodion'), lotId: 'old' });
  });
});

describe('sharing out', () => {
  const giving = [
    { lotId: 'a', itemId: 'collodion', left: 15n },
    { lotId: 'b', itemId: 'collodion', left: 50n },
    { lotId: 'c', itemId: 'glass', left: 1n },
  ];
  const want = (key: string, lotId: string | null = null) => ({
    key,
    wants: [
      { itemId: 'collodion', quantity: 10n, lotId },
      { itemId: 'glass', quantity: 1n, lotId: null },
    ],
  });

  it('goes in the order given and over several bottles, and leaves out what none has', () => {
    expect(allot([want('one'), want('two')], giving)).toEqual([
      { key: 'one', lotId: 'a', quantity: 10n },
      { key: 'one', lotId: 'c', quantity: 1n },
      { key: 'two', lotId: 'a', quantity: 5n },
      { key: 'two', lotId: 'b', quantity: 5n },
    ]);
  });

  it('asks the bottle that is named first', () => {
    expect(allot([want('one', 'b')], giving)[0]).toEqual({ key: 'one', lotId: 'b', quantity: 10n });
  });
});

describe('a correction', () => {
  it('moves what is taken more or less of each bottle, and nothing where it is the same', () => {
    const [a, b] = [
      { lotId: 'a', quantity: 10n },
      { lotId: 'b', quantity: 4n },
    ];
    expect(differencesOf([a, a], [a, b])).toEqual([
      { lotId: 'a', by: -10n },
      { lotId: 'b', by: 4n },
    ]);
    expect(differencesOf([a, b], [b, a])).toEqual([]);
  });

  it('takes otherwise by size, bottle, keeping and striking, and by nothing else', () => {
    const was = made({ number: 1 });
    expect(takesOtherwise(was, { ...was, seconds: 9, note: 'fog', bathId: 'tank' })).toBe(false);
    for (const said of [{ plateSizeId: 'half' }, { keeper: true }, { lotId: 'a' }])
      expect(takesOtherwise(was, { ...was, ...said })).toBe(true);
    const struck = { ...was, struckAt: Temporal.Instant.from('2027-04-02T18:00Z') };
    expect(takesOtherwise(was, struck)).toBe(true);
    expect(takesOtherwise(struck, struck)).toBe(false);
    expect(takesOtherwise(undefined, was)).toBe(true);
    expect(takesOtherwise(undefined, struck)).toBe(false);
  });
});
