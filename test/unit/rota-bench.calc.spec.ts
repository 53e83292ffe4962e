import { planRota } from '../../src/teaching/rota.calc.js';
import { type Bench, pairsOf, turnsOf } from '../../src/teaching/rota-bench.calc.js';
import {
  clocksIn,
  HOLDS,
  stepsIn,
  TEACHER_FIXES,
  type Weather,
} from '../../src/teaching/rota-presets.calc.js';
import { mostOnClock, runsOf } from '../../src/teaching/rota-runs.calc.js';
import { SIZES, teachingDay } from '../bench/rota-days.js';
import { breachesOf } from '../support/rota-checker.js';

const half = { id: 'half', area: 15_000, seconds: {} };

test('students work in pairs, the last three together, and one alone stays alone', () => {
  expect(pairsOf([])).toEqual([]);
  expect(pairsOf(['a'])).toEqual([['a']]);
  expect(pairsOf(['a', 'b', 'c', 'd'])).toEqual([
    ['a', 'b'],
    ['c', 'd'],
  ]);
  expect(pairsOf(['a', 'b', 'c', 'd', 'e'])).toEqual([
    ['a', 'b'],
    ['c', 'd', 'e'],
  ]);
});

test('roles turn: in three everybody sits for everybody, and who has fewer plates is passed over', () => {
  const student = (id: string, count: number) => ({
    id,
    plates: Array.from({ length: count }, () => 'half'),
    from: null,
  });
  const [turns] = turnsOf({
    students: [student('a', 2), student('b', 2), student('c', 1)],
    teams: [['a', 'b', 'c']],
  });
  expect(turns?.map(({ plate, sitter }) => [plate, sitter])).toEqual([
    ['a 1', 'b'],
    ['b 1', 'c'],
    ['c 1', 'a'],
    ['a 2', 'c'],
    ['b 2', 'a'],
  ]);
  expect(turnsOf({ students: [student('a', 1)], teams: [['a']] })).toMatchObject([[{ sitter: null }]]);
});

test.each<Weather>(['cold', 'mild', 'hot'])(
  'the steps for %s weather keep both clocks at their longest',
  (weather) => {
    const bench = teachingDay(4, 2, { steps: stepsIn(weather), clocks: clocksIn(weather) });
    for (const clock of bench.clocks) expect(mostOnClock(bench, half, clock)).toBeLessThanOrEqual(clock.most);
    const answer = planRota(bench, 200);
    if (!answer.ok) throw new Error(answer.reason);
    expect(breachesOf(bench, answer.rota, turnsOf(bench))).toEqual([]);
    expect(answer.rota.fits).toBe(true);
  },
);

test('with cyanide every plate is fixed by the teacher, who does nothing else at that time', () => {
  const bench = teachingDay(2, 2, { holds: [...HOLDS, TEACHER_FIXES] });
  const answer = planRota(bench, 200);
  if (!answer.ok) throw new Error(answer.reason);
  expect(breachesOf(bench, answer.rota, turnsOf(bench))).toEqual([]);
  const fixing = answer.rota.plates.flatMap(({ runs }) => runs[2]?.uses ?? []);
  expect(fixing.filter(({ station }) => station === 'teacher')).toHaveLength(4);
});

describe('a run, by hand', () => {
  // pour 10 to 20, set 5 to 15, then on time: bath 60; developer 30 to 50
  const step = (id: string, low: number, high: number, follows: 'at once' | 'on time' | 'waits') => ({
    ...(stepsIn('mild')[0] as Bench['steps'][number]),
    id,
    seconds: { low, high },
    follows,
  });
  const bench: Bench = {
    ...teachingDay(1, 1),
    steps: [
      step('pour', 10, 20, 'waits'),
      step('set', 5, 15, 'at once'),
      step('bath', 60, 60, 'on time'),
      step('develop', 30, 50, 'at once'),
    ],
    holds: [],
  };
  const clock = (from: ['start' | 'end', string], until: ['start' | 'end', string]) => ({
    id: 'one',
    from: { edge: from[0], step: from[1] },
    until: { edge: until[0], step: until[1] },
    most: 0,
  });

  test('each step has its earliest start and latest end', () => {
    expect(runsOf(bench, half, { sitter: null })[0]?.steps).toEqual([
      { step: 'pour', from: 0, latestStart: 0, earliestEnd: 10, until: 20 },
      { step: 'set', from: 10, latestStart: 20, earliestEnd: 15, until: 35 },
      { step: 'bath', from: 35, latestStart: 35, earliestEnd: 95, until: 95 },
      { step: 'develop', from: 95, latestStart: 95, earliestEnd: 125, until: 145 },
    ]);
  });

  test('a clock that begins before a step on time is longest when all before it was quick', () => {
    // poured after 10, set 5, and the bath only at 35: 25 seconds, though pouring to the bath takes 5 to 15
    expect(mostOnClock(bench, half, clock(['end', 'pour'], ['start', 'bath']))).toBe(25);
    expect(mostOnClock(bench, half, clock(['start', 'pour'], ['start', 'bath']))).toBe(35);
    expect(mostOnClock(bench, half, clock(['start', 'set'], ['end', 'set']))).toBe(15);
    expect(mostOnClock(bench, half, clock(['start', 'bath'], ['end', 'develop']))).toBe(110);
  });

  test('across a wait there is no clock', () => {
    const waiting = { ...bench, steps: bench.steps.map((one) => ({ ...one, follows: 'waits' as const })) };
    expect(mostOnClock(waiting, half, clock(['end', 'pour'], ['start', 'set']))).toBeNull();
    expect(() => mostOnClock(bench, half, clock(['end', 'develop'], ['start', 'pour']))).toThrow();
  });

  test('what a bench does not know is a mistake, not an answer', () => {
    const unknown = {
      ...bench,
      clocks: [],
      turnStep: 'pour',
      holds: [{ station: 'lift', from: 'pour', until: 'set' }],
    };
    expect(() => planRota(unknown)).toThrow('No station lift.');
    const day = teachingDay(1, 1);
    const across = { ...day, holds: [{ station: 'camera', from: 'pose', until: 'fix' }] };
    expect(() => planRota(across)).toThrow('from one run into another');
    expect(() => planRota({ ...day, sizes: SIZES.slice(0, 1) })).toThrow('No size half.');
  });
});
