// The one planning rule: first expiring first within the class asked for, the earliest day first. Held against
// worked examples (derived by hand), and against a maximum flow as to how much can be covered at all.
import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import {
  cannotBeHad,
  lastChance,
  type PlanLot,
  type PlanNeed,
  planItem,
  supplyOf,
  usableOf,
  usableOn,
} from '../../src/stock/plan.calc.js';
import { type LotClass, withExtras } from '../../src/stock/stock.schemas.js';

/** Days are counted from the last of April 2027. */
const day = (number: number) => Temporal.PlainDate.from('2027-04-30').add({ days: number });
const lot = (
  id: string,
  usable: bigint,
  until: number | null,
  from = 1,
  kind: LotClass = 'ordinary',
): PlanLot => ({
  id,
  usable,
  usableFrom: day(from),
  usableUntil: until === null ? null : day(until),
  class: kind,
});
const need = (key: string, on: number, quantity: bigint, more: Partial<PlanNeed> = {}): PlanNeed => ({
  key,
  day: day(on),
  quantity,
  class: 'any',
  chosenLotId: null,
  ...more,
});
const told = (needs: PlanNeed[], lots: PlanLot[]) => {
  const { fromLots, missing } = planItem(needs, lots);
  return [
    ...fromLots.map((part) => `${part.needKey}: ${part.quantity} of ${part.lotId}`),
    ...missing.map((part) => `${part.needKey}: ${part.quantity} missing`),
  ];
};

describe('first expiring first', () => {
  const lots = [lot('L1', 5n, 10), lot('L2', 8n, 6), lot('L3', 4n, 20)];

  it('takes what runs out first as long as it can be used, its last day included (derived by hand)', () => {
    const needs = [need('day 5', 5, 6n), need('day 6', 6, 5n), need('day 11', 11, 4n)];
    expect(told(needs, lots)).toEqual([
      'day 5: 6 of L2',
      'day 6: 2 of L2',
      'day 6: 3 of L1',
      'day 11: 4 of L3',
    ]);
    // On day 7, L2 has run out: 2 of L1 and 4 of L3 are left to use. On day 11, those 2 of L1 have gone to waste.
    const used = needs.slice(0, 2);
    expect(told([...used, need('day 7', 7, 7n)], lots).slice(3)).toEqual([
      'day 7: 2 of L1',
      'day 7: 4 of L3',
      'day 7: 1 missing',
    ]);
    expect(told([...used, need('day 11', 11, 5n)], lots).slice(3)).toEqual([
      'day 11: 4 of L3',
      'day 11: 1 missing',
    ]);
  });

  it('is not first in, first out: 9 on day 5 leave nothing of what runs out on day 6 (derived by hand)', () => {
    expect(told([need('day 5', 5, 9n)], lots)).toEqual(['day 5: 8 of L2', 'day 5: 1 of L1']);
  });

  it('takes what never runs out last, and of equal ends the first by id', () => {
    const same = [lot('c', 1n, null), lot('b', 1n, 9), lot('a', 1n, 9)];
    expect(told([need('n', 5, 3n)], same)).toEqual(['n: 1 of a', 'n: 1 of b', 'n: 1 of c']);
  });

  it('serves the earliest day first, in whatever order the needs come', () => {
    const needs = [need('late', 9, 4n), need('early', 8, 4n)];
    expect(told(needs, [lot('L', 5n, 9)])).toEqual(['early: 4 of L', 'late: 1 of L', 'late: 3 missing']);
  });

  it('waits for a bottle that is still ripening', () => {
    expect(told([need('n', 4, 1n)], [lot('L', 5n, 9, 5)])).toEqual(['n: 1 missing']);
    expect(told([need('n', 5, 1n)], [lot('L', 5n, 9, 5)])).toEqual(['n: 1 of L']);
  });
});

describe('the class a sitting asks for', () => {
  const lots = [lot('fresh', 2n, 30, 1, 'fresh'), lot('ordinary', 2n, 20), lot('old', 2n, 10, 1, 'old')];

  it.each([
    ['any', ['ordinary', 'old', 'fresh']],
    ['fresh', ['fresh', 'ordinary', 'old']],
    ['old', ['old', 'ordinary', 'fresh']],
  ] as const)('%s takes bottles in the order %s', (asked, order) => {
    expect(told([need('n', 5, 6n, { class: asked })], lots)).toEqual(order.map((id) => `n: 2 of ${id}`));
  });

  it('gives way to the bottle the owner chose, also where an earlier day would have taken it', () => {
    const chosen = need('child', 9, 2n, { chosenLotId: 'old' });
    expect(told([need('first', 5, 3n), chosen], lots)).toEqual([
      'child: 2 of old',
      'first: 2 of ordinary',
      'first: 1 of fresh',
    ]);
  });

  it('is asked for again where the chosen bottle cannot serve or has not enough', () => {
    const late = need('n', 15, 3n, { chosenLotId: 'old' });
    expect(told([late], lots)).toEqual(['n: 2 of ordinary', 'n: 1 of fresh']);
    const much = need('n', 5, 3n, { chosenLotId: 'fresh' });
    expect(told([much], lots)).toEqual(['n: 2 of fresh', 'n: 1 of ordinary']);
  });
});

describe('what of a bottle can be poured', () => {
  const bottle = { onHand: 150n, state: 'good' } as const;

  it('is what stands above its heel, and nothing below the least pour', () => {
    expect(usableOf(bottle, { heel: 40n, leastPour: 100n })).toBe(110n);
    expect(usableOf(bottle, { heel: 50n, leastPour: 100n })).toBe(100n);
    expect(usableOf(bottle, { heel: 51n, leastPour: 100n })).toBe(0n);
    expect(usableOf(bottle, { heel: 160n, leastPour: 0n })).toBe(0n);
  });

  it('is nothing of one that is suspect or gone', () => {
    expect(usableOf({ ...bottle, state: 'suspect' }, { heel: 0n, leastPour: 0n })).toBe(0n);
    expect(usableOf({ onHand: 0n, state: 'gone' }, { heel: 0n, leastPour: 0n })).toBe(0n);
  });
});

describe('what cannot be had any more', () => {
  const today = day(1);
  const late = (days: number | null, onTheWay: PlanLot[] = []) => [
    ...cannotBeHad([need('n', 8, 5n)], onTheWay, { ripenDays: null, leadDays: days }, today),
  ];

  it('is what neither comes nor can be mixed or ordered in time', () => {
    expect(late(7)).toEqual([]);
    expect(late(8)).toEqual([['n', 5n]]);
    expect(late(null)).toEqual([['n', 5n]]);
  });

  it('is less by what is ordered and comes in time', () => {
    expect(late(null, [lot('ordered', 3n, null, 8)])).toEqual([['n', 2n]]);
    expect(late(null, [lot('ordered', 3n, null, 9)])).toEqual([['n', 5n]]);
  });

  it('goes by ripening where it is mixed, else by the item’s lead time, else by its supplier’s', () => {
    const item = (leadDays: number | null, ripenDays: number | null) => ({
      id: 'i',
      ...withExtras({
        name: 'i',
        kind: 'chemical',
        unit: 'mg',
        plateSizeId: null,
        leadDays,
        ripenDays,
        lifeDays: null,
        supplierLeadDays: 9,
      }),
    });
    const by = (lead: number | null, ripen: number | null) =>
      lastChance(supplyOf(item(lead, ripen)), day(20));
    expect(by(5, 2)).toEqual(day(18));
    expect(by(5, null)).toEqual(day(15));
    expect(by(null, null)).toEqual(day(11));
  });
});

describe('any plan', () => {
  const small = { min: 0n, max: 6n };
  const kind = fc.constantFrom<LotClass>('fresh', 'ordinary', 'old');
  const anyLot = (id: string, classes: fc.Arbitrary<LotClass>) =>
    fc
      .record({ usable: fc.bigInt(small), from: fc.nat(8), life: fc.option(fc.nat(6)), of: classes })
      .map(({ usable, from, life, of }) => lot(id, usable, life === null ? null : from + life, from, of));
  const anyLots = (classes: fc.Arbitrary<LotClass>) =>
    fc.tuple(...['L1', 'L2', 'L3'].map((id) => anyLot(id, classes)));
  const asked = fc.constantFrom<PlanNeed['class']>('fresh', 'any', 'old');
  const anyNeeds = (chosen: fc.Arbitrary<string | null>) =>
    fc
      .array(fc.record({ on: fc.nat(12), quantity: fc.bigInt(small), class: asked, chosenLotId: chosen }), {
        maxLength: 5,
      })
      .map((all) => all.map(({ on, quantity, ...rest }, at) => need(`n${at}`, on, quantity, rest)));

  it('gives each need all it asks or says what is missing, and of no lot more than there is, on its days only', () => {
    const chosen = fc.constantFrom(null, 'L1', 'L2', 'none');
    fc.assert(
      fc.property(anyLots(kind), anyNeeds(chosen), (lots, needs) => {
        const plan = planItem(needs, lots);
        for (const one of needs) {
          const given = plan.fromLots.filter((part) => part.needKey === one.key);
          const missing = plan.missing.filter((part) => part.needKey === one.key);
          expect(sum(given) + sum(missing)).toBe(one.quantity);
          for (const part of given)
            expect(usableOn(lots.find((found) => found.id === part.lotId)!, one.day)).toBe(true);
        }
        for (const found of lots)
          expect(sum(plan.fromLots.filter((part) => part.lotId === found.id)) <= found.usable).toBe(true);
        expect([...plan.fromLots, ...plan.missing].every((part) => part.quantity > 0n)).toBe(true);
        expect(planItem([...needs].reverse(), [...lots].reverse())).toEqual(plan);
      }),
    );
  });

  it('of lots of one class covers as much in all as a maximum flow', () => {
    fc.assert(
      fc.property(anyLots(fc.constant('ordinary' as const)), anyNeeds(fc.constant(null)), (lots, needs) => {
        expect(Number(sum(planItem(needs, lots).fromLots))).toBe(maximumFlow(needs, lots));
      }),
      { numRuns: 500 },
    );
  });

  it('in which a choice wastes a bottle covers less, as the same flow shows', () => {
    const lots = [lot('short', 1n, 5), lot('long', 1n, 9)];
    const needs = [need('a', 5, 1n), need('b', 9, 1n)];
    const backwards = [need('b', 5, 1n, { chosenLotId: 'long' }), need('a', 9, 1n)];
    expect(Number(sum(planItem(needs, lots).fromLots))).toBe(maximumFlow(needs, lots));
    expect(Number(sum(planItem(backwards, lots).fromLots))).toBeLessThan(maximumFlow(backwards, lots));
  });
});

const sum = (parts: { quantity: bigint }[]) => parts.reduce((all, part) => all + part.quantity, 0n);

/** The most that lots can give to needs: unit by unit along augmenting paths (Ford and Fulkerson, 1956). */
function maximumFlow(needs: PlanNeed[], lots: PlanLot[]): number {
  const left = lots.map((one) => Number(one.usable));
  const wanted = needs.map((one) => Number(one.quantity));
  const flow = needs.map(() => lots.map(() => 0));
  const place = (at: number, seen: Set<number>): boolean => {
    for (const [to, one] of lots.entries()) {
      if (seen.has(to) || !usableOn(one, needs[at]!.day)) continue;
      seen.add(to);
      if (left[to]! > 0) {
        left[to]!--;
        flow[at]![to]!++;
        return true;
      }
      for (const other of needs.keys())
        if (flow[other]![to]! > 0 && place(other, seen)) {
          flow[other]![to]!--;
          flow[at]![to]!++;
          return true;
        }
    }
    return false;
  };
  let total = 0;
  for (const at of needs.keys())
    while (wanted[at]! > 0 && place(at, new Set())) {
      wanted[at]!--;
      total++;
    }
  return total;
}
