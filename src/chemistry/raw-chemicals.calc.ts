// The raw chemicals that an estimate comes down to, by the formulas its solutions are mixed by.
// It reckons what is in the solutions; what stays in beakers and filters is not in it.
import { divide, type Unit } from '../lib/units.js';
import { FIGURES, type Needs, type Spread } from './estimate.calc.js';
import type { SolutionKind } from './use-per-area.calc.js';

/** How a solution is mixed: what goes into a batch of so many microlitres. */
export interface Recipe {
  solution: SolutionKind;
  batchUl: bigint;
  lines: readonly Chemical[];
}

/** So much of an ingredient, in its unit. */
export interface Chemical {
  ingredient: string;
  /** Its key in substances.calc.ts, where it is known. */
  substance?: string;
  unit: Unit;
  quantity: bigint;
}

export type ChemicalNeed = Omit<Chemical, 'quantity' | 'substance'> & { quantity: Spread };

/**
 * Silver nitrate for the bath first, then what the recipes ask for in the order they give it; the same ingredient in
 * the same unit is taken together, and a solution without a recipe is left out. Each is rounded up once.
 * Throws RangeError for a batch of nothing and for quantities below zero.
 */
export function rawChemicals(needs: Needs, recipes: readonly Recipe[]): ChemicalNeed[] {
  const parts = new Map<string, Part[]>();
  for (const { solution, batchUl, lines } of recipes)
    for (const { ingredient, unit, quantity } of lines) {
      if (quantity < 0n || batchUl <= 0n)
        throw new RangeError(`${quantity} of ${ingredient} in ${batchUl} is not a part of a batch.`);
      const key = `${unit} ${ingredient}`;
      parts.set(key, [...(parts.get(key) ?? []), { ingredient, unit, quantity, batchUl, solution }]);
    }
  const crystals: ChemicalNeed = {
    ingredient: 'Silver nitrate',
    unit: 'mg',
    quantity: needs.silverNitrate.total,
  };
  const rest = [...parts.values()].flatMap((of) => {
    const [first] = of;
    return first
      ? [{ ingredient: first.ingredient, unit: first.unit, quantity: spreadOf(of, needs.solutions) }]
      : [];
  });
  return [crystals, ...rest];
}

type Part = Chemical & Omit<Recipe, 'lines'>;

/** Solution x line / batch, added up over a common divisor, so that rounding happens once. */
function spreadOf(parts: readonly Part[], solutions: Needs['solutions']): Spread {
  const common = parts.reduce((product, { batchUl }) => product * batchUl, 1n);
  const spread = { low: 0n, likely: 0n, ninety: 0n, high: 0n };
  for (const figure of FIGURES) {
    const sum = parts.reduce(
      (all, { solution, quantity, batchUl }) =>
        all + solutions[solution][figure] * quantity * (common / batchUl),
      0n,
    );
    spread[figure] = divide(sum, common, 'up');
  }
  return spread;
}
