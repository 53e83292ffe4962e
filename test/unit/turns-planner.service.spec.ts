// The threads of turns: the same turns as without a thread, a clear word when time ran out, and a web process that goes
// on answering meanwhile.
import { afterAll, describe, expect, test } from '@jest/globals';
import { planRota, type Rota } from '../../src/teaching/rota.calc.js';
import { smallestChanges } from '../../src/teaching/rota-changes.calc.js';
import { replanRota } from '../../src/teaching/rota-replan.calc.js';
import { TurnsPlanner } from '../../src/teaching/turns-planner.service.js';
import { HOUR, stationsWith, stressDay, teachingDay } from '../bench/rota-days.js';
import { lateness } from '../support/lateness.js';

const planner = new TurnsPlanner();
afterAll(() => planner.onModuleDestroy());

const usual = teachingDay(4, 3);
const noon = { now: 12 * HOUR, late: [], skipped: [], gone: [], notBegun: [] };
const rotaOf = (answer: Awaited<ReturnType<typeof planner.plan>>): Rota => {
  if (!answer?.ok) throw new Error('no rota');
  return answer.rota;
};

describe('turns planned in a thread', () => {
  test('are those planned without one', async () => {
    const found = await planner.plan(usual);
    expect(found).toEqual(planRota(usual));
    const rota = rotaOf(found);
    expect(await planner.replan(usual, rota, noon)).toEqual(replanRota(usual, rota, noon));
    const short = teachingDay(4, 2, { stations: stationsWith({ tank: 1, camera: 1 }), breaks: [] });
    const day = { ...short, day: { from: 9 * HOUR, until: 10.5 * HOUR } };
    expect(await planner.changes(day, 60)).toEqual(smallestChanges(day));
  }, 90_000);

  test('of twelve students with six plates, and their rest, leave the loop of events free', async () => {
    const bench = stressDay();
    await planner.plan(usual); // the thread has begun
    let rota: Rota | null = null;
    const planning = await lateness(async () => {
      rota = rotaOf(await planner.plan(bench, 60));
    });
    const replanning = await lateness(async () => {
      for (let minute = 0; minute < 10; minute++)
        await planner.replan(bench, rota as unknown as Rota, { ...noon, now: 12 * HOUR + minute * 60 }, 60);
    });
    const began = performance.now();
    planRota(bench);
    const here = performance.now() - began;
    // the reckoning itself would hold the loop for all of its time
    for (const { usual: late, worst } of [planning, replanning]) {
      expect(late).toBeLessThan(here / 5);
      expect(worst).toBeLessThan(here / 2);
    }
  }, 120_000);

  test('that take too long are given up with a word, and the next question is answered all the same', async () => {
    expect(await planner.plan(stressDay(), 0.001)).toBeNull();
    expect(await planner.changes(stressDay(), 0.001)).toBeNull();
    expect(rotaOf(await planner.plan(usual, 60)).fits).toBe(true);
  }, 60_000);

  test('asked for at once are answered one after the other, each with its own', async () => {
    const days = [1, 2, 3].map((students) => teachingDay(students, 1));
    const found = await Promise.all(days.map((bench) => planner.plan(bench, 60)));
    expect(found.map((one) => rotaOf(one).plates.length)).toEqual([1, 2, 3]);
  }, 60_000);

  test('of a bench that does not know its own ids are an error, and break nothing else', async () => {
    const wrong = { ...usual, teams: [['s1', 'nobody']] };
    const sizeless = { ...wrong, sizes: [] };
    await expect(planner.plan(sizeless, 60)).rejects.toThrow(/No size|No student/);
    expect(rotaOf(await planner.plan(usual, 60)).fits).toBe(true);
  }, 60_000);
});
