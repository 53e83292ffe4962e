// From the fields of a bench, on the form of a kind of day and on that of one day, to the shape that bench.schemas.ts
// checks, and back. A step of which nothing was filled in keeps its starting figure.
import { FURTHER_STATIONS, STEP_IDS } from '../../teaching/bench.schemas.js';
import type { Course } from '../../teaching/course.schemas.js';
import { COURSE_STATIONS } from '../../teaching/turns-bench.calc.js';

type Fields = Record<string, unknown>;

const text = (value: unknown): string => (typeof value === 'string' ? value.trim() : '');
/** What is no number stays text, which the schema tells of. */
const number = (value: unknown): unknown => (/^-?\d+$/.test(text(value)) ? Number(text(value)) : text(value));
const SPREAD = ['low', 'likely', 'high'] as const;
const FURTHER = Object.keys(FURTHER_STATIONS);

export function toBench(fields: Fields): Record<string, unknown> {
  const steps = STEP_IDS.flatMap((id) => {
    const own = SPREAD.map((which) => [which, number(fields[`bench/steps/${id}/${which}`])] as const);
    return own.every(([, value]) => value === '') ? [] : [[id, Object.fromEntries(own)] as const];
  });
  const further = FURTHER.flatMap((name) => {
    const value = number(fields[`bench/further/${name}`]);
    return value === '' ? [] : [[name, value] as const];
  });
  return {
    weather: text(fields['bench/weather']) || 'mild',
    helpers: number(fields['bench/helpers']) || 0,
    spareTurns: number(fields['bench/spareTurns']) || 0,
    steps: Object.fromEntries(steps),
    further: Object.fromEntries(further),
  };
}

export const toStations = (fields: Fields): Record<string, unknown> =>
  Object.fromEntries(Object.keys(COURSE_STATIONS).map((name) => [name, number(fields[`stations/${name}`])]));

export function benchFields({ bench, stations }: Pick<Course, 'bench' | 'stations'>): Fields {
  const steps = Object.entries(bench.steps).flatMap(([id, own]) =>
    Object.entries(own).map(([which, value]) => [`bench/steps/${id}/${which}`, String(value)]),
  );
  const further = Object.entries(bench.further).flatMap(([name, count]) =>
    count === undefined ? [] : [[`bench/further/${name}`, String(count)]],
  );
  return {
    ...Object.fromEntries(
      Object.entries(stations).map(([name, count]) => [`stations/${name}`, String(count)]),
    ),
    ...Object.fromEntries([...steps, ...further]),
    'bench/weather': bench.weather,
    'bench/helpers': String(bench.helpers),
    'bench/spareTurns': String(bench.spareTurns),
  };
}
