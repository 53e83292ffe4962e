// Varnish where the day has room: after the last collodion was poured and the room was aired, plates that are dry for
// certain, earliest first. Whatever does not fit goes home unvarnished; the turns are never moved for it.
import type { Stretch } from './rota-bench.calc.js';
import { boardOf, type Group, layAll, type Work } from './rota-board.calc.js';
import type { Run } from './rota-runs.calc.js';
import type { Laid } from './rota-search.calc.js';

/** By plate, when and on which unit. Every span is the longest that it can take. */
export function varnishingOf(work: Work, laid: Laid[]): Map<string, Stretch & { unit: string }> {
  const done = new Map<string, Stretch & { unit: string }>();
  const { varnish, day, students, stations } = work.bench;
  if (!varnish) return done;
  const board = boardOf(work);
  for (const { group, laying } of laid) layAll(board, group, laying);
  const clear = Math.max(0, ...ends(laid, varnish.ether).map(({ end }) => end)) + varnish.airing;
  const dry = ends(laid, varnish.after).sort((a, b) => a.end - b.end);
  const units = new Set(stations.find(({ id }) => id === varnish.station)?.units.map(({ id }) => id));
  const lanes = work.lanes.flatMap(({ station, unit }, lane) =>
    station === varnish.station && units.has(unit) ? [lane] : [],
  );
  for (const { group, end } of dry) {
    const maker = students.findIndex(({ id }) => id === group.turn.student);
    const longest = { from: 0, until: varnish.seconds.high };
    const one: Group = {
      ...group,
      byTurn: false,
      runs: [{ ...NOTHING, attended: [longest], latestEnd: longest.until, earliestEnd: longest.until }],
      pieces: [
        [
          { ...longest, lanes: [maker], station: null },
          { ...longest, lanes, station: varnish.station },
        ],
      ],
    };
    const laying = board.earliest(one, Math.max(clear, end));
    const start = laying?.starts[0];
    if (!laying || start === undefined || start + longest.until > day.until) continue;
    board.lay(one, laying, 0);
    const unit = work.lanes[laying.lanes[0]?.[1] ?? -1]?.unit ?? '';
    done.set(group.turn.plate, { from: start, until: start + longest.until, unit });
  }
  return done;
}

const NOTHING: Run = {
  steps: [],
  maker: [],
  sitter: [],
  stations: [],
  attended: [],
  lit: [],
  earliestEnd: 0,
  latestEnd: 0,
  counts: 0,
  within: null,
  turn: false,
};

/** Latest ends of a step, for each plate laid. */
function ends(laid: Laid[], step: string): { group: Group; end: number }[] {
  return laid.flatMap(({ group, laying }) =>
    group.runs.flatMap(({ steps }, at) =>
      steps
        .filter((one) => one.step === step)
        .map(({ until }) => ({ group, end: (laying.starts[at] ?? 0) + until })),
    ),
  );
}
