// How early a teaching day could end at best, whatever the order: by the load of each station, by each person's own
// time, and by the turns of each team. Relaxations only, so that no rota ends before; the greatest is the bottleneck.
import { boardOf, type Group, type Work } from './rota-board.calc.js';
import type { Run, Span } from './rota-runs.calc.js';
import { leastEnd, type Use, windowsOf } from './rota-windows.calc.js';

/** What holds the day up most. Teams by position. */
export type Bottleneck =
  /** One by its load; several that a plate needs one after the other without a wait. */
  | { what: 'stations'; stations: string[] }
  | { what: 'student'; student: string }
  | { what: 'team'; team: number };

export interface Bound {
  by: Bottleneck;
  /** No rota ends earlier; Infinity: not possible on that day. Seconds since midnight. */
  end: number;
}

/** All bounds of what is still to be laid from a moment on, the greatest first; equal ones in a fixed order. */
export function boundsOf(work: Work, from: number): Bound[] {
  const uses = new Map<string, Use[]>();
  const note = (key: string, use: Use) => uses.set(key, [...(uses.get(key) ?? []), use]);
  const areas = new Map(work.bench.sizes.map(({ id, area }) => [id, area]));
  const { seconds } = closest(work);
  for (const plate of work.teams.flat()) notePlate(work, plate, { from, areas, apart: seconds }, note);
  const bounds: Bound[] = [];
  for (const { id, units } of work.bench.stations) {
    const own = uses.get(`station ${id}`) ?? [];
    // whoever needs a large unit competes for the large ones only
    for (const least of new Set(own.map(({ area }) => area))) {
      const count = units.filter(({ largest }) => largest === null || largest >= least).length;
      const among = own.filter(({ area }) => area >= least);
      bounds.push({ by: { what: 'stations', stations: [id] }, end: leastEnd(among, count) });
    }
  }
  for (const { id } of work.bench.students) {
    const own = uses.get(`student ${id}`) ?? [];
    if (own.length > 0) bounds.push({ by: { what: 'student', student: id }, end: leastEnd(own, 1) });
  }
  const apart = uses.get('turn') ?? [];
  if (apart.length > 1) bounds.push({ by: closest(work).by, end: leastEnd(apart, 1) });
  work.teams.forEach((team, at) => {
    const end = endOfTurns(work, team, from);
    if (end !== null) bounds.push({ by: { what: 'team', team: at }, end });
  });
  return bounds.sort((a, b) => (a.end === b.end ? 0 : b.end - a.end));
}

function notePlate(
  work: Work,
  groups: Group[],
  { from, areas, apart }: { from: number; areas: ReadonlyMap<string, number>; apart: number },
  note: (key: string, use: Use) => void,
): void {
  const board = boardOf(work);
  let least = from;
  const runs: { run: Run; start: number }[] = [];
  for (const group of groups) {
    const alone = board.earliest(group, least);
    group.runs.forEach((run, at) => {
      runs.push({ run, start: alone?.starts[at] ?? Number.POSITIVE_INFINITY });
    });
    const last = group.runs.length - 1;
    least = alone ? (alone.starts[last] ?? 0) + (group.runs[last]?.latestEnd ?? 0) : Number.POSITIVE_INFINITY;
  }
  const turn = groups[0]?.turn;
  runs.forEach(({ run, start }, at) => {
    const counts = countsFrom(runs.slice(at).map((one) => one.run));
    if (counts === 0) return;
    const use = (span: Span): Use => ({
      head: start + span.from,
      tail: counts - span.until,
      length: span.until - span.from,
      windows: windowsOf(work.bench, run, runs[at + 1]?.run, span, from),
      area: areas.get(turn?.size ?? '') ?? 0,
    });
    for (const span of run.stations) note(`station ${span.station}`, use(span));
    for (const span of run.maker) note(`student ${turn?.student}`, use(span));
    for (const span of run.sitter) note(`student ${turn?.sitter}`, use(span));
    if (!run.turn || apart === 0) return;
    // a turn keeps the next one from beginning, so that it is a use of its own
    const begins = { from: 0, until: run.attended.find((one) => one.from === 0)?.until ?? 0 };
    const windows = windowsOf(work.bench, run, runs[at + 1]?.run, begins, from).map((one) => ({
      from: one.from,
      until: one.until - begins.until + apart,
    }));
    note('turn', { ...use(begins), length: apart, tail: counts - apart, windows });
  });
}

/** Latest end of what counts, after the start of the first of some runs that follow each other without a wait. */
function countsFrom(runs: Run[]): number {
  let after = 0;
  let counts = 0;
  for (const run of runs) {
    if (run.counts > 0) counts = Math.max(counts, after + run.counts);
    after += run.latestEnd;
  }
  return counts;
}

/**
 * A team's turns with the bench to itself: each begins no earlier than people's hands allow after the turn before.
 * Null without turns; Infinity where one cannot be laid.
 */
function endOfTurns(work: Work, team: Group[][], from: number): number | null {
  const board = boardOf(work);
  let least = from;
  let end: number | null = null;
  let before: Group | null = null;
  let taken = 0;
  for (const group of team.flat().filter((one) => one.byTurn)) {
    const gap = before ? apart(before, group) : 0;
    const laying = board.earliest(group, least + gap);
    if (!laying) return Number.POSITIVE_INFINITY;
    taken += gap;
    least = laying.starts[0] as number;
    end = Math.max(end ?? 0, least + countsFrom(group.runs));
    before = group;
  }
  if (!before || end === null) return null;
  const last = workedBy(work, from, taken + between(team));
  return Math.max(end, last + countsFrom(before.runs));
}

/**
 * Seconds that a pair needs between its turns for what must be done before the last one and is too long to be done
 * while the other makes a plate: the more of the two. 0 for teams whose turns may overlap.
 */
function between(team: Group[][]): number {
  const turns = team.flat().filter((one) => one.byTurn);
  const alone = turns.every((one, at) => {
    const next = turns[at + 1];
    return !next || apart(one, next) >= (one.runs[0]?.latestEnd ?? 0);
  });
  if (!alone || new Set(turns.flatMap(({ turn }) => [turn.student, turn.sitter])).size !== 2) return 0;
  const most = new Map<string, number>();
  for (const groups of team)
    for (const { turn, byTurn, runs } of groups) {
      if (byTurn) break;
      const longest = Math.max(...turns.filter((one) => one.turn.student !== turn.student).map(longestHole));
      for (const { maker } of runs)
        for (const { from, until } of maker)
          if (until - from > longest) most.set(turn.student, (most.get(turn.student) ?? 0) + until - from);
    }
  return Math.max(0, ...most.values());
}

/** The longest time that a sitter has for something else during a turn. */
function longestHole({ runs: [run] }: Group): number {
  let [free, longest] = [0, 0];
  for (const { from, until } of run?.sitter ?? []) {
    longest = Math.max(longest, from - free);
    free = until;
  }
  return Math.max(longest, (run?.latestEnd ?? 0) - free);
}

/** When so many seconds outside of breaks have passed since a moment. */
function workedBy({ bench }: Work, from: number, seconds: number): number {
  let [now, left] = [from, seconds];
  for (const pause of [...bench.breaks].sort((a, b) => a.from - b.from)) {
    if (pause.until <= now) continue;
    const free = Math.max(0, pause.from - now);
    if (free >= left) break;
    left -= free;
    now = pause.until;
  }
  return now + left;
}

/**
 * Least seconds between the starts of any two turns, because of the stations of which there is only one for their
 * size, and which of them it is; 0 seconds where there is none such.
 */
function closest(work: Work): { seconds: number; by: Bottleneck } {
  const bySize = new Map<string, Group>();
  for (const group of work.teams.flat(2)) if (group.byTurn) bySize.set(group.turn.size, group);
  const groups = [...bySize.values()];
  const least = (without: string | null) =>
    Math.min(...groups.flatMap((one) => groups.map((other) => apart(one, other, without))));
  if (groups.length === 0) return { seconds: 0, by: { what: 'stations', stations: [] } };
  const seconds = least(null);
  const single = new Set(
    groups.flatMap(({ pieces }) =>
      (pieces[0] ?? []).flatMap(({ station, lanes }) =>
        station !== null && lanes.length === 1 ? [station] : [],
      ),
    ),
  );
  const needed = [...single].filter((station) => least(station) < seconds);
  return { seconds, by: { what: 'stations', stations: needed.length > 0 ? needed : [...single] } };
}

/**
 * Least seconds from the start of one turn to that of another, so that nothing of which there is one is needed twice:
 * stations but one, or (undefined) people alone.
 */
function apart(before: Group, after: Group, without?: string | null): number {
  let seconds = 0;
  for (let moved = true; moved; ) {
    moved = false;
    for (const one of before.pieces[0] ?? [])
      for (const other of after.pieces[0] ?? []) {
        if (one.station !== other.station || one.lanes.length !== 1) continue;
        if (other.lanes.length !== 1 || one.lanes[0] !== other.lanes[0]) continue;
        if (without === undefined ? one.station !== null : one.station === null || one.station === without)
          continue;
        const overlaps = seconds + other.from < one.until && one.from < seconds + other.until;
        if (overlaps) [seconds, moved] = [one.until - other.from, true];
      }
  }
  return seconds;
}
