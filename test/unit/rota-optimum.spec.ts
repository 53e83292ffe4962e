// How near to the best a bench rota is: published machine shops, every order tried, and another solver.
import fc from 'fast-check';
import { planRota, type Rota } from '../../src/teaching/rota.calc.js';
import { type Bench, turnsOf } from '../../src/teaching/rota-bench.calc.js';
import { startThread } from '../../src/waiting/solver.service.js';
import { stressDay, teachingDay } from '../bench/rota-days.js';
import { GRID, smallDay } from '../support/rota-case.js';
import { breachesOf } from '../support/rota-checker.js';
import { canEndBy } from '../support/rota-oracle.js';
import { benchOf, type Shop } from '../support/rota-shops.js';
import { scale } from '../support/scale.js';

const thread = startThread();
afterAll(() => thread.end());

/** A shop as a bench has as many runs for each job as there are operations in all, most of them empty. */
const SHOP_LAYINGS = 200_000;

function rotaOf(bench: Bench, layings?: number): Rota {
  const answer = planRota(bench, layings);
  if (!answer.ok) throw new Error(JSON.stringify(answer));
  expect(breachesOf(bench, answer.rota, turnsOf(bench))).toEqual([]);
  return answer.rota;
}

/*
 * S. M. Johnson, Optimal two- and three-stage production schedules with setup times included (1954): his example, with
 * 47 as the least time. H. Fisher and G. L. Thompson, Probabilistic learning combinations of local job-shop scheduling
 * rules (1963): their 6 by 6 shop, with 55 as the least time, and 73 where no job may wait (A. Mascis and
 * D. Pacciarelli, Job-shop scheduling with blocking and no-wait constraints, 2002). All from memory.
 */
const JOHNSON: Shop = [
  [4, 5],
  [4, 1],
  [30, 4],
  [6, 30],
  [2, 3],
].map(([a = 0, b = 0]) => [
  [0, a],
  [1, b],
]);
const FISHER_THOMPSON: Shop = [
  [2, 1, 0, 3, 1, 6, 3, 7, 5, 3, 4, 6],
  [1, 8, 2, 5, 4, 10, 5, 10, 0, 10, 3, 4],
  [2, 5, 3, 4, 5, 8, 0, 9, 1, 1, 4, 7],
  [1, 5, 0, 5, 2, 5, 3, 3, 4, 8, 5, 9],
  [2, 9, 1, 3, 4, 5, 5, 4, 0, 3, 3, 1],
  [1, 3, 3, 3, 5, 9, 0, 10, 4, 4, 2, 1],
].map((job) => [0, 2, 4, 6, 8, 10].map((at): [number, number] => [job[at] ?? 0, job[at + 1] ?? 0]));

test.each([
  ['Johnson’s two machines', JOHNSON, true, 47],
  ['Fisher and Thompson’s 6 by 6', FISHER_THOMPSON, true, 55],
  ['the same without waiting', FISHER_THOMPSON, false, 73],
])('%s', (_, shop, wait, best) => {
  const rota = rotaOf(benchOf(shop, wait), SHOP_LAYINGS);
  expect(rota.bound).toBeLessThanOrEqual(best);
  expect(rota.end).toBeGreaterThanOrEqual(best);
  expect(rota.end).toBeLessThanOrEqual(1.1 * best);
});

/** Two machines and no waiting: the least time of all orders. */
function withoutWaiting(jobs: [number, number][]): number {
  const orders = permutations(jobs);
  return Math.min(
    ...orders.map((order) => {
      let [first, second] = [0, 0];
      for (const [a, b] of order) {
        const start = Math.max(first, second - a);
        [first, second] = [start + a, start + a + b];
      }
      return second;
    }),
  );
}

const permutations = <T>(all: T[]): T[][] =>
  all.length < 2
    ? [all]
    : all.flatMap((one, at) =>
        permutations(all.filter((_, other) => other !== at)).map((rest) => [one, ...rest]),
      );

test('two machines without waiting: as early as by every order', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 40 })), {
        minLength: 1,
        maxLength: 5,
      }),
      (jobs) => {
        const shop: Shop = jobs.map(([a, b]) => [
          [0, a],
          [1, b],
        ]);
        const rota = rotaOf(benchOf(shop, false), SHOP_LAYINGS);
        expect(rota.end).toBe(withoutWaiting(jobs));
        expect(rota.bound).toBeLessThanOrEqual(rota.end);
      },
    ),
    { numRuns: scale(100, 25), seed: 6, endOnFailure: true },
  );
});

test('small days end within a tenth of the best that a solver finds, and never before it', async () => {
  let exact = 0;
  const days = fc.sample(smallDay, { numRuns: scale(60, 15), seed: 3 });
  for (const bench of days) {
    const rota = rotaOf(bench);
    expect(await canEndBy(bench, rota.end, GRID, thread)).toBe(true);
    let best = rota.end;
    while (best - GRID >= (rota.bound ?? 0)) {
      const sooner = await canEndBy(bench, best - GRID, GRID, thread);
      expect(sooner).not.toBeNull();
      if (!sooner) break;
      best -= GRID;
    }
    expect(rota.end - bench.day.from).toBeLessThanOrEqual(1.1 * (best - bench.day.from));
    // no bound is above the best
    expect(await canEndBy(bench, (rota.bound ?? 0) - GRID, GRID, thread)).toBe(false);
    if (best === rota.end) exact += 1;
  }
  expect(exact / days.length).toBeGreaterThan(0.9);
}, 300_000);

test('days of the usual size, and the stress case, end within a tenth of the bound', () => {
  for (const bench of [teachingDay(1, 3), teachingDay(2, 3), teachingDay(4, 3), stressDay()]) {
    const { gap, fits } = rotaOf(bench);
    expect(fits).toBe(true);
    expect(gap).toBeLessThanOrEqual(0.1);
  }
});
