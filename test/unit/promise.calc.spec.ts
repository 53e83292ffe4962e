// Available to promise. The vector: on hand 56, master schedule 30, 35, 0, 24, 0, 25, 44, 28, orders 41, 19, 39, 11,
// 25, 20, 10, 0, from an exercise published at solvely.ai (question 326038923). Its printed answer is wrong; ours is
// worked by hand from the rule of the APICS dictionary.
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { type PlanLot, type PlanNeed, planItem } from '../../src/stock/plan.calc.js';
import { carriedBack, discretePromise, mayPromise, promisable } from '../../src/stock/promise.calc.js';

const big = (numbers: number[]) => numbers.map(BigInt);
const plain = (found: (bigint | null)[]) => found.map((one) => (one === null ? null : Number(one)));
const SCHEDULE = big([30, 35, 0, 24, 0, 25, 44, 28]);
const ORDERS = big([41, 19, 39, 11, 25, 20, 10, 0]);
const DISCRETE = [45, -23, null, -12, null, 5, 34, 28];
const CARRIED = [10, 0, null, 0, null, 5, 34, 28];

/** What the vector must give; the checks below use it for ours and for the two mistakes behind the printed answer. */
const agrees = (discrete: (bigint | null)[], carried: (bigint | null)[]) =>
  JSON.stringify([plain(discrete), plain(carried)]) === JSON.stringify([DISCRETE, CARRIED]);

describe('available to promise', () => {
  it('is that of the worked vector, discrete and with shortages carried back', () => {
    const discrete = discretePromise(56n, SCHEDULE, ORDERS);
    expect(plain(discrete)).toEqual(DISCRETE);
    expect(plain(carriedBack(discrete))).toEqual(CARRIED);
    expect(agrees(discrete, carriedBack(discrete))).toBe(true);
  });

  it('is not the printed answer, which forgets shortages and counts the orders of week 7 twice', () => {
    const twice = ORDERS.map((order, week) => (week === 5 ? order + (ORDERS[6] ?? 0n) : order));
    const forgets = (found: (bigint | null)[]) => found.map((one) => (one !== null && one < 0n ? 0n : one));
    const printed = forgets(discretePromise(56n, SCHEDULE, twice));
    expect(plain(printed).map((one) => one ?? 0)).toEqual([45, 0, 0, 0, 0, 0, 34, 28]);
    expect(agrees(printed, printed)).toBe(false);
    // either mistake alone is found too
    const zeroed = forgets(discretePromise(56n, SCHEDULE, ORDERS));
    expect(agrees(zeroed, carriedBack(zeroed))).toBe(false);
    const counted = discretePromise(56n, SCHEDULE, twice);
    expect(agrees(counted, carriedBack(counted))).toBe(false);
  });

  it('leaves in the first bucket what nothing before it can give', () => {
    expect(plain(carriedBack(discretePromise(3n, big([0, 0]), big([2, 4]))))).toEqual([-3, null]);
    expect(plain(carriedBack([]))).toEqual([]);
  });
});

const TODAY = Temporal.PlainDate.from('2027-03-01');
const on = (day: number) => TODAY.add({ days: day });
const lot = (id: string, usable: number, from: number, until: number | null): PlanLot => ({
  id,
  usable: BigInt(usable),
  usableFrom: on(from),
  usableUntil: until === null ? null : on(until),
  class: 'ordinary',
});
const need = (key: string, day: number, quantity: number): PlanNeed => ({
  key,
  day: on(day),
  quantity: BigInt(quantity),
  class: 'any',
  chosenLotId: null,
});
const promisableOf = (lots: PlanLot[], needs: PlanNeed[]) => {
  const days = new Map(needs.map((one) => [one.key, one.day]));
  return promisable(lots, planItem(needs, lots).fromLots, (key) => days.get(key), TODAY);
};

describe('what may be promised of bottles', () => {
  it('counts a delivery for later needs, so that what stands here is free for a nearer day', () => {
    const promises = promisableOf(
      [lot('here', 10, 0, null), lot('coming', 10, 14, null)],
      [need('a', 20, 10)],
    );
    expect(mayPromise(promises, on(5), 10n)).toBe(true);
    expect(mayPromise(promises, on(5), 11n)).toBe(false);
  });

  it('gives what is left over in a bottle on its days only', () => {
    const promises = promisableOf([lot('a', 10, 2, 9)], [need('x', 4, 3)]);
    expect([1, 2, 9, 10].map((day) => mayPromise(promises, on(day), 7n))).toEqual([false, true, true, false]);
    expect(mayPromise(promises, on(9), 8n)).toBe(false);
  });

  it('never says yes where setting aside would leave anybody with less, and says the most of what does not run out', () => {
    const anyLot = fc.record({
      usable: fc.integer({ min: 0, max: 20 }),
      from: fc.integer({ min: 0, max: 20 }),
      life: fc.option(fc.integer({ min: 0, max: 12 }), { nil: null }),
    });
    const anyNeed = fc.record({
      day: fc.integer({ min: 0, max: 30 }),
      quantity: fc.integer({ min: 1, max: 9 }),
    });
    const asked = fc.record({
      day: fc.integer({ min: 0, max: 30 }),
      quantity: fc.integer({ min: 1, max: 15 }),
    });
    fc.assert(
      fc.property(
        fc.array(anyLot, { maxLength: 6 }),
        fc.array(anyNeed, { maxLength: 8 }),
        asked,
        (some, many, one) => {
          const lots = some.map(({ usable, from, life }, at) =>
            lot(`lot ${at}`, usable, from, life === null ? null : from + life),
          );
          const needs = many.map(({ day, quantity }, at) => need(`need ${at}`, day, quantity));
          const more = need('one more', one.day, one.quantity);
          const short = (of: PlanNeed[]) =>
            planItem(of, lots).missing.reduce((sum, { quantity }) => sum + quantity, 0n);
          const may = mayPromise(promisableOf(lots, needs), more.day, more.quantity);
          const can = short([...needs, more]) === short(needs);
          if (may) expect(can).toBe(true);
          if (lots.every(({ usableUntil }) => usableUntil === null)) expect(may).toBe(can);
        },
      ),
      { numRuns: 1000 },
    );
  });
});
