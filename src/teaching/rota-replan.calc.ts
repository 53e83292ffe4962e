// The rest of a teaching day planned anew when somebody is late, a plate is skipped, somebody leaves or the day runs
// behind. Whatever has begun stays as it is; nothing else begins before now. It reads no clock.
import { type Bench, type Turn, turnsOf } from './rota-bench.calc.js';
import { type Group, type Work, workOf } from './rota-board.calc.js';
import {
  type PlacedPlate,
  type PlacedRun,
  refusal,
  type Rota,
  type RotaAnswer,
  rotaOf,
} from './rota.calc.js';
import type { Laid } from './rota-search.calc.js';

/** All that has happened so far on the day, not only since the last time. */
export interface Meanwhile {
  /** Seconds since midnight. */
  now: number;
  /** Not there before. */
  late: { student: string; until: number }[];
  /** Plates that are not made, or given up half way: what they held is free. */
  skipped: string[];
  /** Who left: their plates that have not begun fall away, and another of the team sits, or nobody. */
  gone: string[];
  /** Plates whose turn should have begun by the rota and has not. */
  notBegun: string[];
}

/** Layings that a search may take beyond its first orders: answered while people wait. */
export const REST_LAYINGS = 1_000;

/**
 * A rota for the rest of the day around what has begun. Stations of the bench may be fewer or more than before.
 * Plates for which no time is left are told as unplaced.
 * @throws Error for ids that the bench does not know
 */
export function replanRota(
  bench: Bench,
  rota: Rota,
  meanwhile: Meanwhile,
  layings = REST_LAYINGS,
): RotaAnswer {
  const begun = begunOf(bench, rota, meanwhile);
  const turns = turnsLeft(bench, rota, meanwhile, begun);
  const no = refusal(bench, turns);
  if (no) return no;
  const later = new Map(meanwhile.late.map(({ student, until }) => [student, until]));
  const students = bench.students.map((one) => {
    const until = later.get(one.id);
    return until === undefined ? one : { ...one, from: Math.max(until, one.from ?? until) };
  });
  const work = workOf({ ...bench, students }, turns);
  const placed = new Map(rota.plates.map((one) => [one.plate, one]));
  const kept: Laid[] = [];
  const teams = work.teams.map((team) =>
    team.map((groups) =>
      groups.filter((group) => {
        const own = placed.get(group.turn.plate);
        if (!own || !hasBegun(own, group.first, bench, meanwhile)) return true;
        kept.push(keptAs(work, group, own));
        return false;
      }),
    ),
  );
  const from = Math.max(bench.day.from, meanwhile.now);
  return { ok: true, rota: rotaOf({ ...work, teams }, { from, kept, layings, upTo: 'best' }) };
}

/** A rota in which the turn of a plate ended at a moment, before its time: what it held is free from then on. */
export function endedEarly(bench: Bench, rota: Rota, plate: string, now: number): Rota {
  return {
    ...rota,
    plates: rota.plates.map((one) =>
      one.plate !== plate
        ? one
        : {
            ...one,
            runs: one.runs.map((run) =>
              isTurn(bench, run) && run.start < now
                ? {
                    ...run,
                    uses: run.uses.map((use) => ({
                      ...use,
                      until: Math.max(use.from, Math.min(use.until, now)),
                    })),
                  }
                : run,
            ),
          },
    ),
  };
}

/** Plates whose turn has begun. */
export function begunOf(bench: Bench, rota: Rota, meanwhile: Meanwhile): Set<string> {
  return new Set(
    rota.plates
      .filter((plate) => {
        const at = plate.runs.findIndex((run) => isTurn(bench, run));
        return hasBegun(plate, at, bench, meanwhile);
      })
      .map(({ plate }) => plate),
  );
}

const isTurn = (bench: Bench, run: PlacedRun) => run.steps.some(({ step }) => step === bench.turnStep);

/** Whether the run at a position has begun by now. */
function hasBegun(
  plate: PlacedPlate,
  at: number,
  bench: Bench,
  { now, skipped, notBegun }: Meanwhile,
): boolean {
  const run = plate.runs[at];
  if (!run || run.start >= now || skipped.includes(plate.plate)) return false;
  if (!notBegun.includes(plate.plate)) return true;
  return at < plate.runs.findIndex((one) => isTurn(bench, one));
}

/** A begun turn is as it was; the others without those who are gone and what is skipped. */
function turnsLeft(
  bench: Bench,
  rota: Rota,
  { skipped, gone }: Meanwhile,
  begun: ReadonlySet<string>,
): Turn[][] {
  const before = new Map(rota.plates.map((one) => [one.plate, one]));
  return turnsOf(bench).map((team, at) => {
    const there = (bench.teams[at] ?? []).filter((id) => !gone.includes(id));
    return team.flatMap((turn): Turn[] => {
      const placed = before.get(turn.plate);
      if (placed && begun.has(turn.plate)) return [{ ...turn, sitter: placed.sitter }];
      if (skipped.includes(turn.plate) || gone.includes(turn.student)) return [];
      if (turn.sitter === null || !gone.includes(turn.sitter)) return [turn];
      const others = there.filter((id) => id !== turn.student);
      return [{ ...turn, sitter: others[turn.round % Math.max(1, others.length)] ?? null }];
    });
  });
}

/** A group as the rota has it, what ended early no longer than it took. A unit that is no longer there holds nothing. */
function keptAs(work: Work, group: Group, plate: PlacedPlate): Laid {
  const runs = plate.runs.slice(group.first, group.first + group.runs.length);
  const lanes = group.pieces.map((pieces, run) =>
    pieces.map((_, piece) => {
      const use = runs[run]?.uses[piece];
      return work.lanes.findIndex(({ station, unit }) => station === use?.station && unit === use.unit);
    }),
  );
  const present = (run: number) => (_: unknown, piece: number) => lanes[run]?.[piece] !== -1;
  const took = group.pieces.map((pieces, run) =>
    pieces.map((piece, at) => {
      const own = runs[run];
      const until = (own?.uses[at]?.until ?? Number.POSITIVE_INFINITY) - (own?.start ?? 0);
      return { ...piece, until: Math.max(piece.from, Math.min(piece.until, until)) };
    }),
  );
  return {
    group: { ...group, pieces: took.map((pieces, run) => pieces.filter(present(run))) },
    laying: {
      starts: runs.map(({ start }) => start),
      lanes: lanes.map((own, run) => own.filter(present(run))),
    },
  };
}
