// The bench rota of a teaching day: whose plate is where and when, so that no station and nobody has two at once and
// no plate ever waits wet; how much better it could be at best, and what holds it up. It stores and shows nothing.
import { type Bench, type Stretch, takes, type Turn, turnsOf } from './rota-bench.calc.js';
import { boardOf, type Group, type Work, workOf } from './rota-board.calc.js';
import { type Bottleneck, boundsOf } from './rota-bounds.calc.js';
import { mostOnClock, runsOf, type Span } from './rota-runs.calc.js';
import { type Found, type Laid, searchRota } from './rota-search.calc.js';
import { varnishingOf } from './rota-varnish.calc.js';

/** All times in seconds since midnight, from the earliest start to the latest end. */
export interface PlacedStep extends Span {
  step: string;
  /** When it begins if all before it takes its longest. */
  latestStart: number;
}

/** Taken for a plate; `station` is null for a person. */
export interface Use extends Span {
  station: string | null;
  unit: string;
}

/** Steps that follow each other without a wait, begun at the time told and never before. */
export interface PlacedRun {
  start: number;
  steps: PlacedStep[];
  uses: Use[];
}

export interface PlacedPlate extends Turn {
  runs: PlacedRun[];
  /** Varnished that day, with whose hands and where; null: taken home as it is, or on another day. */
  varnish: (Stretch & { unit: string }) | null;
}

export interface Rota {
  /** By the start of their turns. */
  plates: PlacedPlate[];
  /** Plates without a turn: the light ends, or no stretch between breaks is left. */
  unplaced: string[];
  /** Latest end of all that counts as part of the day. */
  end: number;
  /** All plates have their turns and the day ends in time; otherwise so many seconds over. */
  fits: boolean;
  over: number;
  /** No rota of these plates ends before; null: it is proven that they cannot all have a turn. */
  bound: number | null;
  /** How much longer the day is than the bound, as a share of the bound's length; 0: proven best. Null without bound. */
  gap: number | null;
  bottleneck: Bottleneck | null;
  /** Where the bound itself is past the day's end, no order of turns would fit. */
  provenNotToFit: boolean;
  layings: number;
}

/** Why there is no rota at all. */
export type NoRota =
  /** Steps take longer than a clock allows; `worst` null: a plate may wait between them. */
  | { ok: false; reason: 'clock'; clock: string; size: string; worst: number | null; most: number }
  /** A plate may have to wait longer before a step than it may, since the run before takes its shortest or longest. */
  | { ok: false; reason: 'wait'; step: string; size: string; worst: number; most: number }
  | { ok: false; reason: 'too large'; station: string; size: string }
  /** Not even alone on the bench: no light, or no stretch between the breaks that is long enough. */
  | { ok: false; reason: 'no stretch'; plate: string; without: 'light' | 'break' };

export type RotaAnswer = { ok: true; rota: Rota } | NoRota;

/** Layings that a search may take beyond its first orders: well under a second on a small computer. */
export const LAYINGS = 15_000;

/**
 * The rota of a bench; the same for the same bench.
 * @throws Error for ids that the bench itself does not know, and for a hold from one run into another
 */
export function planRota(bench: Bench, layings = LAYINGS): RotaAnswer {
  const turns = turnsOf(bench);
  const no = refusal(bench, turns);
  if (no) return no;
  const work = workOf(bench, turns);
  const none = aloneRefusal(work);
  if (none) return none;
  return { ok: true, rota: rotaOf(work, { from: bench.day.from, kept: [], layings, upTo: 'best' }) };
}

/** What cannot be helped by any order: a clock, or a plate too large for every unit of a station. */
export function refusal(bench: Bench, turns: Turn[][]): NoRota | null {
  const used = new Set(turns.flat().map(({ size }) => size));
  for (const size of bench.sizes.filter(({ id }) => used.has(id))) {
    for (const clock of bench.clocks) {
      const worst = mostOnClock(bench, size, clock);
      if (worst === null || worst > clock.most)
        return { ok: false, reason: 'clock', clock: clock.id, size: size.id, worst, most: clock.most };
    }
    const runs = runsOf(bench, size, { sitter: null });
    for (const [at, { within, steps }] of runs.entries()) {
      const before = runs[at - 1];
      const worst = before ? before.latestEnd - before.earliestEnd : 0;
      if (within !== null && worst > within)
        return { ok: false, reason: 'wait', step: steps[0]?.step ?? '', size: size.id, worst, most: within };
    }
    const held = new Set(bench.holds.map(({ station }) => station));
    const makers = turns.flat().flatMap((turn) => (turn.size === size.id ? [turn.student] : []));
    for (const { id, units } of bench.stations)
      if (held.has(id) && makers.some((student) => !units.some((unit) => takes(unit, size.area, student))))
        return { ok: false, reason: 'too large', station: id, size: size.id };
  }
  return null;
}

function aloneRefusal(work: Work): NoRota | null {
  for (const groups of work.teams.flat()) {
    const board = boardOf(work);
    let from = work.bench.day.from;
    for (const group of groups) {
      const laying = board.earliest(group, from);
      const plate = group.turn.plate;
      const lit = group.runs.some((run) => run.lit.length > 0);
      if (!laying) return { ok: false, reason: 'no stretch', plate, without: lit ? 'light' : 'break' };
      from = (laying.starts.at(-1) ?? 0) + (group.runs.at(-1)?.latestEnd ?? 0);
    }
  }
  return null;
}

/** Lays what is to be laid around what is kept. 'in time': any rota that fits ends the search. */
export function rotaOf(
  work: Work,
  asked: { from: number; kept: Laid[]; layings: number; upTo: 'best' | 'in time' },
): Rota {
  const { day } = work.bench;
  const bounds = boundsOf(work, asked.from);
  const bound = Math.max(day.from, bounds[0]?.end ?? 0);
  const target = asked.upTo === 'best' ? bound : Math.max(bound, day.until);
  const found = searchRota(work, { ...asked, target });
  return readRota(work, asked.kept, found, { end: bound, by: bounds[0]?.by ?? null });
}

function readRota(
  work: Work,
  kept: Laid[],
  found: Found,
  bound: { end: number; by: Bottleneck | null },
): Rota {
  const { day } = work.bench;
  const all = [...kept, ...found.laid].filter(({ group }) => !found.unplaced.includes(group.turn.plate));
  const plates = platesOf(work, all);
  const varnished = varnishingOf(work, all);
  const least = Number.isFinite(bound.end) ? Math.max(bound.end, ...kept.map(endOf)) : null;
  const over = Math.max(0, found.end - day.until);
  return {
    plates: plates.map((plate) => ({ ...plate, varnish: varnished.get(plate.plate) ?? null })),
    unplaced: found.unplaced,
    end: found.end,
    fits: found.unplaced.length === 0 && over === 0,
    over,
    bound: least,
    gap: least === null ? null : Math.max(0, found.end - least) / Math.max(1, least - day.from),
    bottleneck: bound.by,
    provenNotToFit: bound.end > day.until,
    layings: found.layings,
  };
}

const endOf = ({ group, laying }: Laid): number =>
  Math.max(0, ...group.runs.map(({ counts }, at) => (counts > 0 ? (laying.starts[at] ?? 0) + counts : 0)));

function platesOf(work: Work, all: Laid[]): Omit<PlacedPlate, 'varnish'>[] {
  const plates = new Map<string, { turn: Turn; begins: number; groups: Laid[] }>();
  for (const laid of all) {
    const { turn, byTurn } = laid.group;
    const own = plates.get(turn.plate) ?? { turn, begins: Number.POSITIVE_INFINITY, groups: [] };
    if (byTurn) own.begins = laid.laying.starts[0] ?? 0;
    own.groups.push(laid);
    plates.set(turn.plate, own);
  }
  return [...plates.values()]
    .sort((a, b) => a.begins - b.begins || a.turn.team - b.turn.team || a.turn.round - b.turn.round)
    .map(({ turn, groups }) => ({
      ...turn,
      runs: groups
        .sort((a, b) => a.group.first - b.group.first)
        .flatMap(({ group, laying }) => group.runs.map((_, run) => placedRun(work, group, laying, run))),
    }));
}

function placedRun(work: Work, group: Group, laying: Laid['laying'], at: number): PlacedRun {
  const start = laying.starts[at] ?? 0;
  return {
    start,
    steps: (group.runs[at]?.steps ?? []).map(({ step, from, until, latestStart }) => ({
      step,
      from: start + from,
      until: start + until,
      latestStart: start + latestStart,
    })),
    uses: (group.pieces[at] ?? []).map(({ from, until, station }, piece) => ({
      station,
      unit: work.lanes[laying.lanes[at]?.[piece] ?? -1]?.unit ?? '',
      from: start + from,
      until: start + until,
    })),
  };
}
