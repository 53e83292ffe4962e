// The steps of one plate as rigid runs: once a run has begun, each step follows the one before and never waits, so
// that whatever each takes within its range, everything happens inside the spans told here. Offsets in seconds.
import type { Bench, PlateSize, Seconds, Step, Turn, WetClock } from './rota-bench.calc.js';

/** Spans are from the earliest start to the latest end, after the start of the run. */
export interface Span {
  from: number;
  until: number;
}

export interface LaidStep extends Span {
  step: string;
  /** When it begins if every step before takes its longest. */
  latestStart: number;
  earliestEnd: number;
}

export interface Run {
  steps: LaidStep[];
  /** Of the maker, the sitter, and of stations: who or what is taken, and when. */
  maker: Span[];
  sitter: Span[];
  stations: (Span & { station: string })[];
  /** Hands are needed: not in a break. */
  attended: Span[];
  lit: Span[];
  earliestEnd: number;
  latestEnd: number;
  /** Latest end of what counts as part of the day; 0 when nothing does. */
  counts: number;
  /** At most so long after the earliest end of the run before; null: any time. */
  within: number | null;
  /** Is the run that goes by turns. */
  turn: boolean;
}

/**
 * The runs of a plate of a size.
 * @throws Error for a step, station or hold that the bench does not know, or a hold that spans two runs
 */
export function runsOf(bench: Bench, size: PlateSize, turn: Pick<Turn, 'sitter'>): Run[] {
  const parts: Step[][] = [];
  for (const step of bench.steps) {
    if (step.follows === 'waits' || parts.length === 0) parts.push([]);
    parts.at(-1)?.push(step);
  }
  if (!bench.steps.some(({ id }) => id === bench.turnStep)) throw new Error(`No step ${bench.turnStep}.`);
  return parts.map((steps) => runOf(bench, steps, size, turn.sitter !== null));
}

function runOf(bench: Bench, steps: Step[], size: PlateSize, hasSitter: boolean): Run {
  const laid: LaidStep[] = [];
  let early = 0;
  let late = 0;
  for (const step of steps) {
    const { low, high } = secondsOf(step, size);
    if (step.follows === 'on time') early = late;
    laid.push({
      step: step.id,
      from: early,
      latestStart: late,
      earliestEnd: early + low,
      until: late + high,
    });
    early += low;
    late += high;
  }
  const at = new Map(laid.map((one) => [one.step, one]));
  const spansOf = (which: (step: Step) => boolean) =>
    joined(steps.filter(which).flatMap(({ id }) => at.get(id) ?? []));
  const stations = stationsOf(bench, at);
  const people = spansOf(({ busy }) => busy !== 'nobody');
  const attendedStations = new Set(bench.stations.filter((one) => one.attended).map(({ id }) => id));
  return {
    steps: laid,
    maker: spansOf(({ busy }) => busy === 'maker' || busy === 'both' || (busy === 'sitter' && !hasSitter)),
    sitter: hasSitter ? spansOf(({ busy }) => busy === 'sitter' || busy === 'both') : [],
    stations,
    attended: joined([...people, ...stations.filter(({ station }) => attendedStations.has(station))]),
    lit: spansOf(({ lit }) => lit),
    earliestEnd: early,
    latestEnd: late,
    counts: Math.max(0, ...steps.filter((one) => !one.outlasts).map(({ id }) => at.get(id)?.until ?? 0)),
    within: steps[0]?.within ?? null,
    turn: at.has(bench.turnStep),
  };
}

/** A plate that comes back to a station before it could have left for certain keeps it in between. */
function stationsOf(bench: Bench, at: ReadonlyMap<string, LaidStep>): Run['stations'] {
  const known = new Set(bench.stations.map(({ id }) => id));
  const spans = new Map<string, Span[]>();
  for (const { station, from, until } of bench.holds) {
    if (!known.has(station)) throw new Error(`No station ${station}.`);
    const [first, last] = [at.get(from), at.get(until)];
    if (!first && !last) continue;
    if (!first || !last) throw new Error(`${station} is held from one run into another.`);
    spans.set(station, [...(spans.get(station) ?? []), { from: first.from, until: last.until }]);
  }
  return [...spans].flatMap(([station, all]) => joined(all).map((span) => ({ station, ...span })));
}

/** Spans that touch or overlap as one; empty ones are nothing. */
function joined(spans: readonly Span[]): Span[] {
  const all: Span[] = [];
  const sorted = spans.filter(({ from, until }) => until > from).sort((a, b) => a.from - b.from);
  for (const { from, until } of sorted) {
    const last = all.at(-1);
    if (last && from <= last.until) last.until = Math.max(last.until, until);
    else all.push({ from, until });
  }
  return all;
}

/** The seconds of a step at a size. */
export const secondsOf = (step: Step, size: PlateSize): Seconds => size.seconds[step.id] ?? step.seconds;

/**
 * The most seconds there can be on a clock, whatever each step takes within its range; null when its edges lie in
 * two runs, between which a plate may wait.
 * @throws Error for a step that is not there, or edges in the wrong order
 */
export function mostOnClock(bench: Bench, size: PlateSize, clock: WetClock): number | null {
  const [first, last] = [clock.from.step, clock.until.step].map((step) =>
    bench.steps.findIndex(({ id }) => id === step),
  ) as [number, number];
  if (first === -1 || last < first) throw new Error(`The clock ${clock.id} does not run forward.`);
  const laid = runsOf(bench, size, { sitter: null }).find(({ steps }) =>
    steps.some(({ step }) => step === clock.from.step),
  )?.steps;
  const begin = laid?.find(({ step }) => step === clock.from.step);
  const end = laid?.find(({ step }) => step === clock.until.step);
  if (!begin || !end) return null;
  const latestEnd = clock.until.edge === 'start' ? end.latestStart : end.until;
  // only where a step waits for its planned time does being early before it lengthen the clock
  const synced = bench.steps.slice(first + 1, last + 1).some(({ follows }) => follows === 'on time');
  const [early, late] =
    clock.from.edge === 'start' ? [begin.from, begin.latestStart] : [begin.earliestEnd, begin.until];
  return latestEnd - (synced ? early : late);
}
