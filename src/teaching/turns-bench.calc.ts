// The bench of one teaching day: what its course, its people, its light and its settings come to, ready for the rota.
// It lays nothing and reads no clock.
import type { Temporal } from 'temporal-polyfill';
import { type BenchSettings, FURTHER_STATIONS, type StepId, type StepSeconds } from './bench.schemas.js';
import type { Course } from './course.schemas.js';
import type { Experience } from './estimate.calc.js';
import { type Bench, pairsOf, type Step, type Stretch, type Unit } from './rota-bench.calc.js';
import { alike, benchIn, STATIONS, stepsIn, TEACHER_FIXES, type Weather } from './rota-presets.calc.js';

/** What the rota asks of somebody with a place. */
export interface BenchStudent {
  id: string;
  experience: Experience;
  /** Another size than the day's; null: the course's. */
  plateSizeId: string | null;
  /** In their words, '' for nothing. */
  brings: string;
}

export interface DayFacts {
  course: Course;
  /** Wall times at the studio. */
  wallStart: Temporal.PlainDateTime;
  wallEnd: Temporal.PlainDateTime;
  light: { from: Temporal.PlainDateTime; until: Temporal.PlainDateTime } | null;
  students: readonly BenchStudent[];
  /** A second trained adult is named: one more pair of hands. */
  secondAdult: boolean;
  /** With cyanide only the teacher fixes. */
  cyanide: boolean;
  sizes: readonly { id: string; widthMm: number; heightMm: number }[];
  /** Instead of what the course says. */
  weather?: Weather | undefined;
}

export type BenchAnswer =
  | { ok: true; bench: Bench }
  | { ok: false; reason: 'nobody' | 'no plates' }
  /** The class has none of a station that every plate needs. */
  | { ok: false; reason: 'none of'; station: string };

/** Stations of a course by their ids on the bench. */
export const COURSE_STATIONS = {
  tanks: 'tank',
  holders: 'holder',
  cameras: 'camera',
  sinks: 'sink',
  darkroomPlaces: 'darkroom place',
} as const;

export function benchOf(facts: DayFacts): BenchAnswer {
  const { course, students } = facts;
  const settings = course.bench;
  if (students.length === 0) return { ok: false, reason: 'nobody' };
  const none = Object.entries(COURSE_STATIONS).find(
    ([name]) => course.stations[name as keyof typeof COURSE_STATIONS] === 0,
  );
  if (none) return { ok: false, reason: 'none of', station: none[1] };
  const learners = students.map((one) => ({
    id: one.id,
    plates: platesOf(course, one),
    from: null,
  }));
  if (learners.every(({ plates }) => plates.length === 0)) return { ok: false, reason: 'no plates' };
  const midnight = facts.wallStart.toPlainDate().toPlainDateTime();
  const second = (at: Temporal.PlainDateTime) => Math.round(midnight.until(at).total('seconds'));
  const sizes = facts.sizes.map(({ id, widthMm, heightMm }) => ({
    id,
    area: Math.round(widthMm * heightMm),
    seconds: {},
  }));
  const weather = facts.weather ?? settings.weather;
  const day = { from: second(facts.wallStart), until: second(facts.wallEnd) };
  const light = facts.light && { from: second(facts.light.from), until: second(facts.light.until) };
  const bench = benchIn(weather, { day, light, breaks: breaksOf(course.parts, day.from) }, sizes);
  return {
    ok: true,
    bench: {
      ...bench,
      steps: bench.steps.map((step) => withSeconds(step, settings.steps)),
      holds: facts.cyanide ? [...bench.holds, TEACHER_FIXES] : bench.holds,
      stations: stationsOf(facts),
      students: learners,
      teams: pairsOf(pairingOrder(students)),
      varnish: (course.uses as Record<string, string>).varnish === 'none' ? null : bench.varnish,
    },
  };
}

/** The plates of a student, one for each turn: as many as the course says, and spare ones for who never poured. */
function platesOf({ plates, bench }: Course, { experience, plateSizeId }: BenchStudent): string[] {
  const all = plates.flatMap((one) =>
    Array.from({ length: one.count }, () => plateSizeId ?? one.plateSizeId),
  );
  const last = all.at(-1);
  const spare = experience === 'none' && last !== undefined ? bench.spareTurns : 0;
  return [...all, ...Array.from({ length: spare }, () => last ?? '')];
}

/** Stretches of the day in which nobody's hands are on a plate, one after the other made into one. */
function breaksOf(parts: Course['parts'], from: number): Stretch[] {
  const breaks: Stretch[] = [];
  let at = from;
  for (const part of parts) {
    const until = at + part.minutes * 60;
    const last = breaks.at(-1);
    if (pauses(part)) {
      if (last?.until === at) last.until = until;
      else breaks.push({ from: at, until });
    }
    at = until;
  }
  return breaks;
}

/** Turns go on in the darkroom and the studio, unless all do the same there. */
export const pauses = ({ where, together }: Course['parts'][number]): boolean =>
  together || (where !== 'darkroom' && where !== 'studio');

function withSeconds(step: Step, set: BenchSettings['steps']): Step {
  const own = set[step.id as StepId];
  return own ? { ...step, seconds: { low: own.low, high: own.high } } : step;
}

/** Those who never poured each beside somebody who did, as far as there are such; else as they signed up. */
function pairingOrder(students: readonly BenchStudent[]): string[] {
  const rank = { practised: 0, some: 1, none: 2 };
  const beginners = students.filter(({ experience }) => experience === 'none');
  const others = students
    .filter(({ experience }) => experience !== 'none')
    .sort((a, b) => rank[a.experience] - rank[b.experience]);
  const order: string[] = [];
  while (beginners.length > 0 && others.length > 0)
    order.push(...[beginners.shift(), others.shift()].flatMap((one) => one?.id ?? []));
  return [...order, ...others.map(({ id }) => id), ...beginners.map(({ id }) => id)];
}

function stationsOf(facts: DayFacts): Bench['stations'] {
  const { course, students, secondAdult } = facts;
  const counts: Record<string, number | undefined> = {
    teacher: 1 + Math.max(course.bench.helpers, secondAdult ? 1 : 0),
    ...Object.fromEntries(
      Object.entries(COURSE_STATIONS).map(([name, id]) => [
        id,
        course.stations[name as keyof typeof COURSE_STATIONS],
      ]),
    ),
    ...Object.fromEntries(
      Object.entries(FURTHER_STATIONS).map(([name, id]) => [
        id,
        course.bench.further[name as keyof typeof FURTHER_STATIONS],
      ]),
    ),
  };
  const own = students.filter(bringsCamera).map((one): Unit => {
    return { id: `camera of ${one.id}`, largest: null, owner: one.id };
  });
  return STATIONS.map((station) => {
    const known = counts[station.id];
    const some = known === undefined ? station : alike(station.id, known);
    return station.id === 'camera' ? { ...some, units: [...some.units, ...own] } : some;
  });
}

/** Whether somebody brings a camera of their own, by their words. */
export const bringsCamera = ({ brings }: Pick<BenchStudent, 'brings'>): boolean =>
  /\bcamera/i.test(brings) && !/\b(no|not|without|don.?t|do not)\b/i.test(brings);

/** The seconds of a step as they are reckoned with, and whether the owner set them. */
export function secondsOf(id: StepId, weather: Weather, set: BenchSettings['steps']) {
  const own = set[id];
  if (own) return { ...own, set: true };
  return { ...startingSeconds(id, weather), set: false };
}

/** The starting figure of a step; the usual time is taken as half-way (assumption). */
export function startingSeconds(id: StepId, weather: Weather): StepSeconds {
  const { low, high } = stepsIn(weather).find((one) => one.id === id)?.seconds ?? { low: 0, high: 0 };
  return { low, likely: Math.round((low + high) / 2), high };
}
