import { Temporal } from 'temporal-polyfill';
import { coverOn } from '../../src/stock/cover.calc.js';
import { type Item, type Lot, withExtras, withLotExtras } from '../../src/stock/stock.schemas.js';

const day = (text: string) => Temporal.PlainDate.from(text);
const TODAY = day('2027-05-01');
const item = (id: string, ripenDays: number | null = 7): Item => ({
  id,
  ...withExtras({
    name: id,
    kind: 'collodion',
    unit: 'uL',
    plateSizeId: null,
    leadDays: null,
    ripenDays,
    lifeDays: 120,
  }),
});
const lot = (id: string, itemId: string, onHand: bigint, from: string, until: string | null): Lot => ({
  id,
  ...withLotExtras({
    itemId,
    label: id,
    usableFrom: day(from),
    usableUntil: until === null ? null : day(until),
  }),
  onHand,
  reserved: 10n,
});

describe('how the shelf meets a day', () => {
  const lots = [
    lot('old', 'collodion', 50n, '2027-01-01', '2027-05-13'),
    lot('fresh', 'collodion', 50n, '2027-05-14', '2027-09-01'),
    lot('other', 'varnish', 500n, '2027-01-01', null),
  ];
  const shelf = { items: [item('collodion'), item('varnish')], lots };
  const needs = [{ itemId: 'collodion', quantity: 40n }];

  it('counts a lot on its first and its last day, and only what is free of it', () => {
    expect(coverOn(needs, shelf, day('2027-05-13'), TODAY)).toMatchObject([
      { state: 'enough', fromLots: [{ lotId: 'old', quantity: 40n }] },
    ]);
    expect(coverOn(needs, shelf, day('2027-05-14'), TODAY)).toMatchObject([
      { state: 'enough', fromLots: [{ lotId: 'fresh', quantity: 40n }] },
    ]);
  });

  it('says what is missing and until when it can be mixed', () => {
    const [cover] = coverOn([{ itemId: 'collodion', quantity: 41n }], shelf, day('2027-05-14'), TODAY);
    expect(cover).toMatchObject({ need: 41n, missing: 1n, state: 'mix by' });
    expect(String(cover?.by)).toBe('2027-05-07');
  });

  it('leaves out needs of nothing and of items the studio does not keep', () => {
    const odd = [
      { itemId: 'collodion', quantity: 0n },
      { itemId: 'unknown', quantity: 5n },
    ];
    expect(coverOn(odd, shelf, day('2027-05-14'), TODAY)).toEqual([]);
  });

  it('leaves the list of needs as it was given', () => {
    const given = [
      { itemId: 'varnish', quantity: 1n },
      { itemId: 'collodion', quantity: 1n },
    ];
    const before = [...given];
    expect(coverOn(given, shelf, day('2027-05-14'), TODAY).map((one) => one.item.id)).toEqual([
      'collodion',
      'varnish',
    ]);
    expect(given).toEqual(before);
  });
});
