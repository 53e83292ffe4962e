// The bench of a teaching day: what of its course, people and light the rota is given.
import { describe, expect, test } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { course } from '../../src/teaching/course.schemas.js';
import { planRota } from '../../src/teaching/rota.calc.js';
import {
  benchOf,
  bringsCamera,
  type BenchStudent,
  type DayFacts,
} from '../../src/teaching/turns-bench.calc.js';

const HALF = '11111111-1111-4111-8111-111111111111';
const WHOLE = '22222222-2222-4222-8222-222222222222';
const wall = (time: string) => Temporal.PlainDateTime.from(`2027-04-07T${time}`);
const HOUR = 3600;

const courseOf = (change: Record<string, unknown> = {}) =>
  course.parse({
    name: 'First Plates',
    parts: [
      { title: 'Welcome', minutes: 30, where: 'table' },
      { title: 'Shown', minutes: 30, where: 'darkroom', together: true },
      { title: 'Rounds', minutes: 120, where: 'darkroom' },
      { title: 'Noon', minutes: 60, where: 'break' },
      { title: 'Rounds', minutes: 180, where: 'studio' },
    ],
    plates: [{ plateSizeId: HALF, count: 2 }],
    most: 6,
    ...change,
  });
const person = (id: string, more: Partial<BenchStudent> = {}): BenchStudent => ({
  id,
  experience: 'none',
  plateSizeId: null,
  brings: '',
  ...more,
});
const factsOf = (change: Partial<DayFacts> = {}): DayFacts => ({
  course: courseOf(),
  wallStart: wall('09:00'),
  wallEnd: wall('16:00'),
  light: { from: wall('08:10'), until: wall('17:20:30') },
  students: [person('a'), person('b')],
  secondAdult: false,
  cyanide: false,
  sizes: [
    { id: HALF, widthMm: 108, heightMm: 140 },
    { id: WHOLE, widthMm: 165, heightMm: 216 },
  ],
  ...change,
});
const bench = (change: Partial<DayFacts> = {}) => {
  const made = benchOf(factsOf(change));
  if (!made.ok) throw new Error(made.reason);
  return made.bench;
};
const units = (of: ReturnType<typeof bench>, station: string) =>
  of.stations.find(({ id }) => id === station)?.units ?? [];

describe('a day', () => {
  test('has its hours and its light, and breaks where all do the same', () => {
    const made = bench();
    expect(made.day).toEqual({ from: 9 * HOUR, until: 16 * HOUR });
    expect(made.light).toEqual({ from: 8 * HOUR + 600, until: 17 * HOUR + 20 * 60 + 30 });
    // the welcome and the plate that is shown follow each other
    expect(made.breaks).toEqual([
      { from: 9 * HOUR, until: 10 * HOUR },
      { from: 12 * HOUR, until: 13 * HOUR },
    ]);
    expect(bench({ light: null }).light).toBeNull();
  });

  test('without people, plates or a station that every plate needs has no bench', () => {
    const reason = (change: Partial<DayFacts>) => {
      const made = benchOf(factsOf(change));
      return made.ok ? null : made;
    };
    expect(reason({ students: [] })).toEqual({ ok: false, reason: 'nobody' });
    expect(reason({ course: courseOf({ plates: [] }) })).toEqual({ ok: false, reason: 'no plates' });
    const none = { tanks: 1, holders: 1, cameras: 0, sinks: 1, darkroomPlaces: 1 };
    expect(reason({ course: courseOf({ stations: none }) })).toEqual({
      ok: false,
      reason: 'none of',
      station: 'camera',
    });
  });

  test('has the counts and seconds that the owner set, and starting figures for the others', () => {
    const set = courseOf({
      stations: { tanks: 3, holders: 4, cameras: 2, sinks: 2, darkroomPlaces: 5 },
      bench: {
        weather: 'hot',
        helpers: 2,
        steps: { fix: { low: 60, likely: 90, high: 100 } },
        further: { fixingTrays: 7 },
      },
    });
    const made = bench({ course: set });
    const counts = [
      'tank',
      'holder',
      'camera',
      'sink',
      'darkroom place',
      'fixing tray',
      'teacher',
      'rack place',
    ];
    expect(counts.map((id) => units(made, id).length)).toEqual([3, 4, 2, 2, 5, 7, 3, 24]);
    expect(made.steps.find(({ id }) => id === 'fix')?.seconds).toEqual({ low: 60, high: 100 });
    expect(made.steps.find(({ id }) => id === 'sensitise')?.seconds).toEqual({ low: 120, high: 180 });
    expect(made.clocks.find(({ id }) => id === 'wet')?.most).toBe(270);
    expect(bench({ course: set, weather: 'cold' }).clocks.find(({ id }) => id === 'wet')?.most).toBe(300);
    expect(bench({ secondAdult: true }).stations.find(({ id }) => id === 'teacher')?.units).toHaveLength(2);
  });

  test('leaves cyanide to the teacher, and varnish to days that pour it', () => {
    const teacherFixes = (of: ReturnType<typeof bench>) =>
      of.holds.some(({ station, from }) => station === 'teacher' && from === 'fix');
    expect([teacherFixes(bench()), teacherFixes(bench({ cyanide: true }))]).toEqual([false, true]);
    expect(bench().varnish).not.toBeNull();
    expect(bench({ course: courseOf({ uses: { varnish: 'none' } }) }).varnish).toBeNull();
  });
});

describe('a student', () => {
  test('has a turn for each plate, in an own size, and spare ones as a beginner', () => {
    const spare = courseOf({ bench: { spareTurns: 1 } });
    const students = [
      person('a'),
      person('b', { experience: 'some' }),
      person('c', { experience: 'practised', plateSizeId: WHOLE }),
    ];
    expect(bench({ course: spare, students }).students.map(({ plates }) => plates)).toEqual([
      [HALF, HALF, HALF],
      [HALF, HALF],
      [WHOLE, WHOLE],
    ]);
  });

  test('who never poured works beside somebody who did, as far as there are such', () => {
    const people = [person('a'), person('b'), person('c', { experience: 'practised' }), person('d')];
    expect(bench({ students: people }).teams).toEqual([
      ['a', 'c'],
      ['b', 'd'],
    ]);
    const none = ['a', 'b', 'c'].map((id) => person(id));
    expect(bench({ students: none }).teams).toEqual([['a', 'b', 'c']]);
  });

  test('who brings a camera works with it, and nobody else does', () => {
    const students = [person('a', { brings: 'A half-plate camera of her own' }), person('b'), person('c')];
    const made = bench({ students });
    expect(units(made, 'camera').map(({ owner }) => owner)).toEqual([undefined, undefined, 'a']);
    const laid = planRota(made, 500);
    if (!laid.ok) throw new Error(laid.reason);
    const used = laid.rota.plates.flatMap(({ student, runs }) =>
      runs.flatMap(({ uses }) =>
        uses.filter(({ station }) => station === 'camera').map(({ unit }) => `${student} ${unit}`),
      ),
    );
    expect(used.filter((one) => one.endsWith('camera of a'))).toEqual(['a camera of a', 'a camera of a']);
    expect(used.filter((one) => one.startsWith('a '))).toHaveLength(2);
    expect(bringsCamera({ brings: 'No camera yet' })).toBe(false);
    expect(bringsCamera({ brings: 'An apron' })).toBe(false);
  });

  test('whose plates only another’s own camera takes is told so', () => {
    const students = [
      person('a', { brings: 'a camera', plateSizeId: WHOLE }),
      person('b', { plateSizeId: WHOLE }),
    ];
    const made = bench({ students });
    const small = made.stations.map((one) =>
      one.id === 'camera'
        ? { ...one, units: one.units.map((unit) => (unit.owner ? unit : { ...unit, largest: 16_000 })) }
        : one,
    );
    expect(planRota({ ...made, stations: small }, 100)).toMatchObject({ ok: false, reason: 'too large' });
  });
});
