import { planRota } from '../../src/teaching/rota.calc.js';
import { type Bench, turnsOf } from '../../src/teaching/rota-bench.calc.js';
import { changed, smallestChanges } from '../../src/teaching/rota-changes.calc.js';
import { HOUR, stationsWith, teachingDay } from '../bench/rota-days.js';
import { breachesOf } from '../support/rota-checker.js';

/** What was found, each checked on the bench as it would be. */
function changesOf(bench: Bench) {
  return smallestChanges(bench).map(({ change, rota }) => {
    const other = changed(bench, change);
    expect(breachesOf(other, rota, turnsOf(other))).toEqual([]);
    expect(rota).toMatchObject({ fits: true, unplaced: [] });
    return change;
  });
}

const morning = { day: { from: 9 * HOUR, until: 13 * HOUR }, breaks: [] };

test('a day that fits needs no change', () => {
  expect(changesOf(teachingDay(4, 3))).toEqual([]);
});

test('with one camera for three pairs the camera is the bottleneck, and one more makes the day fit', () => {
  const bench = teachingDay(6, 3, { ...morning, stations: stationsWith({ camera: 1 }) });
  const answer = planRota(bench);
  expect(answer).toMatchObject({
    ok: true,
    rota: { fits: false, provenNotToFit: true, bottleneck: { what: 'stations', stations: ['camera'] } },
  });
  const found = changesOf(bench);
  expect(found[0]).toEqual({ what: 'more', stations: ['camera'] });
});

test('where hands are short and no station helps, plates or students are fewer', () => {
  const bench = teachingDay(2, 4, { day: { from: 9 * HOUR, until: 11.5 * HOUR }, breaks: [] });
  expect(planRota(bench)).toMatchObject({ ok: true, rota: { provenNotToFit: true } });
  const found = changesOf(bench);
  expect(found.length).toBeGreaterThan(0);
  expect(found.some(({ what }) => what === 'more')).toBe(false);
});

test('plates too large for every tank are made smaller', () => {
  const bench = teachingDay(2, 1);
  const small: Bench = {
    ...bench,
    stations: bench.stations.map((one) =>
      one.id === 'tank' ? { ...one, units: [{ id: 'tank 1', largest: 9_000 }] } : one,
    ),
  };
  expect(planRota(small)).toEqual({ ok: false, reason: 'too large', station: 'tank', size: 'half' });
  expect(changesOf(small)).toEqual([{ what: 'smaller', from: 'half', to: 'quarter' }]);
});

test('smaller plates that take less time are a change like the others', () => {
  const slow = { low: 1_200, high: 1_800 };
  const bench = teachingDay(2, 2, { day: { from: 9 * HOUR, until: 11.5 * HOUR }, breaks: [] });
  const sizes = bench.sizes.map((one) => (one.id === 'half' ? { ...one, seconds: { clean: slow } } : one));
  expect(changesOf({ ...bench, sizes })).toContainEqual({ what: 'smaller', from: 'half', to: 'quarter' });
});

test('nothing is found where no change of a few things is enough', () => {
  const bench = teachingDay(2, 3, { day: { from: 9 * HOUR, until: 9.25 * HOUR }, breaks: [] });
  expect(changesOf(bench)).toEqual([]);
});

test('one student fewer leaves the other of the pair alone, with nobody to sit', () => {
  const bench = changed(teachingDay(2, 1), { what: 'without students', students: ['s2'] });
  expect(turnsOf(bench)).toEqual([
    [{ plate: 's1 1', student: 's1', sitter: null, size: 'half', round: 1, team: 0 }],
  ]);
  expect(planRota(bench)).toMatchObject({ ok: true, rota: { fits: true } });
});
