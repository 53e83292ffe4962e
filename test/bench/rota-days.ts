// Teaching days of the usual size, and the stress case: what the benches measure and the tests plan.
import { type Bench, pairsOf } from '../../src/teaching/rota-bench.calc.js';
import { alike, benchIn, STATIONS } from '../../src/teaching/rota-presets.calc.js';

export const HOUR = 3600;
export const SIZES = [
  { id: 'quarter', area: 8_900, seconds: {} },
  { id: 'half', area: 15_000, seconds: {} },
  { id: 'whole', area: 35_600, seconds: { clean: { low: 400, high: 540 } } },
];

/** So many students with so many half plates each, from half past nine to five, a talk first and lunch at half past twelve. */
export function teachingDay(students: number, plates: number, more: Partial<Bench> = {}): Bench {
  const ids = Array.from({ length: students }, (_, at) => `s${at + 1}`);
  return {
    ...benchIn(
      'mild',
      {
        day: { from: 9.5 * HOUR, until: 17 * HOUR },
        light: { from: 8 * HOUR, until: 17.5 * HOUR },
        breaks: [
          { from: 9.5 * HOUR, until: 10.25 * HOUR },
          { from: 12.5 * HOUR, until: 13.25 * HOUR },
        ],
      },
      SIZES,
    ),
    students: ids.map((id) => ({ id, plates: Array.from({ length: plates }, () => 'half'), from: null })),
    teams: pairsOf(ids),
    ...more,
  };
}

/** A well-equipped long day for twelve with six plates each: 72 plates, no room to spare. */
export const stressDay = (): Bench =>
  teachingDay(12, 6, {
    day: { from: 9 * HOUR, until: 21 * HOUR },
    light: { from: 5 * HOUR, until: 21 * HOUR },
    breaks: [
      { from: 9 * HOUR, until: 9.5 * HOUR },
      { from: 13 * HOUR, until: 14 * HOUR },
    ],
    stations: [
      alike('teacher', 2),
      alike('cleaning place', 4),
      alike('camera', 4),
      alike('holder', 4),
      alike('pouring place', 2),
      alike('tank', 3),
      alike('darkroom place', 4),
      alike('sink', 2),
      alike('fixing tray', 3),
      alike('washing place', 12),
      alike('rack place', 72),
      alike('varnish lamp', 1),
    ],
  });

/** STATIONS with other counts for some. */
export const stationsWith = (counts: Record<string, number>) =>
  STATIONS.map((one) => (counts[one.id] === undefined ? one : alike(one.id, counts[one.id] ?? 0)));
