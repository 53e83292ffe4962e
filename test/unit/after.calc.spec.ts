// What a class took of which bottle: worked by hand, and as a rule over cases drawn by chance.
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { dayOfClasses, type Took, takenOf } from '../../src/teaching/after.calc.js';
import { type Lot, withLotExtras } from '../../src/stock/stock.schemas.js';

const from = Temporal.PlainDate.from('2027-01-01');
const lot = (id: string, itemId: string, onHand: bigint): Lot => ({
  ...withLotExtras({ itemId, label: id, usableFrom: from, usableUntil: null }),
  id,
  onHand,
  reserved: 0n,
});
const held = (holder: string, lotId: string, quantity: bigint) => ({ holder, lotId, quantity });
const took = (change: Partial<Took>): Took => ({
  held: [held('day', 'A', 10n), held('ada', 'A', 30n), held('bo', 'B', 20n)],
  absent: new Set(),
  told: new Map(),
  lots: [lot('A', 'collodion', 100n), lot('B', 'collodion', 50n), lot('C', 'collodion', 40n)],
  ...change,
});
const quantities = (facts: Took): Record<string, bigint> | string => {
  const found = takenOf(facts);
  if (!found.ok) return `${found.reason}: ${found.itemId}`;
  return Object.fromEntries(found.used.map(({ lotId, quantity }) => [lotId, quantity]));
};

it('is what was set aside for the day and those who came, where nothing was measured', () => {
  expect(quantities(took({}))).toEqual({ A: 40n, B: 20n });
  expect(quantities(took({ absent: new Set(['ada']) }))).toEqual({ A: 10n, B: 20n });
});

it('is what was measured, whoever came: of what was set aside first, then of the same bottles, then of others', () => {
  const measured = (quantity: bigint) =>
    quantities(took({ told: new Map([['collodion', quantity]]), absent: new Set(['ada', 'bo']) }));
  expect(measured(0n)).toEqual({});
  expect(measured(45n)).toEqual({ A: 40n, B: 5n });
  expect(measured(100n)).toEqual({ A: 80n, B: 20n });
  expect(measured(175n)).toEqual({ A: 100n, B: 50n, C: 25n });
  expect(measured(191n)).toBe('not so much in it: collodion');
});

it('takes no more of a bottle than is in it, where less is left than was set aside', () => {
  const lots = [lot('A', 'collodion', 25n), lot('B', 'collodion', 50n)];
  expect(quantities(took({ lots }))).toEqual({ A: 25n, B: 20n });
});

it('never takes of a bottle what is not in it, and exactly what was measured, whatever was set aside', () => {
  const amount = fc.bigInt({ min: 0n, max: 60n });
  const lots = fc
    .tuple(amount, amount, amount)
    .map(([a, b, c]) => [lot('A', 'collodion', a), lot('B', 'collodion', b), lot('C', 'fixer', c)]);
  const holdings = fc.array(
    fc.record({
      holder: fc.constantFrom('day', 'ada'),
      lotId: fc.constantFrom('A', 'B', 'C'),
      quantity: amount,
    }),
  );
  fc.assert(
    fc.property(lots, holdings, amount, fc.boolean(), (bottles, all, quantity, adaCame) => {
      const absent = new Set(adaCame ? [] : ['ada']);
      const found = takenOf({ held: all, absent, told: new Map([['collodion', quantity]]), lots: bottles });
      const there = bottles.slice(0, 2).reduce((sum, { onHand }) => sum + onHand, 0n);
      if (!found.ok) return quantity > there;
      const of = (id: string) => found.used.find(({ lotId }) => lotId === id)?.quantity ?? 0n;
      const within = bottles.every(({ id, onHand }) => of(id) <= onHand);
      const once = new Set(found.used.map(({ lotId }) => lotId)).size === found.used.length;
      return within && once && of('A') + of('B') === quantity;
    }),
  );
});

it('tells the figures the sum of a day’s classes, and of a kind only what every class measured', () => {
  const size = { id: 'half', name: 'Half', widthMm: 100, heightMm: 200, offered: true, position: 1 };
  const made = (tries: number, keepers: number) => [{ maker: 'x', plateSizeId: 'half', tries, keepers }];
  const day = dayOfClasses(
    [
      { plates: [...made(3, 1), ...made(2, 2)], used: { collodion: 5n, silver: 7n } },
      { plates: made(4, 0), used: { collodion: 6n } },
      { plates: made(0, 0), used: {} }, // tells nothing, and is in nobody's way
    ],
    [size],
  );
  expect(day).toEqual({
    plates: [{ plateSizeId: 'half', areaUm2: 20_000_000_000n, tries: 9, keepers: 3 }],
    used: { collodion: 11n },
  });
});
