// From what was asked of the calculator to its estimate: sizes by name or measure, the usual figures or one's own.
import {
  estimateNeeds,
  MOST_KEEPERS,
  type Needs,
  useWithFormula,
  type WantedPlates,
} from './estimate.calc.js';
import type { EstimateBody } from './estimate.schemas.js';
import { STARTER_PLATE_SIZES } from './plate-sizes.calc.js';
import { type ChemicalNeed, type Recipe, rawChemicals } from './raw-chemicals.calc.js';
import { HALIDE_SALTS, type HalideSalt } from './stoichiometry.calc.js';
import {
  type AttemptRule,
  BEGINNER_ATTEMPTS,
  DEFAULT_USE,
  SITTING_ATTEMPTS,
  type UsePerArea,
} from './use-per-area.calc.js';

export interface Estimate {
  needs: Needs;
  chemicals: ChemicalNeed[];
  use: UsePerArea;
  attempts: AttemptRule;
}

/** Throws RangeError for what tooManyOfASize finds: the door asks first. */
export function estimateFor(asked: EstimateBody): Estimate {
  const figures = { use: DEFAULT_USE, attempts: attemptsBy(asked) };
  return estimateBy(asked.plates.map(wantedOf), figures, asked.formulas);
}

/** By these figures and recipes; a collodion whose salts are known tells what its film takes up. */
export function estimateBy(
  plates: readonly WantedPlates[],
  figures: Pick<Estimate, 'use' | 'attempts'>,
  recipes: readonly Recipe[],
): Estimate {
  const use = useBy(figures.use, recipes);
  const needs = estimateNeeds(plates, use, figures.attempts);
  return { needs, chemicals: rawChemicals(needs, recipes), use, attempts: figures.attempts };
}

/** The first line with which one size comes to more than MOST_KEEPERS; null when none does. */
export function tooManyOfASize({ plates }: Pick<EstimateBody, 'plates'>): number | null {
  const sums = new Map<string, number>();
  for (const [at, line] of plates.entries()) {
    const { sizeId, widthMm, heightMm, keepers } = wantedOf(line);
    const key = `${sizeId} ${widthMm} ${heightMm}`;
    const sum = (sums.get(key) ?? 0) + keepers;
    if (sum > MOST_KEEPERS) return at;
    sums.set(key, sum);
  }
  return null;
}

/** Glass and metal of one measure are different sheets; the surface tells them apart. */
export function wantedOf({
  size,
  widthMm,
  heightMm,
  surface,
  keepers,
}: EstimateBody['plates'][number]): WantedPlates {
  const starter = STARTER_PLATE_SIZES.find(({ key }) => key === size);
  const [width, height] = starter ? [starter.widthMm, starter.heightMm] : [widthMm ?? 0, heightMm ?? 0];
  return { sizeId: surface, widthMm: width, heightMm: height, keepers };
}

function attemptsBy({ madeBy, keeperShare, stopAfter }: EstimateBody): AttemptRule {
  const usual = madeBy === 'sittings' ? SITTING_ATTEMPTS : BEGINNER_ATTEMPTS;
  return {
    ...usual,
    ...(keeperShare === undefined ? {} : { keeperShare, source: 'As given.' }),
    ...(stopAfter === undefined ? {} : { stopAfter }),
  };
}

function useBy(use: UsePerArea, recipes: readonly Recipe[]): UsePerArea {
  const collodion = recipes.find(({ solution }) => solution === 'collodion');
  const salts = (collodion?.lines ?? []).flatMap(({ substance = '', unit, quantity }) =>
    unit === 'mg' && isHalideSalt(substance) ? [{ salt: substance, mg: quantity }] : [],
  );
  if (!collodion || salts.length === 0) return use;
  return useWithFormula(use, { salts, volumeUl: collodion.batchUl }) ?? use;
}

const isHalideSalt = (name: string): name is HalideSalt => Object.hasOwn(HALIDE_SALTS, name);
