// A bench rota seen from one side: what each student does when, and the columns of a chart of people or of stations.
// Seconds since midnight, as long as each may take; the words stand in rota-words.calc.ts.
import type { PlacedRun, Rota, Use } from './rota.calc.js';
import type { Bench, Stretch } from './rota-bench.calc.js';

export interface Line extends Stretch {
  /** 'plate': the own turn from posing to the developed plate. 'step': one of the own steps beside it. */
  doing: 'plate' | 'step' | 'sit' | 'varnish' | 'break';
  /** With which it begins; null for varnish and breaks. */
  step: string | null;
  /** Null in a break. */
  plate: string | null;
  round: number | null;
  /** Who sits for the own plate, or for whom; null: nobody. */
  with: string | null;
}

/** A student's day in its order, with the breaks that lie within it. Empty for who has no plates and sits for nobody. */
export function timetableOf(bench: Bench, rota: Rota, student: string): Line[] {
  const own = rota.plates.flatMap((plate): Line[] => {
    const about = { plate: plate.plate, round: plate.round };
    const lines = plate.runs.flatMap((run): Line[] => {
      const spans = run.uses.filter(({ station, unit }) => station === null && unit === student);
      const sits = plate.sitter === student && plate.student !== student;
      if (!sits && spans.length > 0 && isTurn(bench, run)) {
        const until = Math.max(...spans.map((one) => one.until));
        const step = firstStep(run, run.start);
        return [{ from: run.start, until, doing: 'plate', step, with: plate.sitter, ...about }];
      }
      return spans.map(({ from, until }) => ({
        from,
        until,
        doing: sits ? 'sit' : 'step',
        step: firstStep(run, from),
        with: sits ? plate.student : null,
        ...about,
      }));
    });
    if (plate.varnish && plate.student === student) {
      const { from, until } = plate.varnish;
      lines.push({ from, until, doing: 'varnish', step: null, with: null, ...about });
    }
    return lines;
  });
  if (own.length === 0) return [];
  const last = Math.max(...own.map(({ until }) => until));
  const breaks = bench.breaks
    .filter(({ from }) => from < last)
    .map(({ from, until }): Line => {
      return { from, until, doing: 'break', step: null, plate: null, round: null, with: null };
    });
  return [...own, ...breaks].sort((a, b) => a.from - b.from || a.until - b.until);
}

const isTurn = (bench: Bench, run: PlacedRun) => run.steps.some(({ step }) => step === bench.turnStep);

/** The step that begins at a moment; the last of them where those before take no time. */
function firstStep(run: PlacedRun, from: number): string | null {
  return run.steps.findLast((one) => one.from === from)?.step ?? null;
}

export interface Bar extends Stretch {
  kind: 'plate' | 'step' | 'sit' | 'varnish' | 'use';
  /** Number of the turn. */
  round: number;
  plate: string;
}

export interface Column {
  /** A student, or a unit of a station. */
  id: string;
  bars: Bar[];
}

/** A column for each student, in the order of the bench. */
export function peopleColumns(bench: Bench, rota: Rota): Column[] {
  return bench.students.map(({ id }) => ({
    id,
    bars: timetableOf(bench, rota, id).flatMap(({ doing, from, until, round, plate }): Bar[] =>
      doing === 'break' || plate === null || round === null
        ? []
        : [{ from, until, kind: doing, round, plate }],
    ),
  }));
}

/** A column for each unit of some stations, in the order of the bench. */
export function stationColumns(bench: Bench, rota: Rota, stations: readonly string[]): Column[] {
  const uses = rota.plates.flatMap(({ runs, plate, round, varnish }) => [
    ...runs.flatMap((run) => run.uses.map((use) => ({ ...use, plate, round }))),
    ...(varnish ? [{ ...varnish, station: bench.varnish?.station ?? '', plate, round }] : []),
  ]);
  const own = (station: string, unit: string) => (use: Use) => use.station === station && use.unit === unit;
  return bench.stations
    .filter(({ id }) => stations.includes(id))
    .flatMap(({ id, units }) =>
      units.map((unit) => ({
        id: unit.id,
        bars: uses
          .filter(own(id, unit.id))
          .map(({ from, until, round, plate }): Bar => ({ from, until, kind: 'use', round, plate }))
          .sort((a, b) => a.from - b.from),
      })),
    );
}
