import fc from 'fast-check';
import { type PlacedPlate, planRota, type Rota } from '../../src/teaching/rota.calc.js';
import { type Bench, turnsOf } from '../../src/teaching/rota-bench.calc.js';
import { HOUR, stressDay, teachingDay } from '../bench/rota-days.js';
import { anyDay } from '../support/rota-case.js';
import { breachesOf } from '../support/rota-checker.js';

/** So many layings only: the tests ask whether a rota holds, not how good it is. */
const FEW = 400;
const rotaOf = (bench: Bench, layings?: number): Rota => {
  const answer = planRota(bench, layings);
  if (!answer.ok) throw new Error(JSON.stringify(answer));
  return answer.rota;
};
const check = (bench: Bench, rota: Rota) => breachesOf(bench, rota, turnsOf(bench));

test('1,000 teaching days drawn by chance break no rule, and none ends before its bound', () => {
  const seen = { fits: 0, over: 0, unplaced: 0, refused: 0, varnished: 0 };
  fc.assert(
    fc.property(anyDay, (bench) => {
      const answer = planRota(bench, FEW);
      if (!answer.ok) {
        seen.refused += 1;
        return;
      }
      const { rota } = answer;
      if (rota.fits) seen.fits += 1;
      else if (rota.unplaced.length > 0) seen.unplaced += 1;
      else seen.over += 1;
      if (rota.plates.some(({ varnish }) => varnish)) seen.varnished += 1;
      expect(check(bench, rota)).toEqual([]);
    }),
    { numRuns: 1_000, seed: 6 },
  );
  // every kind of day was among them
  expect(Math.min(...Object.values(seen))).toBeGreaterThan(5);
  expect(seen.fits).toBeGreaterThan(300);
}, 60_000);

describe('what the checker catches', () => {
  const bench = teachingDay(4, 3);
  const rota = rotaOf(bench, FEW);
  const first = rota.plates[0] as PlacedPlate;
  const makeOf = (plate: PlacedPlate | undefined) => plate?.runs[1] as PlacedPlate['runs'][number];
  const changed = (plate: string, change: (one: PlacedPlate) => PlacedPlate): Rota => ({
    ...rota,
    plates: rota.plates.map((one) => (one.plate === plate ? change(one) : one)),
  });
  const shifted = (plate: PlacedPlate, run: number, seconds: number): PlacedPlate => ({
    ...plate,
    runs: plate.runs.map((one, at) =>
      at === run
        ? {
            start: one.start + seconds,
            steps: one.steps.map((step) => ({
              ...step,
              from: step.from + seconds,
              until: step.until + seconds,
              latestStart: step.latestStart + seconds,
            })),
            uses: one.uses.map((use) => ({ ...use, from: use.from + seconds, until: use.until + seconds })),
          }
        : one,
    ),
  });
  const second = rota.plates.find(
    (one) => one.team !== first.team && makeOf(one).start > makeOf(first).start,
  ) as PlacedPlate;
  const onto = (plate: PlacedPlate, start: number) => shifted(plate, 1, start - makeOf(plate).start);
  const lunch = bench.breaks[1]?.from ?? 0;
  const rules = (of: Bench, one: Rota) =>
    new Set(breachesOf(of, one, turnsOf(of)).map((breach) => breach.split(':')[0]));

  test('nothing in the rota itself', () => {
    expect(check(bench, rota)).toEqual([]);
    expect(rota.fits).toBe(true);
  });

  test.each<[string, string, Rota]>([
    ['two plates at one tank', 'overlap', changed(second.plate, (one) => onto(one, makeOf(first).start))],
    ['fixed before it is developed', 'order', changed(first.plate, (one) => shifted(one, 2, -600))],
    ['an hour in water before the fixer', 'wait', changed(first.plate, (one) => shifted(one, 2, 3_600))],
    ['poured over lunch', 'break', changed(first.plate, (one) => onto(one, lunch - 400))],
    ['before the day', 'day', changed(first.plate, (one) => shifted(one, 0, -7_200))],
    ['out of turn', 'turns', changed(first.plate, (one) => onto(one, 20 * HOUR))],
    ['another sits', 'roles', changed(first.plate, (one) => ({ ...one, sitter: second.student }))],
    ['a plate lost', 'plates', { ...rota, plates: rota.plates.slice(1) }],
    ['a plate twice', 'plates', { ...rota, plates: [...rota.plates, first] }],
    ['an end told too early', 'end', { ...rota, end: rota.end - 1 }],
    ['said not to fit', 'end', { ...rota, fits: false }],
    ['a bound after the end', 'bound', { ...rota, bound: rota.end + 1 }],
    [
      'a span told by its shortest time',
      'spans',
      changed(first.plate, (one) => ({
        ...one,
        runs: one.runs.map((run) => ({
          ...run,
          steps: run.steps.map((step) =>
            step.step === 'develop' ? { ...step, until: step.until - 30 } : step,
          ),
        })),
      })),
    ],
    [
      'varnish beside ether',
      'varnish',
      changed(first.plate, (one) => ({
        ...one,
        varnish: { from: 12 * HOUR, until: 12 * HOUR + 480, unit: 'varnish lamp 1' },
      })),
    ],
    ['a step lost', 'steps', changed(first.plate, (one) => ({ ...one, runs: one.runs.slice(0, 2) }))],
    [
      'a unit that is not there',
      'stations',
      changed(first.plate, (one) => ({
        ...one,
        runs: one.runs.map((run) => ({
          ...run,
          uses: run.uses.map((use) => (use.station === 'tank' ? { ...use, unit: 'tank 9' } : use)),
        })),
      })),
    ],
  ])('%s', (_, rule, wrong) => {
    expect([...rules(bench, wrong)]).toContain(rule);
  });

  test.each<[string, string, Bench]>([
    [
      'a clock a second shorter than the longest way',
      'clock',
      { ...bench, clocks: bench.clocks.map((one) => (one.id === 'wet' ? { ...one, most: 269 } : one)) },
    ],
    [
      'light that ends before',
      'light',
      { ...bench, light: { from: 0, until: makeOf(rota.plates.at(-1)).start } },
    ],
    [
      'a student who is not there yet',
      'late',
      { ...bench, students: bench.students.map((one) => ({ ...one, from: lunch })) },
    ],
    [
      'plates too large for a camera',
      'size',
      {
        ...bench,
        stations: bench.stations.map((one) => ({
          ...one,
          units: one.units.map((unit) => ({ ...unit, largest: 9_000 })),
        })),
      },
    ],
  ])('of another day: %s', (_, rule, other) => {
    expect([...rules(other, rota)]).toContain(rule);
  });

  test('a planner that reckons with likely times only', () => {
    const likely = {
      ...bench,
      steps: bench.steps.map((step) => {
        const middle = Math.round((step.seconds.low + step.seconds.high) / 2);
        return { ...step, seconds: { low: middle, high: middle } };
      }),
    };
    const found = rules(bench, rotaOf(likely, FEW));
    expect([...found]).toEqual(expect.arrayContaining(['spans', 'order', 'overlap']));
  });
});

test('the wet clock is 270 of its 300 seconds at the longest, and with 31 more it is refused', () => {
  const bench = teachingDay(2, 1);
  const slow = (more: number): Bench => ({
    ...bench,
    steps: bench.steps.map((step) =>
      step.id === 'develop' ? { ...step, seconds: { low: 45, high: 120 + more } } : step,
    ),
  });
  expect(planRota(slow(30))).toMatchObject({ ok: true });
  expect(planRota(slow(31))).toEqual({
    ok: false,
    reason: 'clock',
    clock: 'wet',
    size: 'half',
    worst: 301,
    most: 300,
  });
});

test('a day without light, and a stretch too short between breaks, are told apart', () => {
  expect(planRota(teachingDay(2, 1, { light: null }))).toMatchObject({
    ok: false,
    reason: 'no stretch',
    without: 'light',
  });
  const breaks = Array.from({ length: 60 }, (_, at) => ({
    from: (9 + at) * HOUR + 300,
    until: (10 + at) * HOUR,
  }));
  expect(planRota(teachingDay(2, 1, { breaks }))).toMatchObject({ ok: false, reason: 'no stretch' });
});

test('the same bench has the same rota, and twelve students with six plates have theirs', () => {
  const bench = stressDay();
  const rota = rotaOf(bench, 2_000);
  expect(rotaOf(structuredClone(bench), 2_000)).toEqual(rota);
  expect(check(bench, rota)).toEqual([]);
  expect(rota).toMatchObject({ fits: true, unplaced: [] });
  expect(rota.plates).toHaveLength(72);
});
