// What a set of plates needs: glass, solutions and silver, by area and by how often a plate has to be made again.
// It reckons from figures it is given; it knows no shelf, no formula and no studio.
import { divide } from '../lib/units.js';
import { attemptsFor } from './attempts.calc.js';
import { plateAreaUm2, UM2_PER_SQUARE_INCH } from './plate-sizes.calc.js';
import { type HalideFormula, silverNitratePerMl } from './stoichiometry.calc.js';
import { type AttemptRule, SOLUTION_KINDS, type SolutionKind, type UsePerArea } from './use-per-area.calc.js';

export type { SolutionKind } from './use-per-area.calc.js';

/** Plates of one size: how many are to be kept at the end, 1 to MOST_KEEPERS. */
export interface WantedPlates {
  /** Sizes of equal measure are told apart by it, where their glass is not the same: also glass and metal. */
  sizeId?: string | undefined;
  widthMm: number;
  heightMm: number;
  keepers: number;
}
export const MOST_KEEPERS = 1000;

/**
 * low: every plate kept at the first try, at the low use. likely: the middle number of tries, at the likely use.
 * ninety: enough in nine cases of ten, at the likely use. high: those tries at the high use.
 * low <= likely <= ninety <= high.
 */
export interface Spread {
  low: bigint;
  likely: bigint;
  ninety: bigint;
  high: bigint;
}

export const FIGURES = ['low', 'likely', 'ninety', 'high'] as const satisfies (keyof Spread)[];

export interface Needs {
  /** Sheets of each size, in the order given; the same size, width and height are taken together. */
  glass: (WantedPlates & { sheets: Spread })[];
  /** Microlitres. */
  solutions: Record<SolutionKind, Spread>;
  /** Milligrams of silver nitrate, for buying crystals: never set aside for a place. inFilm is the part of the total
   *  that the halides take up by stoichiometry, an upper bound as some collodion dries away; the rest is carried off. */
  silverNitrate: { total: Spread; inFilm: Spread };
}

/**
 * What these plates, made on one day, need. Glass of a size follows the failures of that size. Solutions follow the failures of all
 * sizes together: likely shares them out by area, ninety lets every failure fall on the largest size, so it holds
 * at least nine times in ten. Each quantity is rounded up once, to whole microlitres and milligrams.
 * No plates: zeros. Throws RangeError for a size, number or rule out of range, and for a range that is not
 * low <= likely <= high: whoever reads a form asks first.
 */
export function estimateNeeds(
  plates: readonly WantedPlates[],
  use: UsePerArea,
  attempts: AttemptRule,
): Needs {
  checkUse(use);
  const wanted = bySize(plates);
  const glass = wanted.map((size) => {
    const ninety = BigInt(attemptsFor(size.keepers, attempts, 0.9));
    const likely = BigInt(attemptsFor(size.keepers, attempts, 0.5));
    return { ...size, sheets: { low: BigInt(size.keepers), likely, ninety, high: ninety } };
  });

  const area = areaToCoat(wanted, attempts);
  const spread = (
    perSquareInch: { low: bigint; likely: bigint; high: bigint },
    unitsPerWhole = 1n,
  ): Spread => ({
    low: onArea(area.low, perSquareInch.low, unitsPerWhole),
    likely: onArea(area.likely, perSquareInch.likely, unitsPerWhole),
    ninety: onArea(area.ninety, perSquareInch.likely, unitsPerWhole),
    high: onArea(area.ninety, perSquareInch.high, unitsPerWhole),
  });
  const solutions = Object.fromEntries(
    SOLUTION_KINDS.map((kind) => [kind, spread(use.solutions[kind])]),
  ) as Record<SolutionKind, Spread>;

  const { collodion } = use.solutions;
  const perMl = use.silverPerMlCollodion;
  const inFilm = {
    low: collodion.low * perMl.low, // microlitres x micrograms per millilitre: thousandths of a microgram
    likely: collodion.likely * perMl.likely,
    high: collodion.high * perMl.high,
  };
  return {
    glass,
    solutions,
    silverNitrate: {
      total: spread(use.silverNitrate, 1_000n),
      inFilm: spread(inFilm, 1_000_000n),
    },
  };
}

export type ReserveChoice = 'likely' | 'ninety';

export interface Reserve {
  glass: (Omit<WantedPlates, 'keepers'> & { sheets: bigint })[];
  /** Microlitres. */
  solutions: Record<SolutionKind, bigint>;
}

/** The use of a studio whose collodion is made by this formula; null as for silverNitratePerMl. */
export function useWithFormula(use: UsePerArea, formula: HalideFormula): UsePerArea | null {
  const mg = silverNitratePerMl(formula);
  if (mg === null) return null;
  const micrograms = BigInt(Math.round(mg * 1000));
  const source = 'By the molar masses of the salts of the formula, if all halide reacts.';
  return {
    ...use,
    silverPerMlCollodion: { low: micrograms, likely: micrograms, high: micrograms, source },
  };
}

/** What is set aside for these needs by the studio's choice. Silver is not among it: it is not poured per plate. */
export function quantitiesToReserve(needs: Needs, choice: ReserveChoice): Reserve {
  return {
    glass: needs.glass.map(({ keepers: _, sheets, ...size }) => ({ ...size, sheets: sheets[choice] })),
    solutions: Object.fromEntries(
      SOLUTION_KINDS.map((kind) => [kind, needs.solutions[kind][choice]]),
    ) as Record<SolutionKind, bigint>,
  };
}

function bySize(plates: readonly WantedPlates[]): WantedPlates[] {
  const sizes = new Map<string, WantedPlates>();
  for (const { keepers, ...size } of plates) {
    const key = `${size.widthMm} x ${size.heightMm} ${size.sizeId ?? ''}`;
    const sum = (sizes.get(key)?.keepers ?? 0) + keepers;
    if (!Number.isInteger(keepers) || keepers < 1 || sum > MOST_KEEPERS)
      throw new RangeError(`${keepers} is not a number of plates to keep (1 to ${MOST_KEEPERS} of a size).`);
    sizes.set(key, { ...size, keepers: sum });
  }
  return [...sizes.values()];
}

/** Plate area times tries in square micrometres; the divisor is kept until the end, so that rounding happens once. */
interface Area {
  um2: bigint;
  dividedBy: bigint;
}

function areaToCoat(
  wanted: readonly WantedPlates[],
  rule: AttemptRule,
): Record<'low' | 'likely' | 'ninety', Area> {
  const keepers = wanted.reduce((sum, plates) => sum + plates.keepers, 0);
  const once = wanted.reduce((sum, p) => sum + plateAreaUm2(p.widthMm, p.heightMm) * BigInt(p.keepers), 0n);
  const low = { um2: once, dividedBy: 1n };
  if (keepers === 0) return { low, likely: low, ninety: low };
  const largest = wanted.reduce((most, p) => {
    const um2 = plateAreaUm2(p.widthMm, p.heightMm);
    return um2 > most ? um2 : most;
  }, 0n);
  const likely = { um2: once * BigInt(attemptsFor(keepers, rule, 0.5)), dividedBy: BigInt(keepers) };
  const failures = attemptsFor(keepers, rule, 0.9) - keepers;
  const worst = once + largest * BigInt(failures);
  const cap = rule.stopAfter === null ? worst : once * BigInt(rule.stopAfter);
  return { low, likely, ninety: { um2: worst < cap ? worst : cap, dividedBy: 1n } };
}

const onArea = (area: Area, perSquareInch: bigint, unitsPerWhole: bigint): bigint =>
  divide(area.um2 * perSquareInch, area.dividedBy * UM2_PER_SQUARE_INCH * unitsPerWhole, 'up');

function checkUse({ solutions, silverNitrate, silverPerMlCollodion }: UsePerArea): void {
  for (const { low, likely, high } of [...Object.values(solutions), silverNitrate, silverPerMlCollodion])
    if (low < 0n || low > likely || likely > high)
      throw new RangeError(`Use of ${low}, ${likely}, ${high} is not a range.`);
}
