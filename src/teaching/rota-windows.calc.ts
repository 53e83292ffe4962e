// Where in the day a span of a run can lie, and how early so many spans on so many alike can be over at best. Counts and
// sums only: it lays nothing.
import type { Bench } from './rota-bench.calc.js';
import type { Run, Span } from './rota-runs.calc.js';

/** One use of a station or a person by one plate. */
export interface Use {
  /** Earliest start, and the least from its end to the end of what counts; below 0 where it outlasts that. */
  head: number;
  tail: number;
  length: number;
  windows: Span[];
  /** Area of the plate in mm2. */
  area: number;
}

/**
 * Where a span of a run can lie: between breaks with what hangs together with it, and by the light of its run. Before a
 * break there must be time for the hands of the run after it too, if that cannot wait until the break is over.
 */
export function windowsOf(bench: Bench, run: Run, after: Run | undefined, span: Span, from: number): Span[] {
  const around = run.attended.find((one) => one.from <= span.from && one.until >= span.until);
  const lit = run.lit[0];
  const lightFrom = lit && bench.light ? bench.light.from - lit.from : from;
  const last = lit
    ? (bench.light?.until ?? Number.NEGATIVE_INFINITY) - lit.until + span.until
    : Number.POSITIVE_INFINITY;
  const windows: Span[] = [];
  let begin = Math.max(from, lightFrom) + span.from;
  if (around)
    for (const pause of [...bench.breaks].sort((a, b) => a.from - b.from)) {
      const needed = Math.max(around.until, neededAfter(run, after, pause, around.until));
      windows.push({ from: begin, until: Math.min(last, pause.from - needed + span.until) });
      begin = Math.max(begin, pause.until + span.from - around.from);
    }
  windows.push({ from: begin, until: last });
  return windows.filter((one) => one.until > one.from);
}

/** Seconds from the start of a run to the end of the hands of the one after it, if these cannot wait out a break. */
function neededAfter(run: Run, after: Run | undefined, pause: Span, until: number): number {
  const hands = after?.attended[0];
  if (!after || after.within === null || !hands) return 0;
  const latest = pause.from - until + run.earliestEnd + after.within;
  return pause.until - hands.from > latest ? run.latestEnd + hands.until : 0;
}

/**
 * The earliest end of all uses on so many alike, none cut by a window's edge: as much work, and as many uses, as the
 * windows of the one that is freest can hold. Infinity when there is no room before midnight of the day after.
 */
export function leastEnd(uses: Use[], count: number): number {
  const head = Math.min(...uses.map((one) => one.head));
  const tail = Math.min(...uses.map((one) => one.tail));
  const [shortest, longest] = [
    Math.min(...uses.map(({ length }) => length)),
    Math.max(...uses.map(({ length }) => length)),
  ];
  const work = uses.reduce((sum, { length }) => sum + length, 0);
  const windows = widest(uses.map((one) => one.windows));
  const holds = (end: number): boolean => {
    let [room, places] = [0, 0];
    for (const { from, until } of windows) {
      const length = Math.min(until, end - tail) - Math.max(from, head);
      if (length < shortest) continue;
      const most = Math.floor(length / shortest);
      places += count * most;
      room += count * Math.min(length, most * longest);
    }
    return places >= uses.length && room >= work;
  };
  let low = Math.max(...uses.map((one) => one.head + one.length + one.tail));
  let high = 2 * 86_400;
  if (!(low <= high) || !holds(high)) return Number.POSITIVE_INFINITY;
  if (holds(low)) return low;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** The windows that hold all of them: the union. */
function widest(all: Span[][]): Span[] {
  const union: Span[] = [];
  for (const { from, until } of all.flat().sort((a, b) => a.from - b.from)) {
    const last = union.at(-1);
    if (last && from <= last.until) last.until = Math.max(last.until, until);
    else union.push({ from, until });
  }
  return union;
}
