// The lists of what to order and what to mix.
import { lookAhead, type ShelfFacts } from '../../src/stock/horizon.calc.js';
import { lackingOf, toMix } from '../../src/stock/mixing.calc.js';
import { bySupplier, toOrder } from '../../src/stock/ordering.calc.js';
import { bottle, bought, dayOf, mixed, needs, on, recipe, shelf, TODAY } from '../support/shelf-facts.js';

const ahead = (facts: Partial<ShelfFacts>) => lookAhead(shelf(facts), TODAY);

describe('what is to be ordered', () => {
  it('is whole packs, at least the least order, by the needed day less the lead time', () => {
    const items = [bought('glass', { unit: 'sheet', packQuantity: 10n, leastPacks: 3 })];
    const [one] = toOrder(ahead({ items, needs: needs('place', 15, { glass: 4n }) }));
    expect(one).toMatchObject({ quantity: 30n, packs: 3n, needed: 4n, limited: false, near: true });
    expect([one?.by, one?.neededOn]).toEqual([on(5), on(15)]);
    expect(one?.purpose).toEqual({ days: [on(15)], into: [] });
  });

  it('takes the lead time of the supplier where the item has none', () => {
    const items = [bought('glass', { leadDays: null, supplierLeadDays: 4 })];
    expect(toOrder(ahead({ items, needs: needs('place', 15, { glass: 4n }) }))[0]?.by).toEqual(on(11));
  });

  it('takes two weeks together and says for which days and for mixing what', () => {
    const facts = {
      items: [bought('salt'), mixed('fixer')],
      recipes: [recipe('fixer', 100n, { salt: 30n })],
      needs: [
        ...needs('b', 44, { salt: 3n }),
        ...needs('a', 40, { salt: 2n }),
        ...needs('c', 60, { salt: 1n }),
        ...needs('d', 43, { fixer: 9n }),
      ],
    };
    const found = toOrder(ahead(facts));
    expect(found.map((one) => [dayOf(one.by), Number(one.quantity), one.near])).toEqual([
      [30, 35, false],
      [50, 1, false],
    ]);
    expect(found[0]?.purpose.days).toEqual([on(40), on(44)]);
    expect(found[0]?.purpose.into).toMatchObject([{ item: { id: 'fixer' }, mixBy: on(40) }]);
  });

  it('counts what is ordered already', () => {
    const onTheWay = [{ receiptId: 'r', itemId: 'salt', quantity: 9n, expectedOn: on(3) }];
    expect(
      toOrder(ahead({ items: [bought('salt')], onTheWay, needs: needs('a', 40, { salt: 9n }) })),
    ).toEqual([]);
  });

  it('stays below the most that may be on hand, and says what stays short', () => {
    const items = [bought('ether', { packQuantity: 10n, mostOnHand: 25n })];
    const found = ahead({ items, lots: [bottle('ether', 4n)], needs: needs('a', 20, { ether: 40n }) });
    expect(toOrder(found).map((one) => [one.packs, one.limited])).toEqual([[2n, true]]);
    expect(lackingOf(found, false)).toMatchObject([
      { quantity: 16n, reason: 'over the limit', readyOn: null },
    ]);
    expect(lackingOf(found, true)).toEqual([]);
  });

  it('says when it would come if it were ordered today, and which order to hasten', () => {
    const onTheWay = [{ receiptId: 'r', itemId: 'salt', quantity: 9n, expectedOn: on(7) }];
    const found = ahead({ items: [bought('salt')], onTheWay, needs: needs('a', 5, { salt: 4n }) });
    expect(lackingOf(found, false)).toMatchObject([
      {
        quantity: 4n,
        day: on(5),
        reason: 'too late',
        readyOn: on(10),
        expedite: [{ lotId: 'r', quantity: 4n }],
      },
    ]);
  });

  it('is grouped by supplier, those of nobody last', () => {
    const items = [bought('a'), bought('b', { supplierId: 's' }), bought('c', { supplierId: 's' })];
    const groups = bySupplier(toOrder(ahead({ items, needs: needs('place', 40, { a: 1n, b: 1n, c: 1n }) })));
    expect(groups.map((one) => [one.supplierId, one.orders.map(({ item }) => item.id)])).toEqual([
      ['s', ['b', 'c']],
      [null, ['a']],
    ]);
  });
});

describe('what is to be mixed', () => {
  it('is whole batches, between the day it would keep from and the last day to ripen', () => {
    const facts = {
      items: [mixed('fixer', { lifeDays: 20 })],
      recipes: [recipe('fixer', 50n, {})],
      needs: [...needs('a', 30, { fixer: 40n }), ...needs('b', 36, { fixer: 30n })],
    };
    const [one, ...others] = toMix(ahead(facts));
    expect(others).toEqual([]);
    expect(one).toMatchObject({
      formulaId: 'fixer formula',
      quantity: 100n,
      batchQuantity: 50n,
      needed: 70n,
      near: false,
    });
    expect([one?.earliest, one?.latest, one?.usableOn]).toEqual([on(16), on(27), on(30)]);
    expect(one?.purpose.days).toEqual([on(30), on(36)]);
  });

  it('is never earlier than today, and begins anew when it has run out', () => {
    const facts = {
      items: [mixed('fixer', { lifeDays: 8, ripenDays: 2 })],
      needs: [...needs('a', 4, { fixer: 4n }), ...needs('b', 11, { fixer: 3n })],
    };
    expect(
      toMix(ahead(facts)).map((one) => [dayOf(one.earliest), dayOf(one.latest), Number(one.quantity)]),
    ).toEqual([
      [0, 2, 4],
      [3, 9, 3],
    ]);
  });

  it('names the ingredients that are missing, with what to do, and those that nobody counts', () => {
    const salted = recipe('fixer', 50n, { salt: 5n, sugar: 5n });
    salted.lines.push({ ingredient: 'Water', substance: null, itemId: null, quantity: 45n, unit: 'uL' });
    const facts = {
      items: [bought('salt'), bought('sugar'), mixed('fixer')],
      recipes: [salted],
      lots: [bottle('sugar', 5n)],
      needs: needs('a', 20, { fixer: 40n }),
    };
    const [one] = toMix(ahead(facts));
    expect(one?.lacking).toMatchObject([{ item: 'salt', action: 'order', by: on(7), into: 'fixer' }]);
    expect(one?.uncounted).toEqual(['Water']);
    // the ingredient is pressing before the batch is
    expect([dayOf(one?.latest ?? TODAY), one?.near]).toEqual([17, true]);
  });
});
