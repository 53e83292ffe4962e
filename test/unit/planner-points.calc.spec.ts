import {
  DEFAULT_WEIGHTS,
  type Judged,
  MATTERS,
  openingPoints,
  PLACE,
  pointsOf,
  sumOf,
  type Weights,
} from '../../src/waiting/planner-points.calc.js';

const judged: Judged = {
  position: 1,
  of: 10,
  daysOn: 0,
  daysInAll: 100,
  easyJourney: true,
  clear: 4,
  dull: 16,
  limit: 20,
  onShelf: true,
  idleMinutes: 0,
};
const part = (name: string, changed: Partial<Judged>, weights: Partial<Weights> = {}) =>
  pointsOf({ ...judged, ...changed }, { ...DEFAULT_WEIGHTS, ...weights }).find((one) => one.part === name)
    ?.points ?? 0;

describe('the points of a place', () => {
  test('are all there are for the best, and only for having one where nothing matters', () => {
    expect(sumOf(pointsOf(judged, DEFAULT_WEIGHTS))).toBe(PLACE + 300 + 100 + 300 + 100 + 100);
    const nothing: Weights = {
      order: 'not',
      person: 'not',
      light: 'not',
      stock: 'not',
      gaps: 'not',
      together: 'always',
    };
    expect(pointsOf(judged, nothing)).toEqual([{ part: 'place', points: PLACE }]);
  });

  test('fall with the place on the list, and with each day that one waits longer', () => {
    expect([1, 2, 10].map((position) => part('order', { position }))).toEqual([300, 270, 30]);
    expect([0, 50, 100].map((daysOn) => part('person', { daysOn }))).toEqual([100, 75, 50]);
    expect(part('person', { easyJourney: false })).toBe(50);
  });

  test('of the light: all where a dull day will do, half where only a clear sky just does, none beyond', () => {
    expect(part('light', { clear: 5, dull: 20 })).toBe(300);
    expect(part('light', { clear: 20, dull: 80 })).toBe(150);
    expect(part('light', { clear: 21, dull: 84 })).toBe(0);
    expect(part('light', { clear: 10, dull: 40 })).toBe(Math.round(100 * (0.5 + 5 / 30)) * 3);
  });

  test('of the shelf and of empty hours', () => {
    expect(part('stock', { onShelf: false })).toBe(50);
    expect([0, 30, 120, 300].map((idleMinutes) => part('gaps', { idleMinutes }))).toEqual([100, 75, 0, 0]);
  });

  test('are never so few that opening a day costs more than giving a place', () => {
    const worst = {
      ...judged,
      position: 10,
      daysOn: 100,
      easyJourney: false,
      clear: 30,
      idleMinutes: 500,
      onShelf: false,
    };
    for (const gaps of MATTERS) {
      const weights = { ...DEFAULT_WEIGHTS, gaps };
      expect(sumOf(pointsOf(worst, weights))).toBeGreaterThan(openingPoints(weights));
    }
  });
});
