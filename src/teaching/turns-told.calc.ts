// What is told of a day's turns while it goes on, and what follows for the rest: who comes later, which plates are not
// made, who has left, which are done. It plans nothing itself and reads no clock.
import { plateOf } from './rota-bench.calc.js';
import { begunOf, endedEarly, type Meanwhile } from './rota-replan.calc.js';
import type { PlacedPlate, Rota } from './rota.calc.js';
import type { Bench } from './rota-bench.calc.js';
import type { Telling, Told, Turns } from './turns.schemas.js';

export type TellingAnswer =
  | {
      ok: true;
      told: Told;
      /** From which the rest is planned: of a plate that is done its stations are free. */
      rota: Rota;
      meanwhile: Meanwhile;
    }
  | { ok: false; reason: 'no such student' | 'no such plate' };

/** `now` in seconds since the midnight of the day; 0 before the day. */
export function afterTelling(
  { bench, rota, told }: Pick<Turns, 'bench' | 'rota' | 'told'>,
  telling: Telling,
  now: number,
): TellingAnswer {
  const student = bench.students.find(({ id }) => id === telling.studentId);
  if (!student) return { ok: false, reason: 'no such student' };
  const round = telling.what === 'late' ? undefined : telling.round;
  if (round !== undefined && round > student.plates.length) return { ok: false, reason: 'no such plate' };
  if (telling.what === 'late') {
    const until = Math.max(now, bench.day.from) + telling.minutes * 60;
    const late = [...told.late.filter((one) => one.student !== student.id), { student: student.id, until }];
    const waiting = underWay(bench, rota, now, told.done).filter((one) => one.student === student.id);
    const notBegun = telling.minutes === 0 ? [] : waiting.map(({ plate }) => plate);
    return answer({ ...told, late }, bench, rota, { now, notBegun });
  }
  const plate = plateOf(student.id, round ?? 0);
  if (telling.what === 'done')
    return answer(
      { ...told, done: added(told.done, plate), skipped: told.skipped.filter((one) => one !== plate) },
      bench,
      endedEarly(bench, rota, plate, now),
      { now, notBegun: [] },
    );
  if (telling.what === 'again') {
    const back =
      round === undefined
        ? { ...told, gone: told.gone.filter((one) => one !== student.id) }
        : { ...told, skipped: told.skipped.filter((one) => one !== plate) };
    return answer(back, bench, rota, { now, notBegun: [] });
  }
  const after =
    round === undefined
      ? { ...told, gone: added(told.gone, student.id) }
      : {
          ...told,
          skipped: added(told.skipped, plate),
          done: told.done.filter((one) => one !== plate),
        };
  return answer(after, bench, rota, { now, notBegun: [] });
}

function answer(
  told: Told,
  bench: Bench,
  rota: Rota,
  { now, notBegun }: Pick<Meanwhile, 'now' | 'notBegun'>,
): TellingAnswer {
  const { late, gone } = told;
  const begun = begunOf(bench, rota, { now, late, gone, skipped: [], notBegun });
  // a plate made before its turn needs none any more
  const early = told.done.filter((plate) => !begun.has(plate));
  return {
    ok: true,
    told,
    rota,
    meanwhile: { now, late, gone, notBegun, skipped: [...new Set([...told.skipped, ...early])] },
  };
}

const added = (all: readonly string[], one: string) => (all.includes(one) ? [...all] : [...all, one]);

/** Seconds that the day must end earlier for it to be worth that everybody’s turns move. Assumption. */
const WORTH_A_MOVE = 300;

/** What is kept of a rest laid anew: where all still stands, only one that ends clearly earlier. */
export function keptRest(
  { rota, meanwhile }: Extract<TellingAnswer, { ok: true }>,
  telling: Telling,
  rest: Rota,
): Rota {
  const stands =
    telling.what === 'done' && !rota.plates.some(({ plate }) => meanwhile.skipped.includes(plate));
  const worse = rest.unplaced.length > rota.unplaced.length;
  return stands && (worse || rest.end > rota.end - WORTH_A_MOVE) ? rota : rest;
}

/** When the turn of a plate goes on, from posing to the developed plate; null for one without a turn. */
export function turnTimes(bench: Bench, { runs }: PlacedPlate): { from: number; until: number } | null {
  const run = runs.find(({ steps }) => steps.some(({ step }) => step === bench.turnStep));
  if (!run) return null;
  return { from: run.start, until: Math.max(run.start, ...run.uses.map(({ until }) => until)) };
}

/** Plates whose turn goes on at a moment by the plan, and that nobody has told to be done. */
export function underWay(bench: Bench, rota: Rota, now: number, done: readonly string[]): PlacedPlate[] {
  return rota.plates.filter((plate) => {
    const times = turnTimes(bench, plate);
    return times !== null && times.from < now && now < times.until && !done.includes(plate.plate);
  });
}
