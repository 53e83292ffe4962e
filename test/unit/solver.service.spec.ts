// The solver's thread: a full list within its time and its gap, the same plan for the same list, and a web process
// that goes on answering meanwhile.
import { afterAll, describe, expect, test } from '@jest/globals';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { readPlan } from '../../src/waiting/planner.calc.js';
import { greedyPlan } from '../../src/waiting/planner-greedy.calc.js';
import { buildModel } from '../../src/waiting/planner-model.calc.js';
import { pointsOf } from '../../src/waiting/planner.calc.js';
import { SolverService, startThread } from '../../src/waiting/solver.service.js';
import { fullList } from '../bench/full-plan.js';
import { breaches } from '../support/planner-oracle.js';

const thread = startThread();
afterAll(() => thread.end());

const placingsOf = (found: ReturnType<typeof readPlan>, of: number) =>
  Array.from({ length: of }, (_, at) => found.given.find((one) => one.wish === at)?.placing ?? -1);

describe('a list of 500 people and 120 places', () => {
  const problem = fullList(500, 40, 1);
  const model = buildModel(problem);

  test('is planned within 1 % of the best, breaking no rule, while the loop of events goes on', async () => {
    const delays = monitorEventLoopDelay({ resolution: 5 });
    delays.enable();
    const solved = await thread.solve(model.milp, 20);
    delays.disable();
    const found = readPlan(problem, model, solved);
    expect(breaches(problem, placingsOf(found, 500))).toEqual([]);
    expect(found.gap).toBeLessThan(0.01);
    expect(found.points).toBeGreaterThan(pointsOf(problem, greedyPlan(problem)).points);
    // a solver in the web process would hold the loop for all of its time; handing the program over takes a moment
    expect(delays.percentile(95) / 1e6).toBeLessThan(100);
  }, 90_000);
});

test('the same list gives the same plan, in any thread', async () => {
  const problem = fullList(60, 12, 3);
  const model = buildModel(problem);
  const first = readPlan(problem, model, await thread.solve(model.milp, 20));
  const second = readPlan(problem, model, await new SolverService().solve(model.milp, 20));
  expect(first.proven).toBe(true);
  expect(second).toEqual(first);
  expect(buildModel(problem)).toEqual(model);
});

test('a thread that does not answer in time is ended, and the plan without it says how far off it may be', async () => {
  const problem = fullList(120, 20, 5);
  const model = buildModel(problem);
  const hasty = startThread();
  const solved = await hasty.solve(model.milp, 0, 0.001);
  await hasty.end();
  expect(solved).toEqual({ proven: false, bound: null, values: [] });
  const found = readPlan(problem, model, solved);
  expect(found.given.length).toBeGreaterThan(0);
  expect(breaches(problem, placingsOf(found, 120))).toEqual([]);
  const best = readPlan(problem, model, await thread.solve(model.milp, 20));
  expect(found.bound).toBeGreaterThanOrEqual(best.points);
  expect(found.points).toBeLessThanOrEqual(best.points);
});

test('plans asked for at once are solved one after the other', async () => {
  const service = new SolverService();
  const problems = [fullList(20, 6, 8), fullList(20, 6, 9)];
  const solved = await Promise.all(problems.map((one) => service.solve(buildModel(one).milp, 20)));
  expect(solved.every(({ proven }) => proven)).toBe(true);
});
