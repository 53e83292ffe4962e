// Who gets which place, as a mixed-integer linear program: one yes or no for each wish and place. All of the room's
// rules stand here and nowhere else in the planner; what a place is worth comes in as whole points.

/** A stretch of the room on a day that a wish could have; only its length and points depend on the wish. */
export interface Placing {
  /** Position among the days. */
  day: number;
  /** From inclusive, until exclusive with the change-over, in one unit for all. */
  from: number;
  until: number;
  /** Whole points, above 0. */
  points: number;
  /** Kept off the public page; only for wishes that may have it. */
  kept: boolean;
}

export interface Wish {
  id: string;
  plates: number;
  kindId: string | null;
  /** Those of one party travel together; null: alone. */
  party: string | null;
  /** May have a place that is kept off the public page. */
  mayHaveKept: boolean;
  needs: { item: string; quantity: bigint }[];
  placings: Placing[];
}

/** What a day has left, beside what is given already. */
export interface DayRoom {
  date: string;
  year: number;
  sittings: number;
  plates: number;
  /** How many of them are kept off the public page. */
  kept: number;
  /** Points that it costs to open the studio on a day without a sitting; 0 where there is one. */
  opening: number;
}

/** At most so much of an item for all days between two positions, both included. */
export interface Supply {
  item: string;
  from: number;
  until: number;
  most: bigint;
}

/** So many sittings of a kind may still be given in a calendar year. */
export interface Quota {
  kindId: string;
  year: number;
  left: number;
}

/** Whether those who travel together have one day or none; are given points for it; or it does not matter. */
export type Together = { rule: 'always' } | { rule: 'rather'; points: number } | { rule: 'no matter' };

export interface Problem {
  wishes: Wish[];
  days: DayRoom[];
  supplies: Supply[];
  quotas: Quota[];
  together: Together;
}

/** Maximize cost * x, rowLower <= A x <= rowUpper, 0 <= x <= 1; A by columns. Plain arrays, to be handed to a thread. */
export interface Milp {
  columns: number;
  rows: number;
  cost: Float64Array;
  /** 1: whole numbers only. */
  integer: Int32Array;
  rowLower: Float64Array;
  rowUpper: Float64Array;
  starts: Int32Array;
  indices: Int32Array;
  values: Float64Array;
}

/** A Milp, and what its first columns mean: wish and placing by their positions. */
export interface Model {
  milp: Milp;
  choices: { wish: number; placing: number }[];
}

interface Draft {
  cost: number[];
  integer: number[];
  /** By column: row and coefficient in turn. */
  entries: number[][];
  rowLower: number[];
  rowUpper: number[];
}

/** The same problem gives the same model, column by column. */
export function buildModel(problem: Problem): Model {
  const draft: Draft = { cost: [], integer: [], entries: [], rowLower: [], rowUpper: [] };
  const choices: Model['choices'] = [];
  problem.wishes.forEach(({ placings }, wish) => {
    placings.forEach(({ points }, placing) => {
      choices.push({ wish, placing });
      column(draft, points, true);
    });
  });
  onePlaceEach(draft, problem, choices);
  room(draft, problem, choices);
  limitsOfDays(draft, problem, choices);
  quotas(draft, problem, choices);
  supplies(draft, problem, choices);
  parties(draft, problem, choices);
  return { milp: packed(draft), choices };
}

type Choices = Model['choices'];

function onePlaceEach(draft: Draft, { wishes }: Problem, choices: Choices): void {
  const rows = wishes.map(({ placings }) => (placings.length > 1 ? row(draft, 0, 1) : -1));
  choices.forEach(({ wish }, at) => {
    enter(draft, at, rows[wish] ?? -1, 1);
  });
}

/**
 * No two in the room at once: of intervals, some two overlap exactly where one of them begins inside the other, so
 * each begin on a day is one row. Where opening the day costs points, the row's limit is whether it is opened.
 */
function room(draft: Draft, { wishes, days }: Problem, choices: Choices): void {
  const byDay = days.map((): number[] => []);
  choices.forEach(({ wish, placing }, at) => {
    byDay[wishes[wish]?.placings[placing]?.day ?? -1]?.push(at);
  });
  byDay.forEach((columns, day) => {
    if (columns.length === 0) return;
    const placingOf = (at: number) => {
      const { wish, placing } = choices[at] ?? { wish: -1, placing: -1 };
      return wishes[wish]?.placings[placing] ?? { from: 0, until: 0 };
    };
    const opening = days[day]?.opening ?? 0;
    const opened = opening > 0 ? column(draft, -opening, true) : -1;
    const begins = [...new Set(columns.map((at) => placingOf(at).from))].sort((a, b) => a - b);
    for (const begin of begins) {
      const there = columns.filter((at) => placingOf(at).from <= begin && begin < placingOf(at).until);
      const limit = row(draft, Number.NEGATIVE_INFINITY, opened === -1 ? 1 : 0);
      for (const at of there) enter(draft, at, limit, 1);
      if (opened !== -1) enter(draft, opened, limit, -1);
    }
  });
}

function limitsOfDays(draft: Draft, { wishes, days }: Problem, choices: Choices): void {
  const unlimited = days.map(() => ({ sittings: 0, plates: 0, ordinary: 0 }));
  for (const { placings, plates, mayHaveKept } of wishes)
    for (const day of new Set(placings.map((one) => one.day))) {
      const sums = unlimited[day];
      if (!sums) continue;
      sums.sittings += 1;
      sums.plates += plates;
      sums.ordinary += mayHaveKept ? 0 : 1;
    }
  const rows = days.map(({ sittings, plates, kept }, day) => {
    const sums = unlimited[day] ?? { sittings: 0, plates: 0, ordinary: 0 };
    const limit = (sum: number, most: number) => (sum > most ? row(draft, 0, Math.max(0, most)) : -1);
    return {
      sittings: limit(sums.sittings, sittings),
      plates: limit(sums.plates, plates),
      ordinary: kept > 0 ? limit(sums.ordinary, sittings - kept) : -1,
    };
  });
  choices.forEach(({ wish, placing }, at) => {
    const one = wishes[wish];
    const limits = rows[one?.placings[placing]?.day ?? -1];
    if (!one || !limits) return;
    enter(draft, at, limits.sittings, 1);
    enter(draft, at, limits.plates, one.plates);
    if (!one.mayHaveKept) enter(draft, at, limits.ordinary, 1);
  });
}

function quotas(draft: Draft, { wishes, days, quotas: all }: Problem, choices: Choices): void {
  for (const { kindId, year, left } of all) {
    const limit = row(draft, 0, Math.max(0, left));
    choices.forEach(({ wish, placing }, at) => {
      const one = wishes[wish];
      if (one?.kindId === kindId && days[one.placings[placing]?.day ?? -1]?.year === year)
        enter(draft, at, limit, 1);
    });
  }
}

/** The most of a supply as a coefficient; needs are rounded up to it and the supply down, so it is never overdrawn. */
const FINEST = 100_000n;

function supplies(draft: Draft, { wishes, supplies: all }: Problem, choices: Choices): void {
  for (const { item, from, until, most } of all) {
    const grain = most > FINEST ? most / FINEST : 1n;
    const needs = wishes.map((wish) => needOf(wish, item));
    if (!needs.some((need) => need > 0n)) continue;
    const limit = row(draft, 0, Number(most < 0n ? 0n : most / grain));
    choices.forEach(({ wish, placing }, at) => {
      const day = wishes[wish]?.placings[placing]?.day ?? -1;
      const need = needs[wish] ?? 0n;
      if (from <= day && day <= until) enter(draft, at, limit, Number((need + grain - 1n) / grain));
    });
  }
}

export const needOf = ({ needs }: Pick<Wish, 'needs'>, item: string): bigint =>
  needs.reduce((sum, need) => (need.item === item ? sum + need.quantity : sum), 0n);

/** For each party and day one column: whether all of it come on that day. */
function parties(draft: Draft, { wishes, together }: Problem, choices: Choices): void {
  if (together.rule === 'no matter') return;
  const columnsOf = new Map<string, Map<number, Map<number, number[]>>>(); // party, day, wish
  const sizes = new Map<string, number>();
  for (const { party } of wishes) if (party !== null) sizes.set(party, (sizes.get(party) ?? 0) + 1);
  choices.forEach(({ wish, placing }, at) => {
    const { party = null, placings = [] } = wishes[wish] ?? {};
    if (party === null || (sizes.get(party) ?? 0) < 2) return;
    const days = at2(columnsOf, party, () => new Map<number, Map<number, number[]>>());
    const members = at2(days, placings[placing]?.day ?? -1, () => new Map<number, number[]>());
    at2(members, wish, (): number[] => []).push(at);
  });
  for (const [party, days] of columnsOf)
    for (const members of days.values()) {
      const whole = members.size === sizes.get(party);
      if (!whole && together.rule === 'rather') continue;
      const all = whole ? column(draft, together.rule === 'rather' ? together.points : 0, false) : -1;
      for (const columns of members.values()) {
        const limit = together.rule === 'always' ? row(draft, 0, 0) : row(draft, 0, Number.POSITIVE_INFINITY);
        for (const at of columns) enter(draft, at, limit, 1);
        enter(draft, all, limit, -1);
      }
    }
}

function at2<Key, Value>(map: Map<Key, Value>, key: Key, make: () => Value): Value {
  const found = map.get(key) ?? make();
  map.set(key, found);
  return found;
}

function column(draft: Draft, cost: number, integer: boolean): number {
  draft.entries.push([]);
  draft.integer.push(integer ? 1 : 0);
  return draft.cost.push(cost) - 1;
}

function row(draft: Draft, lower: number, upper: number): number {
  draft.rowLower.push(lower);
  return draft.rowUpper.push(upper) - 1;
}

/** Position -1: there is no such row or column. */
function enter(draft: Draft, at: number, rowAt: number, value: number): void {
  if (rowAt !== -1 && value !== 0) draft.entries[at]?.push(rowAt, value);
}

function packed({ cost, integer, entries, rowLower, rowUpper }: Draft): Milp {
  const starts = new Int32Array(entries.length + 1);
  entries.forEach((list, at) => {
    starts[at + 1] = (starts[at] ?? 0) + list.length / 2;
  });
  const indices = new Int32Array(starts[entries.length] ?? 0);
  const values = new Float64Array(indices.length);
  let position = 0;
  for (const list of entries)
    for (let part = 0; part < list.length; part += 2) {
      indices[position] = list[part] ?? 0;
      values[position++] = list[part + 1] ?? 0;
    }
  return {
    columns: cost.length,
    rows: rowUpper.length,
    cost: Float64Array.from(cost),
    integer: Int32Array.from(integer),
    rowLower: Float64Array.from(rowLower),
    rowUpper: Float64Array.from(rowUpper),
    starts,
    indices,
    values,
  };
}
