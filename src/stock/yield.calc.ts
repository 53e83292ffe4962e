// Whether an amount can have been mixed of what was taken for it. It refuses only what plainly cannot be: a slip of a
// digit or of a unit, not a poor pour.
import type { Unit } from './stock.schemas.js';

/** Cylinders are read so far beside the truth, in per cent. Assumption. */
const READ_BESIDE = 10n;
/** Of liquids at least one part in so many is in the bottle afterwards. Assumption. */
const LEFT_OF = 2n;

/** Amounts in their unit: microlitres, milligrams, or pieces. */
export interface Ingredient {
  itemId: string | null;
  unit: Unit;
  quantity: bigint;
}

export type YieldProblem =
  /** `most` in microlitres can have come of it. */
  { reason: 'more than went in'; most: bigint } | { reason: 'less than half'; liquids: bigint };

/**
 * What is wrong with so many microlitres made of what was taken from the shelf; null when nothing is. By a formula,
 * what it names and nothing was taken for came from elsewhere, and so did what its lines lack to its batch (water to
 * fill up). Without a formula nobody knows what came from elsewhere, and only too little can be told.
 */
export function yieldProblem(
  made: bigint,
  taken: readonly Ingredient[],
  formula: { batchQuantity: bigint; lines: readonly Ingredient[] } | null,
): YieldProblem | null {
  const { batchQuantity = 0n, lines = [] } = formula ?? {};
  const scaled =
    batchQuantity <= 0n
      ? []
      : lines.map((one) => ({ ...one, quantity: (one.quantity * made) / batchQuantity }));
  const liquids = liquid(taken);
  if (liquids > made * LEFT_OF && liquids > beside(liquid(scaled)))
    return { reason: 'less than half', liquids };
  if (batchQuantity <= 0n) return null;
  const own = new Set(taken.map(({ itemId }) => itemId));
  const elsewhere = volume(scaled.filter(({ itemId }) => itemId === null || !own.has(itemId)));
  const named = volume(scaled);
  const filledUp = made > named ? made - named : 0n;
  const most = beside(volume(taken) + elsewhere + filledUp);
  return made > most ? { reason: 'more than went in', most } : null;
}

const beside = (quantity: bigint) => (quantity * (100n + READ_BESIDE)) / 100n;

const liquid = (all: readonly Ingredient[]) =>
  all.reduce((sum, { unit, quantity }) => sum + (unit === 'uL' ? quantity : 0n), 0n);

/** Microlitres that ingredients fill at most: a gram of a solid swells a solution by no more than 1 mL. Assumption. */
const volume = (all: readonly Ingredient[]) =>
  all.reduce((sum, { unit, quantity }) => sum + (unit === 'uL' || unit === 'mg' ? quantity : 0n), 0n);
