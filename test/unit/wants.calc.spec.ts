import { Temporal } from 'temporal-polyfill';
import { type Item, withExtras } from '../../src/stock/stock.schemas.js';
import { type Planned, wantsOf } from '../../src/stock/wants.calc.js';

const day = (text: string) => Temporal.PlainDate.from(text);
const TODAY = day('2027-05-01');
const mixed: Item = {
  id: 'collodion',
  ...withExtras({
    name: 'Iodised collodion',
    kind: 'collodion',
    unit: 'uL',
    plateSizeId: null,
    leadDays: null,
    ripenDays: 7,
    lifeDays: 120,
  }),
};
const bought: Item = { ...mixed, id: 'glass', name: 'Glass', leadDays: 21, ripenDays: null };
const planned = (itemId: string, quantity: bigint, neededOn: string): Planned => ({
  itemId,
  quantity,
  neededOn: day(neededOn),
});
const brief = (wants: ReturnType<typeof wantsOf>) =>
  wants.map(
    ({ item, quantity, action, by, neededOn }) => `${action} ${quantity} ${item.id} by ${by} for ${neededOn}`,
  );

describe('what must be mixed or ordered', () => {
  it('is summed by item over the days whose last chance is near, with the earliest of them', () => {
    const plan = [
      planned('collodion', 30n, '2027-05-21'),
      planned('collodion', 20n, '2027-05-14'),
      planned('collodion', 99n, '2027-07-02'),
    ];
    expect(brief(wantsOf(plan, { items: [mixed, bought] }, TODAY))).toEqual([
      'mix 50 collodion by 2027-05-07 for 2027-05-14',
    ]);
  });

  it('puts the most pressing first and says when the last day is past', () => {
    const plan = [planned('collodion', 1n, '2027-05-14'), planned('glass', 2n, '2027-05-14')];
    const wants = wantsOf(plan, { items: [mixed, bought] }, TODAY);
    expect(brief(wants)).toEqual([
      'order 2 glass by 2027-04-23 for 2027-05-14',
      'mix 1 collodion by 2027-05-07 for 2027-05-14',
    ]);
    expect(wants.map((want) => want.late)).toEqual([true, false]);
  });

  it('forgets days past, and counts all days when no end is given', () => {
    const plan = [planned('collodion', 5n, '2027-04-30'), planned('collodion', 7n, '2028-04-28')];
    expect(wantsOf(plan, { items: [mixed] }, TODAY)).toEqual([]);
    expect(brief(wantsOf(plan, { items: [mixed] }, TODAY, null))).toEqual([
      'mix 7 collodion by 2028-04-21 for 2028-04-28',
    ]);
  });

  it('says so at once when an item is neither mixed nor bought', () => {
    const found = { ...mixed, ripenDays: null };
    const plan = [planned('collodion', 5n, '2028-04-28')];
    expect(brief(wantsOf(plan, { items: [found] }, TODAY))).toEqual([
      'null 5 collodion by null for 2028-04-28',
    ]);
  });
});
