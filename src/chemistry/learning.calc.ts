// A studio's own figures: what it wrote down of its days, weighed against the usual figures by one stated rule.
// The usual figure counts as so many days (or tries) of its own, so that a single odd day does not move much and a
// year of days leaves the usual figure little to say. Nothing is forgotten but what the reader of days leaves out.
import { divide } from '../lib/units.js';
import { LEAST_KEEPER_SHARE, MOST_SAME_DAY } from './attempts.calc.js';
import { UM2_PER_SQUARE_INCH } from './plate-sizes.calc.js';
import {
  type AttemptRule,
  BEGINNER_ATTEMPTS,
  DEFAULT_USE,
  SITTING_ATTEMPTS,
  SOLUTION_KINDS,
  type SolutionKind,
  type UsePerArea,
  type UseRange,
} from './use-per-area.calc.js';

/** What the usual figures count as. Assumptions, shown beside every figure made with them. */
export const USUAL_DAYS = 5;
export const USUAL_TRIES = 30;
/** That plates of a day are alike is believed slowly: no likeness at all counts as so many days. */
export const UNLIKE_DAYS = 10;

export const MAKERS = ['sittings', 'beginners'] as const;
/** Whose plates they were: made by the studio for its sitters, or by people learning it. */
export type Maker = (typeof MAKERS)[number];

export const USED = [...SOLUTION_KINDS, 'silver'] as const;
/** What can be used up by area: a solution, or silver nitrate out of the bath. */
export type Used = SolutionKind | 'silver';

/** What was written down of one day and maker. */
export interface DayActuals {
  madeBy: Maker;
  /** Plates by size: square micrometres of one, how often tried, how many kept. */
  plates: readonly { areaUm2: bigint; tries: number; keepers: number }[];
  /** Microlitres; silver in milligrams, by measuring the bath before and after. */
  used: Readonly<Partial<Record<Used, bigint>>>;
}

/** A figure with what it was made of. */
export interface Learned {
  usual: number;
  /** The studio's own alone; null when nothing tells it. */
  own: number | null;
  /** Days or tries it is made of. */
  count: number;
  /** The share that the usual figure has in it, 0 to 1. */
  usualWeight: number;
  figure: number;
}

export interface OwnFigures {
  use: UsePerArea;
  attempts: Record<Maker, AttemptRule>;
  /** By square inch: microlitres, silver in micrograms. */
  learnedUse: Record<Used, Learned>;
  learnedShare: Record<Maker, Learned>;
  /** How alike plates of one day are. */
  learnedSameDay: Record<Maker, Learned>;
}

/** All figures of a studio by its days; without days the usual ones. Days come in any order. */
export function ownFigures(days: readonly DayActuals[]): OwnFigures {
  const learnedUse = Object.fromEntries(USED.map((what) => [what, learnUse(days, what)])) as Record<
    Used,
    Learned
  >;
  const solutions = Object.fromEntries(
    SOLUTION_KINDS.map((kind) => [kind, rangeAround(DEFAULT_USE.solutions[kind], learnedUse[kind])]),
  ) as UsePerArea['solutions'];
  const silverNitrate = rangeAround(DEFAULT_USE.silverNitrate, learnedUse.silver);
  const [sittings, beginners] = [learnAttempts(days, 'sittings'), learnAttempts(days, 'beginners')];
  return {
    use: { ...DEFAULT_USE, solutions, silverNitrate },
    attempts: { sittings: sittings.rule, beginners: beginners.rule },
    learnedUse,
    learnedShare: { sittings: sittings.share, beginners: beginners.share },
    learnedSameDay: { sittings: sittings.sameDay, beginners: beginners.sameDay },
  };
}

/**
 * Use by area: own = all that was used over all area coated on those days; figure = (k x usual + n x own) / (k + n)
 * with k = USUAL_DAYS and n the days that tell it. Of a day without plates, or without this use, nothing is learned.
 */
function learnUse(days: readonly DayActuals[], what: Used): Learned {
  const usual = Number(usualUse(what).likely);
  const telling = days.filter((day) => day.used[what] !== undefined && areaOf(day) > 0n);
  const area = telling.reduce((sum, day) => sum + areaOf(day), 0n);
  const used = telling.reduce((sum, day) => sum + (day.used[what] ?? 0n), 0n);
  const perWhole = what === 'silver' ? 1000 : 1;
  const own = area === 0n ? null : (Number(used) * perWhole * Number(UM2_PER_SQUARE_INCH)) / Number(area);
  return weigh(usual, own, telling.length, USUAL_DAYS);
}

const usualUse = (what: Used): UseRange =>
  what === 'silver' ? DEFAULT_USE.silverNitrate : DEFAULT_USE.solutions[what];

/** The range keeps the proportions of the usual one. To whole microlitres or micrograms. */
function rangeAround(usual: UseRange, learned: Learned): UseRange {
  if (learned.count === 0) return usual;
  const likely = BigInt(Math.round(learned.figure));
  const around = (bound: bigint) => divide(bound * likely, usual.likely, 'nearest');
  return { ...usual, low: around(usual.low), likely, high: around(usual.high) };
}

/**
 * The chance of keeping a plate: Beta-Binomial, figure = (m x usual + keepers) / (m + tries) with m = USUAL_TRIES.
 * How alike the plates of a day are: the intraclass correlation of kept and lost plates by analysis of variance, none
 * below zero, weighed against no likeness for UNLIKE_DAYS (M. S. Ridout, C. G. B. Demetrio, D. Firth, "Estimating
 * intraclass correlation for binary data", Biometrics 55 (1999) 137).
 */
function learnAttempts(days: readonly DayActuals[], madeBy: Maker) {
  const usual = madeBy === 'sittings' ? SITTING_ATTEMPTS : BEGINNER_ATTEMPTS;
  const counts = days
    .filter((day) => day.madeBy === madeBy)
    .map(({ plates }) => ({
      tries: plates.reduce((sum, one) => sum + one.tries, 0),
      keepers: plates.reduce((sum, one) => sum + one.keepers, 0),
    }))
    .filter(({ tries }) => tries > 0);
  const tries = counts.reduce((sum, day) => sum + day.tries, 0);
  const keepers = counts.reduce((sum, day) => sum + day.keepers, 0);
  const share = weigh(usual.keeperShare, tries === 0 ? null : keepers / tries, tries, USUAL_TRIES);
  const likeness = intraclass(counts);
  const sameDay = weigh(0, likeness, likeness === null ? 0 : counts.length, UNLIKE_DAYS);
  const rule: AttemptRule = {
    ...usual,
    keeperShare: Math.max(LEAST_KEEPER_SHARE, share.figure),
    sameDay: Math.min(MOST_SAME_DAY, sameDay.figure),
  };
  return { rule, share, sameDay };
}

/** Null where it cannot be told: one day, one try a day, or all plates kept or all lost. */
export function intraclass(days: readonly { tries: number; keepers: number }[]): number | null {
  const count = days.length;
  const all = days.reduce((sum, { tries }) => sum + tries, 0);
  if (count < 2 || all <= count) return null;
  const mean = days.reduce((sum, { keepers }) => sum + keepers, 0) / all;
  const share = ({ tries, keepers }: { tries: number; keepers: number }) => keepers / tries;
  const between = days.reduce((sum, day) => sum + day.tries * (share(day) - mean) ** 2, 0) / (count - 1);
  const within =
    days.reduce((sum, day) => sum + day.tries * share(day) * (1 - share(day)), 0) / (all - count);
  const size = (all - days.reduce((sum, { tries }) => sum + tries ** 2, 0) / all) / (count - 1);
  const spread = between + (size - 1) * within;
  return spread > 0 ? Math.max(0, (between - within) / spread) : null;
}

/** (weight x usual + count x own) / (weight + count). */
function weigh(usual: number, own: number | null, count: number, weight: number): Learned {
  if (own === null) return { usual, own, count: 0, usualWeight: 1, figure: usual };
  const usualWeight = weight / (weight + count);
  return { usual, own, count, usualWeight, figure: usualWeight * usual + (1 - usualWeight) * own };
}

const areaOf = ({ plates }: DayActuals): bigint =>
  plates.reduce((sum, { areaUm2, tries }) => sum + areaUm2 * BigInt(tries), 0n);
