// Time-phased netting. Two published exercises: the seat subassembly C of Krajewski and Ritzman, "Operations
// Management" (lot 230, lead 2, on hand 37; its solution worked by hand), and lot 200, lead 4, on hand 100 of
// homeworksource 1020430, whose shortage comes too late to order.
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { net, type Netted, type NettingRule, type NettingStock } from '../../src/stock/netting.calc.js';
import type { PlanLot, PlanNeed } from '../../src/stock/plan.calc.js';

const START = Temporal.PlainDate.from('2027-03-01');
const on = (day: number) => START.add({ days: day });
/** The Monday of a week of an exercise, counted from 1. */
const week = (number: number) => on(number * 7);
const weekOf = (date: Temporal.PlainDate) => START.until(date).days / 7;
const lot = (
  id: string,
  usable: number,
  usableFrom: Temporal.PlainDate,
  until: Temporal.PlainDate | null = null,
) => ({
  id,
  usable: BigInt(usable),
  usableFrom,
  usableUntil: until,
  class: 'ordinary' as const,
});
const need = (key: string, day: Temporal.PlainDate, quantity: number): PlanNeed => ({
  key,
  day,
  quantity: BigInt(quantity),
  class: 'any',
  chosenLotId: null,
});
const RULE: NettingRule = {
  leadDays: 0,
  lifeDays: null,
  lotSize: null,
  leastLots: 1,
  heel: 0n,
  leastUsable: 0n,
  togetherDays: 0,
  most: null,
};
const stockOf = (onHand: PlanLot[], onTheWay: PlanLot[] = []): NettingStock => ({
  onHand,
  onTheWay: onTheWay.map((one) => ({ ...one, quantity: one.usable })),
  inAll: onHand.reduce((sum, one) => sum + one.usable, 0n),
});

/** An exercise in weeks: gross requirements and receipts by week. */
function exercise(
  onHand: number,
  gross: number[],
  receipts: Record<number, number>,
  rule: Partial<NettingRule>,
) {
  const needs = gross.map((quantity, at) => need(`week ${at + 1}`, week(at + 1), quantity));
  const coming = Object.entries(receipts).map(([at, quantity]) =>
    lot(`receipt ${at}`, quantity, week(Number(at))),
  );
  const stock = stockOf([lot('on hand', onHand, START)], coming);
  const found = net(needs, stock, { ...RULE, ...rule }, week(1));
  const held = (lots: PlanLot[], until: number) =>
    lots.reduce((sum, one) => sum + (weekOf(one.usableFrom) <= until ? one.usable : 0n), 0n);
  const all = [...stock.onHand, ...coming, ...found.plannedLots];
  const used = (until: number) =>
    found.given.reduce((sum, one) => sum + (Number(one.needKey.slice(5)) <= until ? one.quantity : 0n), 0n);
  return { found, onHand: gross.map((_, at) => Number(held(all, at + 1) - used(at + 1))) };
}

describe('netting', () => {
  it('releases the lots of the seat subassembly in weeks 2 and 5', () => {
    const { found, onHand } = exercise(
      37,
      [150, 0, 0, 120, 0, 150, 120, 0],
      { 1: 230 },
      { lotSize: 230n, leadDays: 14 },
    );
    expect(onHand).toEqual([117, 117, 117, 227, 227, 77, 187, 187]);
    expect(
      found.planned.map((one) => [weekOf(one.receiptOn), one.net, one.quantity, weekOf(one.releaseOn)]),
    ).toEqual([
      [4, 3n, 230n, 2],
      [7, 43n, 230n, 5],
    ]);
    expect(found.short).toEqual([]);
  });

  it('orders nothing where receipts suffice', () => {
    const { found, onHand } = exercise(
      100,
      [50, 125, 100, 60, 40],
      { 2: 200, 4: 200 },
      { lotSize: 200n, leadDays: 28 },
    );
    expect(onHand).toEqual([50, 125, 25, 165, 125]);
    expect(found.planned).toEqual([]);
    expect(found.short).toEqual([]);
  });

  it('says to hasten the receipt of week 4 when an order for week 3 would come too late', () => {
    const { found } = exercise(
      100,
      [50, 125, 150, 60, 40],
      { 2: 200, 4: 200 },
      { lotSize: 200n, leadDays: 28 },
    );
    expect(found.planned).toEqual([]);
    expect(found.short).toEqual([
      {
        needKey: 'week 3',
        day: week(3),
        quantity: 25n,
        reason: 'too late',
        expedite: [{ lotId: 'receipt 4', quantity: 25n }],
      },
    ]);
  });

  it('does not hasten what others are given, nor the same twice', () => {
    const { found } = exercise(0, [30, 30, 0, 100], { 4: 140 }, { leadDays: 28 });
    expect(found.short.map((one) => one.expedite)).toEqual([
      [{ lotId: 'receipt 4', quantity: 30n }],
      [{ lotId: 'receipt 4', quantity: 10n }],
    ]);
  });

  it('takes short days together as far as a receipt keeps', () => {
    const needs = [need('a', on(10), 5), need('b', on(20), 5), need('c', on(30), 5)];
    const planned = (rule: Partial<NettingRule>) =>
      net(needs, stockOf([]), { ...RULE, ...rule }, START).planned.map((one) => Number(one.quantity));
    expect(planned({ togetherDays: 0 })).toEqual([5, 5, 5]);
    expect(planned({ togetherDays: 14 })).toEqual([10, 5]);
    expect(planned({ togetherDays: 14, lifeDays: 9 })).toEqual([5, 5, 5]);
    expect(planned({ togetherDays: 0, lotSize: 4n, leastLots: 3 })).toEqual([12, 12]);
    expect(planned({ togetherDays: 0, heel: 3n })).toEqual([8, 8, 8]);
    expect(planned({ togetherDays: 0, leastUsable: 9n, heel: 1n })).toEqual([10, 10]);
  });

  it('lets what is left of a receipt run out', () => {
    const needs = [need('a', on(10), 5), need('b', on(20), 5)];
    const found = net(needs, stockOf([]), { ...RULE, lotSize: 10n, lifeDays: 9 }, START);
    expect(found.planned.map((one) => START.until(one.receiptOn).days)).toEqual([10, 20]);
  });

  it('says what never comes', () => {
    const found = net([need('a', on(10), 5)], stockOf([]), { ...RULE, leadDays: null }, START);
    expect(found.short).toMatchObject([{ needKey: 'a', quantity: 5n, reason: 'never comes', expedite: [] }]);
  });

  it('cuts an order down to the limit, and orders the rest when there is room', () => {
    const needs = [need('a', on(10), 6), need('b', on(12), 6), need('c', on(14), 6)];
    const found = net(needs, stockOf([]), { ...RULE, togetherDays: 14, most: 10n, lotSize: 2n }, START);
    expect(found.planned.map((one) => [START.until(one.receiptOn).days, one.quantity, one.limited])).toEqual([
      [10, 10n, true],
      [12, 6n, true],
      [14, 2n, false],
    ]);
    expect(found.short).toEqual([]);
  });

  it('says what the limit leaves short', () => {
    const suspect = { ...stockOf([]), inAll: 8n };
    const found = net([need('a', on(10), 6)], suspect, { ...RULE, most: 10n, lotSize: 5n }, START);
    expect(found.planned).toEqual([]);
    expect(found.short).toMatchObject([{ needKey: 'a', quantity: 6n, reason: 'over the limit' }]);
  });

  it('never passes the limit on any day, never releases in the past, and loses no need', () => {
    const quantity = fc.integer({ min: 1, max: 12 });
    const anyNeed = fc.record({ day: fc.integer({ min: 0, max: 40 }), quantity });
    const anyLot = fc.record({
      usable: quantity,
      from: fc.integer({ min: 0, max: 40 }),
      life: fc.integer({ min: 0, max: 20 }),
    });
    const anyRule = fc.record({
      leadDays: fc.integer({ min: 0, max: 10 }),
      lifeDays: fc.option(fc.integer({ min: 0, max: 20 }), { nil: null }),
      lotSize: fc.option(fc.bigInt({ min: 1n, max: 9n }), { nil: null }),
      leastLots: fc.integer({ min: 1, max: 3 }),
      heel: fc.bigInt({ min: 0n, max: 3n }),
      leastUsable: fc.bigInt({ min: 0n, max: 3n }),
      togetherDays: fc.integer({ min: 0, max: 14 }),
      most: fc.option(fc.bigInt({ min: 0n, max: 30n }), { nil: null }),
    });
    fc.assert(
      fc.property(
        fc.array(anyNeed, { maxLength: 8 }),
        fc.array(anyLot, { maxLength: 4 }),
        fc.nat(3),
        anyRule,
        (many, some, here, rule) => {
          const needs = many.map((one, at) => need(`need ${at}`, on(one.day), one.quantity));
          const lots = some.map(({ usable, from, life }, at) =>
            lot(`lot ${at}`, usable, on(at < here ? 0 : from), on(from + life)),
          );
          const stock = stockOf(lots.slice(0, here), lots.slice(here));
          const found = net(needs, stock, rule, START);
          for (const { key, quantity: asked } of needs) {
            const parts = [...found.given, ...found.short].filter((one) => one.needKey === key);
            expect(parts.reduce((sum, one) => sum + one.quantity, 0n)).toBe(asked);
          }
          for (const one of found.planned) expect(START.until(one.releaseOn).days).toBeGreaterThanOrEqual(0);
          const { most } = rule;
          const first = found.planned[0]?.receiptOn;
          for (
            let day = first;
            most !== null && day && START.until(day).days < 62;
            day = day.add({ days: 1 })
          )
            expect(levelOn(day, stock, found, needs)).toBeLessThanOrEqual(most);
        },
      ),
      { numRuns: 300 },
    );
  });
});

/** What stands on the shelf on the morning of a day, counted bottle by bottle. */
function levelOn(day: Temporal.PlainDate, stock: NettingStock, found: Netted, needs: PlanNeed[]): bigint {
  const before = (one: Temporal.PlainDate) => Temporal.PlainDate.compare(one, day) < 0;
  const held = (id: string, quantity: bigint, from: Temporal.PlainDate, until: Temporal.PlainDate | null) => {
    if (Temporal.PlainDate.compare(from, day) > 0 || (until && before(until))) return 0n;
    const gone = found.given.filter(
      ({ needKey, lotId }) =>
        lotId === id && needs.some(({ key, day: used }) => key === needKey && before(used)),
    );
    return quantity - gone.reduce((sum, one) => sum + one.quantity, 0n);
  };
  const lots = [...stock.onHand, ...stock.onTheWay].map((one) =>
    held(one.id, one.usable, one.usableFrom, one.usableUntil),
  );
  const planned = found.planned.map((one, at) =>
    held(one.id, one.quantity, one.receiptOn, found.plannedLots[at]?.usableUntil ?? null),
  );
  return [...lots, ...planned].reduce((sum, one) => sum + one, 0n);
}
