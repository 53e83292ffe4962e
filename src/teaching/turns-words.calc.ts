// Kept turns in words: the steps of a plate with where their starting figures come from, why nothing could be laid, how
// far off the best the turns may be, what is to be done now and next. Plain language only; it decides nothing.
import { counted } from '../lib/words.js';
import type { StepId } from './bench.schemas.js';
import type { NoRota, PlacedPlate, PlacedRun, Rota } from './rota.calc.js';
import type { Bench } from './rota-bench.calc.js';
import type { Change } from './rota-changes.calc.js';
import type { Weather } from './rota-presets.calc.js';
import { type Line, timetableOf } from './rota-timetable.calc.js';
import { type NameOf, refusalInWords } from './rota-words.calc.js';
import { turnTimes } from './turns-told.calc.js';
import type { BenchAnswer } from './turns-bench.calc.js';

export const WEATHER_WORDS: Record<Weather, string> = { cold: 'cold', mild: 'mild', hot: 'hot' };

/** Each step on screen, and the source of its starting figure. */
export const STEP_WORDS: Record<StepId, { label: string; source: string }> = {
  clean: { label: 'Clean the glass', source: 'common practice, no source' },
  pose: { label: 'Pose and focus', source: 'an assumption' },
  pour: { label: 'Pour the collodion', source: 'an assumption' },
  set: { label: 'Let it set', source: 'common practice, no source; quicker when warm' },
  sensitise: {
    label: 'In the silver bath',
    source: 'E. M. Estabrooke, Photography in the Studio and in the Field; quicker when warm',
  },
  load: { label: 'Load the holder', source: 'an assumption' },
  expose: {
    label: 'Walk and expose',
    source: 'J. B. Schriever, Complete Self-Instructing Library of Practical Photography, and the walk',
  },
  develop: { label: 'Develop and stop with water', source: 'an assumption' },
  fix: { label: 'Fix', source: 'from memory' },
  wash: { label: 'Wash', source: 'from memory' },
  dry: { label: 'Dry on the rack', source: 'common practice, no source' },
};

/** Why there are no turns. */
export function noTurnsInWords(
  no: Exclude<BenchAnswer, { ok: true }> | NoRota | { ok: false; reason: 'time' },
  nameOf: NameOf,
): string {
  switch (no.reason) {
    case 'nobody':
      return 'Nobody has a place yet, so there are no turns.';
    case 'no plates':
      return 'The course says no plates for its students, so there are no turns.';
    case 'none of':
      return `The class has no ${no.station}, and every plate needs one.`;
    case 'time':
      return 'Planning the turns took too long and was given up. Fewer plates, or more of what all share, would be quicker to plan.';
    case 'clock':
    case 'wait':
    case 'too large':
    case 'no stretch':
      return refusalInWords(no, nameOf);
  }
}

/** How much could be gained at most; null where no bound is known. */
export function gapInWords({ end, bound, gap }: Rota): string | null {
  if (bound === null || gap === null) return null;
  const minutes = Math.ceil((end - bound) / 60);
  return minutes <= 0
    ? 'No order of the turns could end earlier.'
    : `Another order of the turns could gain ${counted(minutes, 'minute')} at most (${Math.ceil(gap * 100)} % of the day); whether one does is not known.`;
}

/** When all that counts is over if each step takes its usual time, in seconds since midnight; null without turns. */
export function usualEnd(bench: Bench, rota: Rota, usual: (step: string) => number): number | null {
  const steps = new Map(bench.steps.map((one) => [one.id, one]));
  const runEnd = (run: PlacedRun): number => {
    let at = run.start;
    run.steps.forEach(({ step, latestStart }, position) => {
      const known = steps.get(step);
      if (!known || known.outlasts) return;
      if (position > 0 && known.follows === 'on time') at = Math.max(at, latestStart);
      at += usual(step);
    });
    return at;
  };
  const ends = rota.plates.flatMap(({ runs }) => runs.map(runEnd));
  return ends.length === 0 ? null : Math.max(...ends);
}

/** "Ada’s second plate". */
export const plateInWords = (
  { student, round }: { student: string; round: number },
  nameOf: NameOf,
): string => `${nameOf(student)}, plate ${round}`;

/** Student and number of a plate by its id, as `plateOf` makes it. */
export function readPlate(plate: string): { student: string; round: number } {
  const at = plate.lastIndexOf(' ');
  return { student: plate.slice(0, at), round: Number(plate.slice(at + 1)) };
}

export interface NowAndNext {
  student: string;
  now: Line | null;
  next: Line | null;
  /** The own plate whose turn goes on or comes next; null for none. */
  plate: PlacedPlate | null;
}

/** What each student does at a moment and after it. Whoever has left is not among them. */
export function nowAndNext(
  bench: Bench,
  rota: Rota,
  { gone, done }: { gone: readonly string[]; done: readonly string[] },
  now: number,
): NowAndNext[] {
  return bench.students
    .filter(({ id }) => !gone.includes(id))
    .map(({ id }) => {
      const lines = timetableOf(bench, rota, id).filter(
        (line) => line.doing !== 'plate' || line.plate === null || !done.includes(line.plate),
      );
      return {
        student: id,
        now: lines.findLast((line) => line.from <= now && now < line.until) ?? null,
        next: lines.find((line) => line.from > now) ?? null,
        plate:
          rota.plates.find(
            (one) =>
              one.student === id && !done.includes(one.plate) && (turnTimes(bench, one)?.until ?? 0) > now,
          ) ?? null,
      };
    });
}

/** Where a change is made: the bench of the day, what is taught, or who comes. */
export function whereChanged({ what }: Change): 'bench' | 'template' | 'people' {
  if (what === 'more') return 'bench';
  return what === 'without students' ? 'people' : 'template';
}
