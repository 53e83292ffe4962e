// The best end of a small teaching day by another method: a time-indexed program for HiGHS, on a grid of seconds.
// Knows nothing of orders, boards or bounds; only the runs' spans are shared with what it judges.
import { type Bench, turnsOf } from '../../src/teaching/rota-bench.calc.js';
import { type Run, runsOf } from '../../src/teaching/rota-runs.calc.js';
import type { Milp } from '../../src/waiting/planner-model.calc.js';
import type { startThread } from '../../src/waiting/solver.service.js';

interface Job {
  plate: string;
  student: string;
  sitter: string | null;
  team: number;
  run: Run;
  before: number | null;
  turnBefore: number | null;
}

/**
 * Whether all can be done by so many seconds after midnight, starts on a grid; null where the solver could not say.
 * Stations are counted, not told apart: for benches whose units are all alike.
 */
export async function canEndBy(
  bench: Bench,
  end: number,
  grid: number,
  thread: ReturnType<typeof startThread>,
): Promise<boolean | null> {
  const jobs = jobsOf(bench);
  const columns: { job: number; start: number }[] = [];
  const starts = jobs.map(({ run }, job) => {
    const own: number[] = [];
    for (let start = bench.day.from; start + run.counts <= end; start += grid) {
      if (!isAllowed(bench, run, start)) continue;
      own.push(columns.length);
      columns.push({ job, start });
    }
    return own;
  });
  if (starts.some((own) => own.length === 0)) return false;
  const rows: { entries: [number, number][]; lower: number; upper: number }[] = [];
  for (const own of starts) rows.push({ entries: own.map((at) => [at, 1]), lower: 0, upper: 1 });
  capacities(bench, jobs, columns, end, grid, rows);
  orders(bench, jobs, columns, starts, rows);
  const solved = await thread.solve(packed(columns.length, rows), 60, 60);
  const chosen = Array.from(solved.values).reduce((sum, value) => sum + Math.round(value), 0);
  if (chosen === jobs.length) return true;
  return solved.proven ? false : null;
}

function jobsOf(bench: Bench): Job[] {
  const sizes = new Map(bench.sizes.map((one) => [one.id, one]));
  const jobs: Job[] = [];
  for (const team of turnsOf(bench)) {
    let turnBefore: number | null = null;
    for (const turn of team) {
      const size = sizes.get(turn.size);
      if (!size) throw new Error(turn.size);
      let before: number | null = null;
      for (const run of runsOf(bench, size, turn)) {
        jobs.push({ ...turn, run, before, turnBefore: run.turn ? turnBefore : null });
        before = jobs.length - 1;
        if (run.turn) turnBefore = before;
      }
    }
  }
  return jobs;
}

function isAllowed(bench: Bench, run: Run, start: number): boolean {
  for (const { from, until } of run.lit)
    if (!bench.light || start + from < bench.light.from || start + until > bench.light.until) return false;
  return run.attended.every(({ from, until }) =>
    bench.breaks.every((pause) => start + until <= pause.from || start + from >= pause.until),
  );
}

type Row = { entries: [number, number][]; lower: number; upper: number };

function capacities(
  bench: Bench,
  jobs: Job[],
  columns: { job: number; start: number }[],
  _end: number,
  _grid: number,
  rows: Row[],
): void {
  const most = new Map(bench.stations.map(({ id, units }) => [id, units.length]));
  // spans are half open, so an overlap shows at the start of one of them: every start of a span is a moment to look at
  const spans = columns.flatMap(({ job, start }, at) => {
    const { run, student, sitter } = jobs[job] as Job;
    return [
      ...run.stations.map((one) => ({
        at,
        who: one.station,
        from: start + one.from,
        until: start + one.until,
      })),
      ...run.maker.map((one) => ({
        at,
        who: `@${student}`,
        from: start + one.from,
        until: start + one.until,
      })),
      ...run.sitter.map((one) => ({
        at,
        who: `@${sitter}`,
        from: start + one.from,
        until: start + one.until,
      })),
    ];
  });
  const byWho = new Map<string, typeof spans>();
  for (const span of spans) byWho.set(span.who, [...(byWho.get(span.who) ?? []), span]);
  for (const [who, own] of byWho) {
    const capacity = most.get(who) ?? 1;
    if (own.length === 0 || capacity >= jobs.length) continue;
    let last = '';
    for (const moment of [...new Set(own.map(({ from }) => from))].sort((a, b) => a - b)) {
      const during = [
        ...new Set(own.filter((one) => one.from <= moment && one.until > moment).map(({ at }) => at)),
      ];
      const key = during.join();
      if (key === last || during.length <= capacity) continue;
      last = key;
      rows.push({ entries: during.map((at) => [at, 1]), lower: 0, upper: capacity });
    }
  }
}

function orders(
  _bench: Bench,
  jobs: Job[],
  columns: { job: number; start: number }[],
  starts: number[][],
  rows: Row[],
): void {
  const startsOf = (job: number) => (starts[job] ?? []).map((at) => ({ at, start: columns[at]?.start ?? 0 }));
  const notBefore = (first: number, second: number, gap: number, within: number | null) => {
    // if the second begins by some moment, the first has begun by that moment less the gap (and the like backwards)
    for (const { start } of startsOf(second)) {
      const seconds = startsOf(second).filter((one) => one.start <= start);
      const firsts = startsOf(first).filter((one) => one.start <= start - gap);
      rows.push({
        entries: [
          ...firsts.map(({ at }): [number, number] => [at, 1]),
          ...seconds.map(({ at }): [number, number] => [at, -1]),
        ],
        lower: 0,
        upper: 1,
      });
    }
    if (within === null) return;
    for (const { start } of startsOf(first)) {
      const firsts = startsOf(first).filter((one) => one.start <= start);
      const seconds = startsOf(second).filter((one) => one.start <= start + within);
      rows.push({
        entries: [
          ...seconds.map(({ at }): [number, number] => [at, 1]),
          ...firsts.map(({ at }): [number, number] => [at, -1]),
        ],
        lower: 0,
        upper: 1,
      });
    }
  };
  jobs.forEach(({ run, before, turnBefore }, job) => {
    if (before !== null) {
      const first = (jobs[before] as Job).run;
      notBefore(before, job, first.latestEnd, run.within === null ? null : first.earliestEnd + run.within);
    }
    if (turnBefore !== null) notBefore(turnBefore, job, 0, null);
  });
}

function packed(columns: number, rows: Row[]): Milp {
  const byColumn: [number, number][][] = Array.from({ length: columns }, () => []);
  rows.forEach(({ entries }, row) => {
    for (const [at, value] of entries) byColumn[at]?.push([row, value]);
  });
  const starts = [0];
  for (const own of byColumn) starts.push((starts.at(-1) ?? 0) + own.length);
  return {
    columns,
    rows: rows.length,
    cost: new Float64Array(columns).fill(1),
    integer: new Int32Array(columns).fill(1),
    rowLower: Float64Array.from(rows, ({ lower }) => lower),
    rowUpper: Float64Array.from(rows, ({ upper }) => upper),
    starts: Int32Array.from(starts),
    indices: Int32Array.from(byColumn.flatMap((own) => own.map(([row]) => row))),
    values: Float64Array.from(byColumn.flatMap((own) => own.map(([, value]) => value))),
  };
}
