// One item day by day: held against a simulation that pours from bottle to bottle, a day after the other.
import fc from 'fast-check';
import { lookAhead, type ShelfFacts } from '../../src/stock/horizon.calc.js';
import { type Projection, projectionOf } from '../../src/stock/projection.calc.js';
import { bottle, bought, dayOf, mixed, needs, on, shelf, TODAY } from '../support/shelf-facts.js';

const LAST = 40;

function projected(facts: ShelfFacts, itemId: string): Projection {
  const ahead = lookAhead(facts, TODAY).items.get(itemId);
  if (!ahead) throw new Error(`No ${itemId} on the shelf.`);
  return projectionOf(ahead, TODAY, on(LAST));
}

const brief = ({ days }: Projection) =>
  days.map((one) => [
    dayOf(one.day),
    ...[one.onHand, one.setAside, one.came, one.used, one.ranOut, one.short].map(Number),
  ]);

describe('the projection of an item', () => {
  it('tells what comes, is used, is set aside, runs out and falls short', () => {
    const facts = shelf({
      items: [bought('fixer')],
      lots: [bottle('fixer', 10n, { from: -5, until: 12 }), bottle('fixer', 5n, { from: 8 })],
      needs: [
        ...needs('a', 4, { fixer: 4n }),
        ...needs('b', 10, { fixer: 3n }),
        ...needs('c', 20, { fixer: 12n }),
      ],
      onTheWay: [{ receiptId: 'r', itemId: 'fixer', quantity: 2n, expectedOn: on(15) }],
    });
    expect(brief(projected(facts, 'fixer'))).toEqual([
      // day, on hand, set aside, came, used, ran out, short
      [0, 10, 7, 10, 0, 0, 0],
      [4, 6, 3, 0, 4, 0, 0],
      [8, 11, 8, 5, 0, 0, 0],
      [10, 8, 5, 0, 3, 0, 0],
      [13, 5, 5, 0, 0, 3, 0],
      [15, 7, 7, 2, 0, 0, 0],
      [20, 0, 0, 0, 7, 0, 5],
    ]);
  });

  it('tells what is suggested beside what is there', () => {
    const facts = shelf({
      items: [bought('fixer', { packQuantity: 8n })],
      needs: needs('a', 20, { fixer: 12n }),
    });
    const { days, suggested } = projected(facts, 'fixer');
    expect(suggested).toEqual([{ day: on(20), quantity: 16n }]);
    expect(days.at(-1)).toMatchObject({ onHand: 0n, short: 12n });
  });

  it('hopes for today what should have come, and leaves out what lies beyond', () => {
    const facts = shelf({
      items: [bought('fixer')],
      lots: [bottle('fixer', 3n, { until: 60 })],
      needs: needs('a', 50, { fixer: 2n }),
      onTheWay: [{ receiptId: 'r', itemId: 'fixer', quantity: 2n, expectedOn: on(-9) }],
    });
    expect(brief(projected(facts, 'fixer'))).toEqual([[0, 5, 2, 5, 0, 0, 0]]);
  });

  it('counts no suspect bottle, no heel and nothing that is set aside for days past', () => {
    const facts = shelf({
      items: [mixed('collodion', { heel: 2n, leastPour: 3n })],
      lots: [
        bottle('collodion', 10n, {}, { id: 'held' }),
        bottle('collodion', 4n),
        bottle('collodion', 90n, {}, { state: 'suspect' }),
      ],
      past: new Map([['held', 5n]]),
    });
    expect(brief(projected(facts, 'collodion'))).toEqual([[0, 3, 0, 3, 0, 0, 0]]);
  });

  it('agrees with a simulation of every day', () => {
    const quantity = fc.integer({ min: 1, max: 9 });
    const anyLot = fc.record({
      quantity,
      from: fc.integer({ min: -9, max: 30 }),
      life: fc.option(fc.nat(20), { nil: null }),
    });
    const anyNeed = fc.record({ quantity, day: fc.nat(LAST) });
    const anyOrder = fc.record({ quantity, day: fc.integer({ min: -3, max: 30 }) });
    const cases = fc.tuple(
      fc.array(anyLot, { maxLength: 5 }),
      fc.array(anyNeed, { maxLength: 8 }),
      fc.array(anyOrder, { maxLength: 3 }),
      fc.option(fc.nat(15), { nil: null }),
    );
    fc.assert(
      fc.property(cases, ([lots, wanted, orders, lifeDays]) => {
        const facts = shelf({
          items: [bought('fixer', { lifeDays })],
          lots: lots.map(({ quantity: much, from, life }) =>
            bottle('fixer', BigInt(much), { from, until: life === null ? null : from + life }),
          ),
          needs: wanted.flatMap((one, at) => needs(`place ${at}`, one.day, { fixer: BigInt(one.quantity) })),
          onTheWay: orders.map((one, at) => ({
            receiptId: `order ${at}`,
            itemId: 'fixer',
            quantity: BigInt(one.quantity),
            expectedOn: on(one.day),
          })),
        });
        const everyDay = simulated(facts, lifeDays);
        const { days } = projected(facts, 'fixer');
        let told = -1;
        everyDay.forEach((expected, day) => {
          if (days[told + 1] && dayOf(days[told + 1]?.day ?? TODAY) === day) told += 1;
          const found = days[told];
          const now = found && dayOf(found.day) === day;
          const moves = [found?.came, found?.used, found?.ranOut, found?.short].map((one) =>
            now ? Number(one) : 0,
          );
          expect([day, Number(found?.onHand), Number(found?.setAside), ...moves]).toEqual([day, ...expected]);
        });
        expect(told).toBe(days.length - 1);
      }),
      { numRuns: 200 },
    );
  });
});

/** For each day: on hand and set aside in the evening, came, used, ran out, short. */
function simulated(facts: ShelfFacts, lifeDays: number | null): number[][] {
  const hand = facts.lots.map((lot) => ({
    left: Number(lot.onHand),
    from: dayOf(lot.usableFrom),
    until: lot.usableUntil === null ? Infinity : dayOf(lot.usableUntil),
    id: lot.id,
  }));
  const way = facts.onTheWay.map(({ receiptId: id, quantity, expectedOn }) => {
    const from = Math.max(0, dayOf(expectedOn));
    return { left: Number(quantity), from, until: lifeDays === null ? Infinity : from + lifeDays, id };
  });
  const all = [...hand, ...way];
  const there = (lot: (typeof all)[number], day: number) => lot.from <= day && day <= lot.until;
  const poured: { day: number; from: number; quantity: number }[] = [];
  const rows: number[][] = [];
  for (let day = 0; day <= LAST; day++) {
    const began = (lot: (typeof all)[number]) => lot.from === day || (day === 0 && lot.from < 0);
    const came = all.filter((lot) => began(lot) && lot.until >= day).reduce((sum, lot) => sum + lot.left, 0);
    const ranOut =
      day === 0 ? 0 : all.filter((lot) => lot.until === day - 1).reduce((sum, lot) => sum + lot.left, 0);
    let used = 0;
    let short = 0;
    const due = facts.needs.filter((need) => dayOf(need.neededOn) === day);
    for (const need of due.sort((a, b) => (a.heldFor < b.heldFor ? -1 : 1))) {
      let wanted = Number(need.quantity);
      for (const bottles of [hand, way])
        for (const lot of [...bottles].sort((a, b) => a.until - b.until || (a.id < b.id ? -1 : 1))) {
          const gives = there(lot, day) ? Math.min(wanted, lot.left) : 0;
          lot.left -= gives;
          wanted -= gives;
          used += gives;
          if (gives > 0) poured.push({ day, from: lot.from, quantity: gives });
        }
      short += wanted;
    }
    const onHand = all.filter((lot) => there(lot, day)).reduce((sum, lot) => sum + lot.left, 0);
    rows.push([onHand, 0, came, used, ranOut, short]);
  }
  return rows.map((row, day) => {
    const aside = poured.filter((one) => one.day > day && one.from <= day);
    return row.with(
      1,
      aside.reduce((sum, one) => sum + one.quantity, 0),
    );
  });
}
