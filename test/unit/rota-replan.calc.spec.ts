import fc from 'fast-check';
import { planRota, type Rota } from '../../src/teaching/rota.calc.js';
import { type Bench, type Turn, turnsOf } from '../../src/teaching/rota-bench.calc.js';
import { type Meanwhile, replanRota } from '../../src/teaching/rota-replan.calc.js';
import { HOUR, stressDay, teachingDay } from '../bench/rota-days.js';
import { anyDay } from '../support/rota-case.js';
import { breachesOf } from '../support/rota-checker.js';

const planned = (bench: Bench): Rota => {
  const answer = planRota(bench, 300);
  if (!answer.ok) throw new Error(answer.reason);
  return answer.rota;
};
const nothing: Omit<Meanwhile, 'now'> = { late: [], skipped: [], gone: [], notBegun: [] };
const again = (bench: Bench, rota: Rota, meanwhile: Meanwhile): Rota => {
  const answer = replanRota(bench, rota, meanwhile, 300);
  if (!answer.ok) throw new Error(answer.reason);
  return answer.rota;
};
const makeOf = (rota: Rota, plate: string) =>
  rota.plates.find((one) => one.plate === plate)?.runs[1]?.start ?? 0;

/** Who makes and sits as the new rota says, which is checked by hand where it matters. */
const turnsAsPlanned = (bench: Bench, rota: Rota): Turn[][] =>
  turnsOf(bench).map((team) =>
    team.flatMap((turn): Turn[] => {
      const own = rota.plates.find(({ plate }) => plate === turn.plate);
      if (own) return [{ ...turn, sitter: own.sitter }];
      return rota.unplaced.includes(turn.plate) ? [turn] : [];
    }),
  );

/** Runs that had begun by then are where they were, and nothing else begins before then. */
function expectKept(before: Rota, after: Rota, now: number) {
  const old = new Map(before.plates.map((one) => [one.plate, one]));
  for (const plate of after.plates)
    plate.runs.forEach((run, at) => {
      const was = old.get(plate.plate)?.runs[at];
      if (was && was.start < now) expect(run.start).toBe(was.start);
      else if (was && was.start !== run.start) expect(run.start).toBeGreaterThanOrEqual(now);
    });
}

describe('a pair of pairs at eleven', () => {
  const bench = teachingDay(4, 3);
  const rota = planned(bench);
  const now = 11 * HOUR;
  const begun = rota.plates.filter(({ plate }) => makeOf(rota, plate) < now);

  test('nothing has happened: what has begun stays, and the day ends no later than it did', () => {
    const after = again(bench, rota, { now, ...nothing });
    expect(begun.length).toBeGreaterThan(2);
    expectKept(rota, after, now);
    expect(after.plates).toHaveLength(12);
    expect(breachesOf(bench, after, turnsOf(bench))).toEqual([]);
    expect(after.end).toBeLessThanOrEqual(rota.end + 600);
  });

  test('a student who is half an hour late makes nothing and sits for nobody before', () => {
    const until = now + 1800;
    const after = again(bench, rota, { now, ...nothing, late: [{ student: 's2', until }] });
    const late = {
      ...bench,
      students: bench.students.map((one) => (one.id === 's2' ? { ...one, from: until } : one)),
    };
    const kept = begun.map(({ plate }) => plate);
    expect(
      breachesOf(late, after, turnsOf(bench), [...kept, ...rota.plates.map(({ plate }) => plate)]),
    ).toEqual([]);
    for (const { plate, student, sitter, runs } of after.plates) {
      const start = runs[1]?.start ?? 0;
      if (start >= now && (student === 's2' || sitter === 's2')) {
        expect([plate, start >= until]).toEqual([plate, true]);
      }
    }
    expect(after.plates).toHaveLength(12);
  });

  test('a skipped plate is gone and its partner’s turn may come sooner', () => {
    const next = rota.plates.find(({ plate }) => makeOf(rota, plate) >= now);
    const after = again(bench, rota, { now, ...nothing, skipped: [next?.plate ?? ''] });
    expect(after.plates).toHaveLength(11);
    expect(after.plates.map(({ plate }) => plate)).not.toContain(next?.plate);
    expect(breachesOf(bench, after, turnsAsPlanned(bench, after))).toEqual([]);
    expect(after.end).toBeLessThanOrEqual(rota.end);
  });

  test('somebody who left makes no more plates, and nobody sits for the other of the pair', () => {
    const after = again(bench, rota, { now, ...nothing, gone: ['s1'] });
    const own = after.plates.filter(({ student }) => student === 's1').map(({ plate }) => plate);
    expect(own).toEqual(begun.filter(({ student }) => student === 's1').map(({ plate }) => plate));
    for (const { plate, student, sitter } of after.plates)
      if (student === 's2') expect([plate, sitter]).toEqual([plate, makeOf(rota, plate) < now ? 's1' : null]);
    expect(breachesOf(bench, after, turnsAsPlanned(bench, after))).toEqual([]);
  });

  test('a turn that should have begun and has not begins now at the earliest', () => {
    const last = begun.at(-1)?.plate ?? '';
    const after = again(bench, rota, { now, ...nothing, notBegun: [last] });
    expect(makeOf(after, last)).toBeGreaterThanOrEqual(now);
    expect(breachesOf(bench, after, turnsOf(bench))).toEqual([]);
  });

  test('a holder that broke is given to nobody any more', () => {
    const stations = bench.stations.map((one) =>
      one.id === 'holder' ? { ...one, units: one.units.slice(0, 1) } : one,
    );
    const after = again({ ...bench, stations }, rota, { now, ...nothing });
    for (const { plate, runs } of after.plates)
      if (makeOf(rota, plate) >= now)
        for (const use of runs.flatMap(({ uses }) => uses))
          if (use.station === 'holder') expect(use.unit).toBe('holder 1');
  });

  test('when the light is over before, the plates without a turn are told', () => {
    const dusk = { ...bench, light: { from: 8 * HOUR, until: 11.5 * HOUR } };
    const after = again(dusk, rota, { now, ...nothing });
    expect(after.fits).toBe(false);
    expect(after.unplaced.length).toBeGreaterThan(0);
    expect(after.unplaced.length + after.plates.length).toBe(12);
  });
});

test('200 days drawn by chance, stopped at any moment with anything having happened, break no rule after', () => {
  let replanned = 0;
  fc.assert(
    fc.property(
      anyDay,
      fc.integer({ min: 0, max: 480 }),
      fc.array(fc.nat(), { maxLength: 2 }),
      fc.option(fc.nat()),
      fc.boolean(),
      (bench, minutes, skips, left, behind) => {
        const first = planRota(bench, 200);
        if (!first.ok) return;
        const { rota } = first;
        const now = bench.day.from + minutes * 60;
        const skipped = skips.flatMap((at) => rota.plates[at % Math.max(1, rota.plates.length)]?.plate ?? []);
        const gone = left === null ? [] : [bench.students[left % bench.students.length]?.id ?? ''];
        // who runs behind has not begun the last of the turns that should have begun
        const due = rota.plates.filter(({ plate }) => makeOf(rota, plate) < now).at(-1);
        const notBegun = behind && due ? [due.plate] : [];
        const after = again(bench, rota, { ...nothing, now, skipped, gone, notBegun });
        if (notBegun.length === 0) expectKept(rota, after, now);
        else if (after.plates.some(({ plate }) => plate === due?.plate))
          expect(makeOf(after, due?.plate ?? '')).toBeGreaterThanOrEqual(now);
        expect(breachesOf(bench, after, turnsAsPlanned(bench, after))).toEqual([]);
        if (after.plates.length > 0) replanned += 1;
      },
    ),
    { numRuns: 200, seed: 9 },
  );
  expect(replanned).toBeGreaterThan(80);
}, 60_000);

test('twelve students with six plates: what has begun at noon stays', () => {
  const bench = stressDay();
  const rota = planned(bench);
  const after = again(bench, rota, {
    now: 12 * HOUR,
    ...nothing,
    late: [{ student: 's5', until: 13 * HOUR }],
  });
  expectKept(rota, after, 12 * HOUR);
  expect(after.plates).toHaveLength(72);
});
