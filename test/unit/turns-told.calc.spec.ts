// What is told of turns on the day, and what follows for the rest; the words around them.
import { describe, expect, test } from '@jest/globals';
import { planRota } from '../../src/teaching/rota.calc.js';
import { replanRota } from '../../src/teaching/rota-replan.calc.js';
import { afterTelling, keptRest, turnTimes, underWay } from '../../src/teaching/turns-told.calc.js';
import { NOTHING_TOLD, type Telling } from '../../src/teaching/turns.schemas.js';
import { gapInWords, nowAndNext, noTurnsInWords, usualEnd } from '../../src/teaching/turns-words.calc.js';
import { HOUR, teachingDay } from '../bench/rota-days.js';

const bench = teachingDay(4, 3);
const planned = planRota(bench, 1_000);
if (!planned.ok) throw new Error(planned.reason);
const { rota } = planned;
const turns = { bench, rota, told: NOTHING_TOLD };
const first = rota.plates[0];
const times = first && turnTimes(bench, first);
const middle = ((times?.from ?? 0) + (times?.until ?? 0)) / 2;
const maker = first?.student ?? '';
const nameOf = (id: string) => id;

const told = (telling: Telling, now: number, of = turns) => {
  const answer = afterTelling(of, telling, now);
  if (!answer.ok) throw new Error(answer.reason);
  return answer;
};

describe('what is told', () => {
  test('late means from now on, from the beginning before the day, and not at all for none', () => {
    const late = (minutes: number, now: number) =>
      told({ what: 'late', studentId: 's2', minutes }, now).told.late[0]?.until;
    expect([late(30, 12 * HOUR), late(30, 0), late(0, 12 * HOUR)]).toEqual([
      12.5 * HOUR,
      bench.day.from + 1800,
      12 * HOUR,
    ]);
    const twice = { ...turns, told: { ...NOTHING_TOLD, late: [{ student: 's2', until: 5 }] } };
    expect(told({ what: 'late', studentId: 's2', minutes: 5 }, 0, twice).told.late).toHaveLength(1);
  });

  test('whoever is late has not begun the turn that should be under way', () => {
    expect(underWay(bench, rota, middle, []).map(({ plate }) => plate)).toContain(first?.plate);
    expect(underWay(bench, rota, middle, [first?.plate ?? ''])).not.toContainEqual(first);
    const notBegun = (minutes: number) =>
      told({ what: 'late', studentId: maker, minutes }, middle).meanwhile.notBegun;
    expect([notBegun(10), notBegun(0)]).toEqual([[first?.plate], []]);
  });

  test('a plate done before its turn needs none; one skipped and then done is done', () => {
    const early = told({ what: 'done', studentId: maker, round: 3 }, middle);
    expect(early.meanwhile.skipped).toEqual([`${maker} 3`]);
    const both = { ...turns, told: { ...NOTHING_TOLD, skipped: [`${maker} 1`] } };
    const done = told({ what: 'done', studentId: maker, round: 1 }, middle, both);
    expect([done.told.skipped, done.told.done]).toEqual([[], [`${maker} 1`]]);
    expect(done.meanwhile.skipped).toEqual([]);
    const undone = told({ what: 'skip', studentId: maker, round: 1 }, middle, { ...turns, told: done.told });
    expect([undone.told.skipped, undone.told.done]).toEqual([[`${maker} 1`], []]);
  });

  test('of nobody of this day, or of no plate of theirs, is refused', () => {
    expect(afterTelling(turns, { what: 'skip', studentId: 'nobody' }, 0)).toEqual({
      ok: false,
      reason: 'no such student',
    });
    expect(afterTelling(turns, { what: 'done', studentId: 's1', round: 4 }, 0)).toEqual({
      ok: false,
      reason: 'no such plate',
    });
  });

  test('turns stay where they are unless the day ends clearly earlier or a plate falls away', () => {
    const done = { what: 'done', studentId: maker, round: 1 } as const;
    const after = told(done, middle);
    const rest = replanRota(bench, after.rota, after.meanwhile);
    if (!rest.ok) throw new Error(rest.reason);
    const little = { ...rest.rota, end: after.rota.end - 299 };
    const much = { ...rest.rota, end: after.rota.end - 300 };
    expect(keptRest(after, done, little)).toBe(after.rota);
    expect(keptRest(after, done, much)).toBe(much);
    const early = { what: 'done', studentId: maker, round: 3 } as const;
    expect(keptRest(told(early, middle), early, little)).toBe(little);
    const skip = { what: 'skip', studentId: maker } as const;
    expect(keptRest(told(skip, middle), skip, little)).toBe(little);
  });
});

describe('the day in words', () => {
  test('the usual end is before the latest one, and is the latest where steps take their longest', () => {
    const high = (step: string) => bench.steps.find(({ id }) => id === step)?.seconds.high ?? 0;
    const low = (step: string) => bench.steps.find(({ id }) => id === step)?.seconds.low ?? 0;
    expect(usualEnd(bench, rota, high)).toBe(rota.end);
    expect(usualEnd(bench, rota, low)).toBeLessThan(rota.end);
    expect(usualEnd(bench, { ...rota, plates: [] }, high)).toBeNull();
  });

  test('what could be gained is told in minutes, and what is proven best as such', () => {
    expect(gapInWords({ ...rota, end: 7300, bound: 7000, gap: 0.041 })).toBe(
      'Another order of the turns could gain 5 minutes at most (5 % of the day); whether one does is not known.',
    );
    expect(gapInWords({ ...rota, end: 7000, bound: 7000, gap: 0 })).toContain('could end earlier');
    expect(gapInWords({ ...rota, bound: null, gap: null })).toBeNull();
  });

  test('why there are no turns is told for each reason', () => {
    expect(noTurnsInWords({ ok: false, reason: 'nobody' }, nameOf)).toContain('Nobody has a place');
    expect(noTurnsInWords({ ok: false, reason: 'no plates' }, nameOf)).toContain('no plates');
    expect(noTurnsInWords({ ok: false, reason: 'none of', station: 'camera' }, nameOf)).toContain(
      'no camera',
    );
    expect(noTurnsInWords({ ok: false, reason: 'time' }, nameOf)).toContain('took too long');
    const light = { ok: false, reason: 'no stretch', plate: 's1 1', without: 'light' } as const;
    expect(noTurnsInWords(light, nameOf)).toContain('good light');
  });

  test('now and next are of everybody who is there, with the plate that goes on', () => {
    const nothing = { gone: [], done: [] };
    const one = nowAndNext(bench, rota, nothing, middle).find(({ student }) => student === maker);
    expect(one?.now).toMatchObject({ doing: 'plate', round: 1 });
    expect(one?.plate?.plate).toBe(first?.plate);
    expect(one?.next?.from).toBeGreaterThan(middle);
    const done = nowAndNext(bench, rota, { gone: [], done: [first?.plate ?? ''] }, middle);
    expect(done.find(({ student }) => student === maker)?.plate?.round).toBe(2);
    expect(nowAndNext(bench, rota, { gone: [maker], done: [] }, middle)).toHaveLength(3);
    const evening = nowAndNext(bench, rota, nothing, 23 * HOUR);
    expect(evening.every(({ now, next, plate }) => now === null && next === null && plate === null)).toBe(
      true,
    );
  });
});
