// Teaching days drawn by chance for tests: odd ones of any kind, and very small ones that a solver can judge.
import fc from 'fast-check';
import type { Bench, Seconds, Step } from '../../src/teaching/rota-bench.calc.js';
import { alike, STATIONS } from '../../src/teaching/rota-presets.calc.js';
import { HOUR, teachingDay } from '../bench/rota-days.js';

const MINUTE = 60;

/**
 * Very small days whose times are all whole steps of five minutes, so that a solver can find the best end for certain:
 * two to four students, one or two plates, one or two of each station.
 */
export const GRID = 300;
export const smallDay: fc.Arbitrary<Bench> = fc
  .record({
    students: fc.integer({ min: 2, max: 4 }),
    plates: fc.integer({ min: 1, max: 2 }),
    times: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 6, maxLength: 6 }),
    counts: fc.array(fc.integer({ min: 1, max: 2 }), {
      minLength: STATIONS.length,
      maxLength: STATIONS.length,
    }),
    within: fc.integer({ min: 0, max: 3 }),
    pause: fc.option(fc.integer({ min: 3, max: 12 })),
  })
  .map(({ students, plates, times, counts, within, pause }) => {
    const day = { from: 9 * HOUR, until: 19 * HOUR };
    const bench = teachingDay(students, plates, { day, light: day, breaks: [], varnish: null, clocks: [] });
    const from = day.from + (pause ?? 0) * GRID;
    const long = ['clean', 'pose', 'sensitise', 'develop', 'fix', 'wash'];
    return {
      ...bench,
      breaks: pause === null ? [] : [{ from, until: from + 2 * GRID }],
      stations: STATIONS.map(({ id }, at) => alike(id, id === 'rack place' ? 24 : (counts[at] ?? 1))),
      steps: bench.steps.map((step): Step => {
        const units = times[long.indexOf(step.id)] ?? 0;
        return {
          ...step,
          seconds: { low: units * GRID, high: units * GRID },
          within: step.within === null ? null : within * GRID,
        };
      }),
    };
  });

const range = (low: number, high: number, spread: number): fc.Arbitrary<Seconds> =>
  fc.tuple(fc.integer({ min: low, max: high }), fc.integer({ min: 0, max: spread })).map(([least, more]) => ({
    low: least,
    high: least + more,
  }));

const TIMES: Record<string, fc.Arbitrary<Seconds>> = {
  clean: range(0, 600, 300),
  pose: range(60, 300, 300),
  pour: range(10, 60, 40),
  set: range(5, 20, 40),
  sensitise: range(120, 280, 90),
  load: range(15, 60, 40),
  expose: range(5, 60, 60),
  develop: range(15, 60, 70),
  fix: range(30, 300, 300),
  wash: range(300, 1500, 900),
  dry: range(600, 3000, 3000),
};

/** Any teaching day: one to six students, up to four plates of any size, few or many stations, any breaks. */
export const anyDay: fc.Arbitrary<Bench> = fc
  .record({
    plates: fc.array(fc.array(fc.constantFrom('quarter', 'half', 'whole'), { maxLength: 4 }), {
      minLength: 1,
      maxLength: 6,
    }),
    times: fc.record(TIMES),
    within: fc.integer({ min: 0, max: 1500 }),
    counts: fc.array(fc.integer({ min: 1, max: 3 }), {
      minLength: STATIONS.length,
      maxLength: STATIONS.length,
    }),
    large: fc.array(fc.integer({ min: 0, max: 2 }), { minLength: 3, maxLength: 3 }),
    length: fc.integer({ min: 3, max: 10 }),
    light: fc.tuple(fc.integer({ min: -1, max: 2 }), fc.integer({ min: 0, max: 3 })),
    breaks: fc.array(fc.tuple(fc.integer({ min: 0, max: 540 }), fc.integer({ min: 5, max: 60 })), {
      maxLength: 3,
    }),
    late: fc.array(fc.option(fc.integer({ min: 0, max: 120 })), { minLength: 6, maxLength: 6 }),
    varnish: fc.boolean(),
  })
  .map(({ plates, times, within, counts, large, length, light, breaks, late, varnish }) => {
    const from = 9 * HOUR;
    const day = { from, until: from + length * HOUR };
    const bench = teachingDay(plates.length, 0, {
      day,
      light: { from: day.from + light[0] * HOUR, until: day.until - light[1] * HOUR },
      breaks: breaks.map(([at, long]) => ({
        from: from + at * MINUTE,
        until: from + (at + long) * MINUTE,
      })),
    });
    const areas = [8_900, 15_000, 35_600];
    return {
      ...bench,
      steps: bench.steps.map(
        (step): Step => ({
          ...step,
          seconds: times[step.id] ?? step.seconds,
          within: step.within === null ? null : within,
        }),
      ),
      clocks: bench.clocks.map((clock) => ({ ...clock, most: clock.id === 'wet' ? 480 : 70 })),
      stations: STATIONS.map(({ id }, at) => {
        const station = alike(id, id === 'rack place' ? 24 : (counts[at] ?? 1));
        if (!['camera', 'holder', 'tank'].includes(id)) return station;
        // one takes every size, the others some
        return {
          ...station,
          units: station.units.map((unit, which) => ({
            ...unit,
            largest: which === 0 ? null : (areas[large[which] ?? 2] ?? null),
          })),
        };
      }),
      students: bench.students.map((one, at) => {
        const minutes = late[at];
        return {
          ...one,
          plates: plates[at] ?? [],
          from: minutes === null || minutes === undefined ? null : from + minutes * MINUTE,
        };
      }),
      varnish: varnish ? bench.varnish : null,
    };
  });
