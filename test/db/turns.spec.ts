// A teaching day's turns as they are kept: laid for whom they are, told of when that changes, and planned anew on the
// day without one telling undoing another.
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, jest } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import type { Rota } from '../../src/teaching/rota.calc.js';
import { turnsOf } from '../../src/teaching/rota-bench.calc.js';
import { timetableOf } from '../../src/teaching/rota-timetable.calc.js';
import type { Telling } from '../../src/teaching/turns.schemas.js';
import { TurnsService } from '../../src/teaching/turns.service.js';
import { turnTimes } from '../../src/teaching/turns-told.calc.js';
import { TurnsStore } from '../../src/teaching/turns.store.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { breachesOf } from '../support/rota-checker.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { signUp, teachingDay } from '../support/teaching.js';

let house: TestHouse;
let studio: TestStudio;
let turns: TurnsService;
let sessionId: string;

const HOUR = 3600;
const FOUR = ['Ada', 'Bo', 'Cy', 'Dee'].map((name) => ({ name }));

let studios = 0;

beforeAll(async () => {
  house = await openTestHouse();
  turns = house.app.get(TurnsService);
}, 60_000);
afterAll(() => house.close());
beforeEach(async () => {
  house.clock.set('2026-11-25T10:00:00Z');
  studios += 1;
  studio = await foundTestStudio(house, { slug: `loft-${studios}`, shelf: { halfGlass: 400n } });
  ({ sessionId } = await teachingDay(house, studio, { start: '2027-04-07T09:00' }));
  await signUp(house, studio, sessionId, { students: FOUR });
}, 60_000);
afterEach(() => {
  jest.restoreAllMocks();
});

const view = () => turns.view(studio.id, sessionId);
async function keep() {
  const { basis } = await view();
  expect(await turns.keep(studio.id, studio.owner, sessionId, undefined, basis ?? '')).toBe(true);
  return kept();
}
async function kept() {
  const found = (await turns.kept(studio.id, sessionId))?.kept;
  if (!found) throw new Error('no turns');
  return found;
}
const student = async (name: string) => {
  const { students } = await view();
  return students.find((one) => one.name === name)?.id ?? '';
};
const tell = (telling: Telling, key?: string) => turns.tell(studio.id, studio.owner, sessionId, telling, key);
/** Plates of which something had begun. */
const begunNames = (rota: Rota, now: number) =>
  rota.plates.filter(({ runs }) => runs.some((run) => run.start < now)).map(({ plate }) => plate);
/** On the day, so many hours after midnight at the studio. */
const at = (hours: number) => {
  const midnight = Temporal.Instant.from('2027-04-07T00:00+01:00');
  house.clock.set(midnight.add({ seconds: Math.round(hours * HOUR) }).toString());
};

describe('turns', () => {
  it('are laid from the people, the parts and the light of the day, and kept for exactly these', async () => {
    const first = await view();
    expect(first.shown?.rota).toMatchObject({ fits: true, unplaced: [] });
    expect(first.shown?.rota.plates).toHaveLength(12);
    expect(first.shown?.bench.light?.from).toBeGreaterThan(6 * HOUR);
    expect(first.shown?.bench.day).toEqual({ from: 9 * HOUR, until: 15 * HOUR });
    const own = await keep();
    expect([own.rota, own.revision]).toEqual([first.shown?.rota, 1]);
    expect((await view()).stale).toBe(false);
    await signUp(house, studio, sessionId, { name: 'Eve', students: [{ name: 'Eve' }] });
    const after = await view();
    expect(after.stale).toBe(true);
    expect(after.shown?.rota.plates).toHaveLength(12);
    expect(await turns.keep(studio.id, studio.owner, sessionId, undefined, first.basis ?? '')).toBe(false);
    expect(await turns.keep(studio.id, studio.owner, sessionId, undefined, after.basis ?? '')).toBe(true);
    expect((await kept()).rota.plates).toHaveLength(15);
    expect((await kept()).revision).toBe(2);
  }, 60_000);

  it('of a day that nobody comes to are none, and are kept for nobody', async () => {
    const { sessionId: empty } = await teachingDay(house, studio, { start: '2027-04-14T09:00' });
    const found = await turns.view(studio.id, empty);
    expect([found.shown, found.no]).toEqual([null, { ok: false, reason: 'nobody' }]);
    expect(await turns.keep(studio.id, studio.owner, empty, undefined, '')).toBe(false);
    await expect(
      turns.tell(studio.id, studio.owner, empty, { what: 'late', studentId: studio.id, minutes: 5 }),
    ).rejects.toMatchObject({ code: 'not_found' });
  });

  it('say what holds a day up and what would make it fit', async () => {
    const short = await teachingDay(house, studio, {
      start: '2027-04-21T09:00',
      parts: [{ title: 'Rounds', minutes: 120, where: 'darkroom' }],
    });
    await signUp(house, studio, short.sessionId, { students: FOUR });
    const found = await turns.view(studio.id, short.sessionId);
    expect(found.shown?.rota.fits).toBe(false);
    expect(found.shown?.rota.bottleneck).not.toBeNull();
    expect(found.remedies?.length).toBeGreaterThan(0);
    for (const { rota } of found.remedies ?? []) expect(rota.fits).toBe(true);
  }, 60_000);
});

describe('on the day', () => {
  it('whoever is late comes later, and what has begun stays as it was', async () => {
    const before = await keep();
    const own = before.rota.plates[4]?.student ?? '';
    const start = Math.max(...(before.rota.plates[2]?.runs.map((run) => run.start) ?? []));
    at(start / HOUR + 0.01);
    const { now } = (await turns.kept(studio.id, sessionId)) ?? { now: 0 };
    await tell({ what: 'late', studentId: own, minutes: 30 });
    const after = await kept();
    expect(after.told.late).toEqual([{ student: own, until: now + 1800 }]);
    expect(breachesOf(after.bench, after.rota, turnsOf(after.bench), begunNames(before.rota, now))).toEqual(
      [],
    );
    for (const plate of before.rota.plates)
      for (const run of plate.runs.filter((one) => one.start < now && plate.student !== own))
        expect(after.rota.plates.find((one) => one.plate === plate.plate)?.runs).toContainEqual(run);
    const begins = timetableOf(after.bench, after.rota, own)
      .filter((line) => line.doing !== 'break' && line.from >= now)
      .map(({ from }) => from);
    expect(Math.min(...begins)).toBeGreaterThanOrEqual(now + 1800);
  }, 60_000);

  it('a plate is skipped, one is done before its time, and somebody leaves: nobody waits for them', async () => {
    await keep();
    const [ada, dee] = [await student('Ada'), await student('Dee')];
    at(9.5);
    await tell({ what: 'skip', studentId: ada, round: 3 });
    await tell({ what: 'skip', studentId: dee });
    const { rota, told } = await kept();
    expect(told).toMatchObject({ skipped: [`${ada} 3`], gone: [dee] });
    const left = rota.plates.map(({ plate }) => plate);
    expect(left).not.toContain(`${ada} 3`);
    expect(left).toContain(`${ada} 2`);
    expect(left.some((one) => one.startsWith(dee))).toBe(false);
    await tell({ what: 'again', studentId: ada, round: 3 });
    await tell({ what: 'again', studentId: dee });
    const back = await kept();
    expect(back.told).toMatchObject({ skipped: [], gone: [] });
    const all = [...back.rota.plates.map(({ plate }) => plate), ...back.rota.unplaced];
    expect(all).toEqual(expect.arrayContaining([`${ada} 3`, `${dee} 1`, `${dee} 2`, `${dee} 3`]));
    await tell({ what: 'skip', studentId: ada, round: 3 });
    await tell({ what: 'skip', studentId: dee });
    const last = [...rota.plates].reverse().find((one) => one.student === ada)?.plate ?? '';
    await tell({ what: 'done', studentId: ada, round: Number(last.split(' ').at(-1)) });
    const after = await kept();
    expect(after.told.done).toEqual([last]);
    expect(after.rota.plates.map(({ plate }) => plate)).not.toContain(last);
    expect(after.revision).toBe(8);
  }, 60_000);

  it('a plate that is done early leaves its stations to the next', async () => {
    const before = await keep();
    const first = before.rota.plates[0];
    const turn = first?.runs.find((run) => run.steps.some(({ step }) => step === 'pour'));
    const now = (turn?.start ?? 0) + 300;
    at(now / HOUR);
    await tell({ what: 'done', studentId: first?.student ?? '', round: first?.round ?? 0 });
    const { rota } = await kept();
    const kept1 = rota.plates.find(({ plate }) => plate === first?.plate);
    const ends = kept1?.runs
      .find((run) => run.start === turn?.start)
      ?.uses.filter(({ from }) => from <= now)
      .map(({ until }) => until);
    expect(Math.max(...(ends ?? []))).toBeLessThanOrEqual(now);
    expect(rota.end).toBeLessThanOrEqual(before.rota.end);
  }, 60_000);

  it('what nobody can tell is refused beside its field, and nothing of a day that is over', async () => {
    await keep();
    const ada = await student('Ada');
    await expect(tell({ what: 'late', studentId: studio.id, minutes: 5 })).rejects.toMatchObject({
      fields: [{ field: 'studentId' }],
    });
    await expect(tell({ what: 'done', studentId: ada, round: 9 })).rejects.toMatchObject({
      fields: [{ field: 'round' }],
    });
    at(36);
    await expect(tell({ what: 'late', studentId: ada, minutes: 5 })).rejects.toMatchObject({
      code: 'wrong_state',
    });
    const { basis } = await view();
    await expect(
      turns.keep(studio.id, studio.owner, sessionId, undefined, basis ?? ''),
    ).rejects.toMatchObject({ code: 'wrong_state' });
  }, 60_000);

  it('turns that have begun are not laid again from the beginning', async () => {
    await keep();
    at(11);
    const { basis } = await view();
    await expect(
      turns.keep(studio.id, studio.owner, sessionId, undefined, basis ?? ''),
    ).rejects.toMatchObject({ code: 'wrong_state', detail: expect.stringContaining('have begun') });
  }, 60_000);
});

describe('two who tell something at once', () => {
  const told = async () => (await kept()).told.late.map((one) => one.student).sort();

  it('are both heard, in one plan that breaks no rule', async () => {
    await keep();
    const ids = await Promise.all(['Ada', 'Bo', 'Cy', 'Dee'].map(student));
    at(9.2);
    await Promise.all(ids.map((id) => tell({ what: 'late', studentId: id, minutes: 20 })));
    expect(await told()).toEqual([...ids].sort());
    const { bench, rota, revision } = await kept();
    expect(revision).toBe(5);
    expect(breachesOf(bench, rota, turnsOf(bench))).toEqual([]);
    const begins = rota.plates.map((plate) => turnTimes(bench, plate)?.from ?? 0);
    expect(Math.min(...begins)).toBeGreaterThanOrEqual(9.2 * HOUR + 20 * 60);
  }, 60_000);

  it('without the lock one of them is lost', async () => {
    await keep();
    const ids = await Promise.all(['Ada', 'Bo'].map(student));
    const read = TurnsStore.prototype.kept;
    let both = 0;
    let open = () => {};
    const met = new Promise<void>((done) => {
      open = done;
    });
    jest.spyOn(TurnsStore.prototype, 'kept').mockImplementation(async function (
      this: TurnsStore,
      tx,
      id,
      lock,
    ) {
      const found = await read.call(this, tx, id, false);
      if (!lock) return found;
      both += 1;
      if (both === 2) open();
      await met;
      return found;
    });
    await Promise.all(ids.map((id) => tell({ what: 'late', studentId: id, minutes: 20 })));
    expect(await told()).toHaveLength(1);
  }, 60_000);

  it('the same told twice under one key is done once', async () => {
    await keep();
    const ada = await student('Ada');
    const same = { what: 'late', studentId: ada, minutes: 10 } as const;
    await Promise.all([tell(same, 'a-key-of-ada'), tell(same, 'a-key-of-ada')]);
    await tell(same, 'a-key-of-ada');
    expect((await kept()).revision).toBe(2);
    await expect(tell({ ...same, minutes: 20 }, 'a-key-of-ada')).rejects.toMatchObject({
      code: 'same_key_other_request',
    });
  }, 60_000);
});
