// What of the shelf must not stand or be mixed together: the check of chemistry/incompatible.calc.ts, told of items
// and of a formula on the bench.
import { incompatiblePairs, type Kept, type Pair, propertiesOf } from '../chemistry/incompatible.calc.js';
import type { FormulaLine } from './formulas.schemas.js';
import type { Item } from './stock.schemas.js';

/** The substances of each formula as it is mixed now, and the statements on the labels of what goes into it. */
export type Substances = ReadonlyMap<string, readonly string[]>;

/** An item with all it brings: by its kind, its substance, its formula and its own label. */
export function keptOf({ name, kind, substance, formulaId, hCodes }: Item, substances: Substances): Kept {
  const mixedFrom = formulaId === null ? [] : (substances.get(formulaId) ?? []);
  return { name, has: propertiesOf({ kind, substance, mixedFrom, hCodes: [...hCodes, ...mixedFrom] }) };
}

/** What of the things on one shelf must stand apart, the gravest first. */
export const shelfCautions = (items: readonly Item[], substances: Substances): Pair[] =>
  incompatiblePairs(items.map((item) => keptOf(item, substances)));

/** What an ingredient brings: its substance, and what the thing on the shelf that it is taken from brings. */
export function ingredientOf(
  { ingredient: name, substance, itemId }: FormulaLine,
  items: readonly Item[],
  substances: Substances,
): Kept {
  const item = items.find(({ id }) => id === itemId);
  const own = propertiesOf({ kind: '', substance, hCodes: [] });
  return { name, has: [...new Set([...own, ...(item ? keptOf(item, substances).has : [])])].sort() };
}

/** Ingredients of which neither the substance nor a statement on the label is known; what they meet is not told. */
export const notChecked = (
  lines: readonly FormulaLine[],
  items: readonly Item[],
  substances: Substances,
): string[] =>
  lines
    .filter(({ substance, itemId }) => {
      const item = items.find(({ id }) => id === itemId);
      const mixed = item?.formulaId && substances.get(item.formulaId)?.length;
      return !substance && !item?.substance && !item?.hCodes.length && !mixed;
    })
    .map(({ ingredient }) => ingredient);

/**
 * What a formula must be kept apart from while it is mixed: among its own ingredients, and on the shelf. `items`
 * are those that its lines may be taken from, `around` those that stand on the shelf now.
 */
export function benchCautions(
  made: { name: string; kind: string; lines: readonly FormulaLine[] },
  around: readonly Item[],
  substances: Substances,
  items: readonly Item[] = around,
): Pair[] {
  const ingredients = made.lines.map((line) => ingredientOf(line, items, substances));
  const kind = propertiesOf({ kind: made.kind, substance: null, hCodes: [] });
  const whole = { name: made.name, has: [...new Set([...kind, ...ingredients.flatMap(({ has }) => has)])] };
  const own = new Set(made.lines.map((line) => line.itemId));
  const others = around.filter((item) => !own.has(item.id)).map((item) => keptOf(item, substances));
  return [...incompatiblePairs(ingredients), ...incompatiblePairs([whole, ...others], [whole])];
}
