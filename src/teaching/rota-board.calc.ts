// The board on which runs are laid: one lane for each person and each unit of a station, and the earliest moment at
// which the runs of a plate fit in. It decides no order (see rota-search.calc.ts).
import { type Bench, takes, type Turn, type Unit } from './rota-bench.calc.js';
import { type Run, runsOf } from './rota-runs.calc.js';

/** Runs of a plate that hang together by a longest wait, laid as one. */
export interface Group {
  turn: Turn;
  /** Position of the first run among those of its plate. */
  first: number;
  runs: Run[];
  /** By run: what must be free, any one of some lanes. */
  pieces: Piece[][];
  byTurn: boolean;
}

interface Piece {
  /** Lanes any one of which will do, the smallest unit first. */
  lanes: number[];
  from: number;
  until: number;
  /** Null: a person. */
  station: string | null;
}

/** Where a group is laid: by run, its start and the lane of each of its pieces. */
export interface Laying {
  starts: number[];
  lanes: number[][];
}

/** The bench made ready for laying: plates by teams in their turns, each as groups of runs. */
export interface Work {
  bench: Bench;
  lanes: { station: string | null; unit: string }[];
  /** By team, in turns; of each plate its groups in order. */
  teams: Group[][][];
}

/** @throws Error for a size or station that the bench does not know */
export function workOf(bench: Bench, turns: Turn[][]): Work {
  const lanes: Work['lanes'] = bench.students.map(({ id }) => ({ station: null, unit: id }));
  const people = new Map(bench.students.map(({ id }, at) => [id, at]));
  const units = new Map<string, { lane: number; unit: Unit }[]>();
  for (const { id, units: all } of bench.stations) {
    const own = all.map((unit) => {
      lanes.push({ station: id, unit: unit.id });
      return { lane: lanes.length - 1, unit };
    });
    units.set(
      id,
      own.sort((a, b) => rank(a.unit) - rank(b.unit) || a.lane - b.lane),
    );
  }
  const sizes = new Map(bench.sizes.map((one) => [one.id, one]));
  const teams = turns.map((team) =>
    team.map((turn) => {
      const size = sizes.get(turn.size);
      if (!size) throw new Error(`No size ${turn.size}.`);
      const pieces = (run: Run): Piece[] => [
        ...run.maker.map((span) => ({ ...span, lanes: laneOf(people, turn.student), station: null })),
        ...run.sitter.map((span) => ({ ...span, lanes: laneOf(people, turn.sitter), station: null })),
        ...run.stations.map(({ station, from, until }) => ({
          from,
          until,
          station,
          lanes: (units.get(station) ?? []).flatMap(({ lane, unit }) =>
            takes(unit, size.area, turn.student) ? [lane] : [],
          ),
        })),
      ];
      return groupsOf(runsOf(bench, size, turn), turn, pieces);
    }),
  );
  return { bench, lanes, teams };
}

/** An own unit before those that are shared, the smallest first. */
const rank = ({ largest, owner }: Unit) =>
  owner === undefined ? (largest ?? Number.POSITIVE_INFINITY) : Number.NEGATIVE_INFINITY;

function laneOf(people: ReadonlyMap<string, number>, id: string | null): number[] {
  const lane = id === null ? undefined : people.get(id);
  if (lane === undefined) throw new Error(`No student ${id}.`);
  return [lane];
}

function groupsOf(runs: Run[], turn: Turn, pieces: (run: Run) => Piece[]): Group[] {
  const groups: Group[] = [];
  runs.forEach((run, first) => {
    if (run.within === null || groups.length === 0)
      groups.push({ turn, first, runs: [], pieces: [], byTurn: false });
    const group = groups.at(-1);
    group?.runs.push(run);
    group?.pieces.push(pieces(run));
    if (!group || !run.turn) return;
    if (group.runs.length > 1)
      throw new Error('The run that goes by turns must not wait for the one before.');
    group.byTurn = true;
  });
  return groups;
}

/** What is taken of a lane: stretches that do not overlap, in order. */
interface Lane {
  starts: number[];
  ends: number[];
}

export interface Board {
  /**
   * The earliest starts from a moment on, of all its runs or of those from one on; null where the light ends before,
   * or no stretch is long enough.
   */
  earliest(group: Group, from: number, first?: number): Laying | null;
  lay(group: Group, laying: Laying, run: number): void;
  /** Whoever or whatever it is, taken from one moment to another. */
  block(lane: number, from: number, until: number): void;
}

/** Lays every run of a group. */
export function layAll(board: Board, group: Group, laying: Laying): void {
  group.runs.forEach((_, run) => {
    board.lay(group, laying, run);
  });
}

/** A board with nothing laid but who comes later. A start is looked for until a day after the end of the day. */
export function boardOf(work: Work): Board {
  const { bench } = work;
  const lanes: Lane[] = work.lanes.map(() => ({ starts: [], ends: [] }));
  const breaks: Lane = { starts: [], ends: [] };
  for (const { from, until } of bench.breaks) merge(breaks, from, until);
  bench.students.forEach(({ from }, at) => {
    if (from !== null) merge(lanes[at] as Lane, Number.NEGATIVE_INFINITY, from);
  });

  const earliestRun = (run: Run, pieces: Piece[], from: number) =>
    firstFit(bench, lanes, breaks, run, pieces, from);

  function earliest(group: Group, from: number, first = 0): Laying | null {
    const starts: number[] = [];
    let at = first;
    let least = from;
    // a run too late for the longest wait pushes the one before it later, and all after it anew
    while (at < group.runs.length) {
      const run = group.runs[at] as Run;
      const start = earliestRun(run, group.pieces[at] as Piece[], least);
      if (start === null) return null;
      const before = group.runs[at - 1];
      const began = starts[at - 1];
      if (before && began !== undefined && start > began + before.earliestEnd + (run.within ?? 0)) {
        least = start - (run.within ?? 0) - before.earliestEnd;
        at -= 1;
        continue;
      }
      starts[at] = start;
      least = start + run.latestEnd;
      at += 1;
    }
    const own = group.pieces.map((pieces, run) => (run < first ? [] : chosen(pieces, starts[run] as number)));
    return { starts, lanes: own };
  }

  const chosen = (pieces: Piece[], start: number): number[] =>
    pieces.map(({ lanes: own, from, until }) => {
      const free = own.find(
        (lane) => freeFrom(lanes[lane] as Lane, start + from, start + until) === start + from,
      );
      if (free === undefined) throw new Error('No lane is free where one was found.');
      return free;
    });

  return {
    earliest,
    lay(group, { starts, lanes: own }, run) {
      const start = starts[run] as number;
      group.pieces[run]?.forEach(({ from, until }, piece) => {
        merge(lanes[own[run]?.[piece] as number] as Lane, start + from, start + until);
      });
    },
    block: (lane, from, until) => merge(lanes[lane] as Lane, from, until),
  };
}

/** The earliest start of a run; null where its light ends before, or within a day after the end of the day. */
function firstFit(
  bench: Bench,
  lanes: Lane[],
  breaks: Lane,
  run: Run,
  pieces: Piece[],
  from: number,
): number | null {
  const last = bench.day.until + 86_400;
  let start = from;
  for (let moved = true; moved; ) {
    moved = false;
    for (const span of run.lit) {
      if (!bench.light) return null;
      start = Math.max(start, bench.light.from - span.from);
      if (start + span.until > bench.light.until) return null;
    }
    for (const span of run.attended) {
      const free = freeFrom(breaks, start + span.from, start + span.until);
      if (free !== start + span.from) [start, moved] = [free - span.from, true];
    }
    for (const piece of pieces) {
      const free = soonest(lanes, piece, start);
      if (free !== start + piece.from) [start, moved] = [free - piece.from, true];
    }
    if (start > last) return null;
  }
  return start;
}

/** The moment from which one of the piece's lanes is free, not before its own. */
function soonest(lanes: Lane[], piece: Piece, start: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (const lane of piece.lanes) {
    const free = freeFrom(lanes[lane] as Lane, start + piece.from, start + piece.until);
    if (free < least) least = free;
    if (free === start + piece.from) break;
  }
  return least;
}

/** From when on, not before `from`, a stretch of that length is free. */
function freeFrom({ starts, ends }: Lane, from: number, until: number): number {
  let low = 0;
  let high = ends.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((ends[middle] as number) > from) high = middle;
    else low = middle + 1;
  }
  const length = until - from;
  let free = from;
  for (; low < starts.length && (starts[low] as number) < free + length; low++) free = ends[low] as number;
  return free;
}

/** Takes a stretch, together with what it touches or overlaps. */
function merge({ starts, ends }: Lane, from: number, until: number): void {
  if (until <= from) return;
  let low = 0;
  while (low < ends.length && (ends[low] as number) < from) low += 1;
  let high = low;
  let [first, last] = [from, until];
  for (; high < starts.length && (starts[high] as number) <= until; high++) {
    first = Math.min(first, starts[high] as number);
    last = Math.max(last, ends[high] as number);
  }
  starts.splice(low, high - low, first);
  ends.splice(low, high - low, last);
}
