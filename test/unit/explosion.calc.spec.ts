// From solutions to what goes into them. The numbers are worked by hand.
import { ingredientsOf, mixings, parentsFirst } from '../../src/stock/explosion.calc.js';
import { lookAhead } from '../../src/stock/horizon.calc.js';
import { bottle, bought, dayOf, mixed, needs, on, recipe, shelf, TODAY } from '../support/shelf-facts.js';

describe('explosion', () => {
  it('finds ingredients by item, else by substance, and says which nobody counts', () => {
    const items = [
      bought('bromide', { unit: 'mg', substance: 'cadmium bromide' }),
      mixed('collodion'),
      bought('ether'),
    ];
    const lines = [
      { ingredient: 'Ether', substance: null, itemId: 'ether', quantity: 60n, unit: 'uL' as const },
      {
        ingredient: 'Bromide',
        substance: 'cadmium bromide',
        itemId: null,
        quantity: 7n,
        unit: 'mg' as const,
      },
      {
        ingredient: 'Bromide again',
        substance: 'cadmium bromide',
        itemId: null,
        quantity: 1n,
        unit: 'mg' as const,
      },
      { ingredient: 'Water', substance: 'water', itemId: null, quantity: 9n, unit: 'uL' as const },
      { ingredient: 'Ether by weight', substance: null, itemId: 'ether', quantity: 5n, unit: 'mg' as const },
    ];
    const found = mixings(items, [{ formulaId: 'collodion formula', batchQuantity: 100n, lines }]).get(
      'collodion',
    );
    expect(found?.takes).toEqual([
      { itemId: 'ether', quantity: 60n },
      { itemId: 'bromide', quantity: 8n },
    ]);
    expect(found?.uncounted).toEqual(['Water', 'Ether by weight']);
    // 250 of it take 150 and 20; 1 takes more than nothing
    expect(found && ingredientsOf(found, 250n).map((one) => one.quantity)).toEqual([150n, 20n]);
    expect(found && ingredientsOf(found, 1n).map((one) => one.quantity)).toEqual([1n, 1n]);
  });

  it('looks at an ingredient after all it goes into, through any number of steps', () => {
    const items = [bought('salt'), mixed('stock'), mixed('working')];
    const found = mixings(items, [
      recipe('stock', 10n, { salt: 1n }),
      recipe('working', 10n, { stock: 2n, salt: 1n }),
    ]);
    expect(parentsFirst(items, found).map((item) => item.id)).toEqual(['working', 'stock', 'salt']);
  });

  it('mixes nothing of itself', () => {
    const items = [mixed('a'), mixed('b'), mixed('c')];
    const found = mixings(items, [
      recipe('a', 10n, { b: 1n }),
      recipe('b', 10n, { a: 1n }),
      recipe('c', 10n, { a: 1n }),
    ]);
    expect([...found.keys()]).toEqual(['c']);
    expect(parentsFirst(items, found)).toHaveLength(3);
  });

  it('mixes as before what stands below a loop and goes into it', () => {
    const items = [mixed('a'), mixed('b'), mixed('c'), bought('d')];
    const found = mixings(items, [
      recipe('a', 10n, { a: 1n, b: 1n }),
      recipe('b', 10n, { c: 1n }),
      recipe('c', 10n, { d: 1n }),
    ]);
    expect([...found.keys()]).toEqual(['b', 'c']);
    expect(parentsFirst(items, found).map((item) => item.id)).toEqual(['a', 'b', 'c', 'd']);
  });

  it('asks for ingredients on the latest day to mix, of all solutions together', () => {
    const { items } = lookAhead(
      shelf({
        items: [
          bought('salt', { packQuantity: 50n }),
          mixed('stock', { ripenDays: 1 }),
          mixed('working', { heel: 5n }),
        ],
        recipes: [recipe('stock', 100n, { salt: 30n }), recipe('working', 50n, { stock: 20n, salt: 1n })],
        lots: [bottle('salt', 20n)],
        needs: needs('place', 30, { working: 60n }),
      }),
      TODAY,
    );
    const plannedOf = (id: string) =>
      items
        .get(id)
        ?.netted.planned.map((one) => [dayOf(one.releaseOn), dayOf(one.receiptOn), Number(one.quantity)]);
    // 60 and the heel of 5 are two batches of 50, mixed on day 27 of 40 stock and 2 salt
    expect(plannedOf('working')).toEqual([[27, 30, 100]]);
    // 40 stock are one batch of 100, mixed on day 26 of 30 salt
    expect(plannedOf('stock')).toEqual([[26, 27, 100]]);
    // 20 salt are there; 10 for day 26 and 2 for day 27 are one pack, ordered ten days before
    expect(plannedOf('salt')).toEqual([[16, 26, 50]]);
    expect([...(items.get('salt')?.needs.values() ?? [])].map((one) => [one.day, one.quantity])).toEqual([
      [on(27), 2n],
      [on(26), 30n],
    ]);
  });
});
