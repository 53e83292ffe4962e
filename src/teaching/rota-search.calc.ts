// In which order the runs are laid: by turns and by the critical ratio of the teams first, then improved by moving
// one at a time. Counts layings, not seconds, so that the same bench gives the same rota on any machine.
import { type Board, boardOf, type Group, type Laying, layAll, type Work } from './rota-board.calc.js';

export interface Laid {
  group: Group;
  laying: Laying;
}

export interface Found {
  laid: Laid[];
  /** Plates for which no room was found, in turns. */
  unplaced: string[];
  /** Latest end of what counts, kept runs included. */
  end: number;
  /** How many layings it took. */
  layings: number;
}

export interface Search {
  /** Nothing begins before. */
  from: number;
  /** Laid already, and not to be moved. */
  kept: Laid[];
  /** Good enough: the search ends with it. */
  target: number;
  /** At most so many layings of a run, beyond those of the first orders. */
  layings: number;
}

/** A run by its place in the work. */
interface Item {
  team: number;
  turn: number;
  group: Group;
  run: number;
}

/**
 * The best that was found; always something, with all plates unplaced at worst. From the best of the first orders on
 * by record-to-record travel (G. Dueck 1993): a worse day is gone on from while it is worse than the best by little,
 * and how little that is shrinks to nothing as the layings are used up.
 */
export function searchRota(work: Work, search: Search): Found {
  const state = { layings: 0 };
  let best: Step | null = null;
  for (const order of firstOrders(work, search, state)) {
    const tried = layInOrder(work, search, order, state);
    if (best === null || isBetter(tried, best.tried)) best = { order, tried };
    if (isEnough(tried, search.target)) break;
  }
  if (best === null) throw new Error('There are always orders to try.');
  if (!isEnough(best.tried, search.target)) best = improved(work, search, best, state);
  const { laid, unplaced, end } = best.tried;
  return { laid, unplaced, end, layings: state.layings };
}

interface Step {
  order: Item[];
  tried: Tried;
}

/**
 * Shares of the day's length by which a day may be worse than the best and still be gone on from, at first: far at
 * the beginning, which small days need, and then near, which large ones need. Each has as many layings.
 */
const THRESHOLDS = [0.1, 0.02];

function improved(work: Work, search: Search, from: Step, state: { layings: number }): Step {
  const chance = lcg(1);
  const length = from.order.length;
  const most = search.layings / THRESHOLDS.length;
  let best = from;
  for (const share of length > 1 ? THRESHOLDS : []) {
    const threshold = share * (best.tried.end - work.bench.day.from);
    const began = state.layings;
    let here = best;
    while (state.layings - began + length <= most && !isEnough(best.tried, search.target)) {
      const order = moved(here.order, chance);
      const tried = layInOrder(work, search, order, state);
      const left = 1 - (state.layings - began) / most;
      if (tried.cost <= best.tried.cost + threshold * left) here = { order, tried };
      if (isBetter(tried, best.tried)) best = { order, tried };
    }
  }
  return best;
}

interface Tried {
  laid: Laid[];
  unplaced: string[];
  end: number;
  /** What leads the search: plates without a turn, the end of the day, and how early the turns are on the whole. */
  cost: number;
}

const isBetter = (a: Tried, b: Tried): boolean =>
  (a.unplaced.length - b.unplaced.length || a.end - b.end || a.cost - b.cost) < 0;

const isEnough = (one: Tried, target: number) => one.unplaced.length === 0 && one.end <= target;

/** The moments from which a plate's next run, and a team's next turn, may begin. */
interface Progress {
  plates: Map<string, number>;
  turns: number[];
}

function begun(work: Work, { kept, from }: Search): { board: Board; progress: Progress; end: number } {
  const board = boardOf(work);
  const progress: Progress = { plates: new Map(), turns: work.teams.map(() => from) };
  let end = work.bench.day.from;
  for (const { group, laying } of kept) {
    layAll(board, group, laying);
    group.runs.forEach((_, run) => {
      end = Math.max(end, note(progress, group, laying, run));
    });
  }
  return { board, progress, end };
}

/** Notes what was laid; the latest end of what counts in it. */
function note(progress: Progress, group: Group, { starts }: Laying, at: number): number {
  const { plate, team } = group.turn;
  const [run, start] = [group.runs[at], starts[at] ?? 0];
  progress.plates.set(plate, start + (run?.latestEnd ?? 0));
  if (run?.turn) progress.turns[team] = Math.max(progress.turns[team] ?? 0, start);
  return run && run.counts > 0 ? start + run.counts : 0;
}

const startOf = ({ plates, turns }: Progress, group: Group, from: number): number =>
  Math.max(
    from,
    plates.get(group.turn.plate) ?? 0,
    group.byTurn ? (turns[group.turn.team] ?? 0) : Number.NEGATIVE_INFINITY,
  );

/**
 * Each run at its earliest. The first of a group is laid where the others could still follow it in time; whether they
 * can when it is their turn in the order is another matter, and an order in which they cannot is a bad one.
 */
function layInOrder(work: Work, search: Search, order: Item[], state: { layings: number }): Tried {
  const { board, progress, end: kept } = begun(work, search);
  const tried: Tried = { laid: [], unplaced: [], end: kept, cost: 0 };
  let [starts, turns] = [0, 0];
  const missing = new Set<string>();
  const layings = new Map<Group, Laying>();
  for (const { group, run } of order) {
    const { plate } = group.turn;
    if (missing.has(plate)) continue;
    state.layings += 1;
    const laying = next(board, progress, group, run, layings.get(group), search.from);
    if (laying === null) {
      missing.add(plate);
      continue;
    }
    if (run === 0) tried.laid.push({ group, laying });
    layings.set(group, laying);
    board.lay(group, laying, run);
    tried.end = Math.max(tried.end, note(progress, group, laying, run));
    if (group.runs[run]?.turn) [starts, turns] = [starts + (laying.starts[run] ?? 0), turns + 1];
  }
  tried.unplaced = work.teams.flat().flatMap(([first]) => {
    const plate = first?.turn.plate;
    return plate !== undefined && missing.has(plate) ? [plate] : [];
  });
  tried.cost = tried.unplaced.length * 86_400 + tried.end + starts / Math.max(1, turns);
  return tried;
}

/** The laying of a group with its next run in it; null where that cannot be laid, or only after it waited too long. */
function next(
  board: Board,
  progress: Progress,
  group: Group,
  run: number,
  before: Laying | undefined,
  from: number,
): Laying | null {
  if (run === 0 || !before) return board.earliest(group, startOf(progress, group, from));
  const found = board.earliest(group, progress.plates.get(group.turn.plate) ?? from, run);
  const latest = (before.starts[run - 1] ?? 0) + (group.runs[run - 1]?.earliestEnd ?? 0);
  if (!found || (found.starts[run] ?? 0) > latest + (group.runs[run]?.within ?? 0)) return null;
  for (let at = run; at < group.runs.length; at++) {
    before.starts[at] = found.starts[at] ?? 0;
    before.lanes[at] = found.lanes[at] ?? [];
  }
  return before;
}

/**
 * The orders to begin with. By turns: every team's first plate, then every team's second. By critical ratio: whoever
 * can begin earliest is next, and of those the team with most work before it for the time it has left (as in list
 * scheduling; all have the same due time, so the ratio is smallest where most work remains).
 */
function* firstOrders(work: Work, search: Search, state: { layings: number }): Generator<Item[]> {
  const byRound = work.teams
    .flatMap((team, at) => team.map((groups, turn) => ({ team: at, turn, groups })))
    .sort((a, b) => roundOf(a.groups) - roundOf(b.groups) || a.turn - b.turn || a.team - b.team);
  const items = ({ team, turn, groups }: (typeof byRound)[number]): Item[] =>
    groups.flatMap((group) => group.runs.map((_, run) => ({ team, turn, group, run })));
  yield byRound.flatMap(items);
  yield byCriticalRatio(work, search, state);
  const left = work.teams.map((team) => team.length);
  yield [...byRound]
    .sort((a, b) => (left[b.team] ?? 0) - b.turn - ((left[a.team] ?? 0) - a.turn) || a.team - b.team)
    .flatMap(items);
  // first what goes by no turns (cleaning), so that no plate waits for it
  const first = byRound.flatMap(items);
  yield [...first.filter(({ group }) => !group.byTurn && group.first === 0)].concat(
    first.filter(({ group }) => group.byTurn || group.first > 0),
  );
}

const roundOf = (groups: Group[]) => groups[0]?.turn.round ?? 0;

function byCriticalRatio(work: Work, search: Search, state: { layings: number }): Item[] {
  const { board, progress } = begun(work, search);
  const remaining = work.teams.map((team) => team.flat().reduce((sum, group) => sum + workIn(group), 0));
  // turns of which all is kept have nothing left to lay
  const ahead = work.teams.map((team) =>
    team.flatMap((groups, turn) => (groups.length > 0 ? [{ turn, groups }] : [])),
  );
  const order: Item[] = [];
  for (;;) {
    let chosen: { team: number; start: number } | null = null;
    for (const [team, [first]] of ahead.entries()) {
      const group = first?.groups.find((one) => one.byTurn) ?? first?.groups[0];
      if (!group) continue;
      state.layings += 1;
      const start = board.earliest(group, startOf(progress, group, search.from))?.starts[0] ?? Infinity;
      if (
        chosen === null ||
        start < chosen.start ||
        (start === chosen.start && (remaining[team] ?? 0) > (remaining[chosen.team] ?? 0))
      )
        chosen = { team, start };
    }
    if (chosen === null) return order;
    const { team } = chosen;
    const { turn, groups } = ahead[team]?.shift() ?? { turn: 0, groups: [] };
    let fits = true;
    for (const group of groups) {
      for (const run of group.runs.keys()) order.push({ team, turn, group, run });
      remaining[team] = (remaining[team] ?? 0) - workIn(group);
      const laying: Laying | null = fits
        ? board.earliest(group, startOf(progress, group, search.from))
        : null;
      fits = laying !== null;
      if (!laying) continue;
      state.layings += 1;
      layAll(board, group, laying);
      for (const run of group.runs.keys()) note(progress, group, laying, run);
    }
  }
}

const workIn = (group: Group) => group.runs.reduce((sum, { latestEnd }) => sum + latestEnd, 0);

/**
 * One item put in elsewhere, and with it what must stay before or after it: a plate's runs keep their order, and a
 * team's turns theirs.
 */
function moved(order: Item[], chance: () => number): Item[] {
  const from = Math.floor(chance() * order.length);
  const to = Math.floor(chance() * order.length);
  const back = to < from;
  const passed = order.slice(Math.min(from, to), Math.max(from, to) + 1);
  if (back) passed.reverse();
  // from the item on outwards: whatever is bound to one that moves comes along
  const [along, rest]: [Item[], Item[]] = [[], []];
  for (const item of passed)
    (along.length === 0 || along.some((other) => areBound(item, other)) ? along : rest).push(item);
  const changed = [...rest, ...along];
  if (back) changed.reverse();
  return [...order.slice(0, Math.min(from, to)), ...changed, ...order.slice(Math.max(from, to) + 1)];
}

const areBound = (a: Item, b: Item): boolean =>
  a.team === b.team && (a.turn === b.turn || Boolean(a.group.runs[a.run]?.turn && b.group.runs[b.run]?.turn));

/** Numbers from 0 to 1 that are the same each time (Lehmer's generator with the multiplier 48271 modulo 2^31 - 1). */
function lcg(first: number): () => number {
  let state = first;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}
