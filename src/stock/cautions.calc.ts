// What of the shelf must not stand or be mixed together: the check of chemistry/incompatible.calc.ts, told of items
// and of a formula on the bench.
import { incompatiblePairs, type Kept, type Pair, propertiesOf } from '../chemistry/incompatible.calc.js';
import type { FormulaLine } from './formulas.schemas.js';
import type { Item } from './stock.schemas.js';

/** The substances of each formula as it is mixed now. */
export type Substances = ReadonlyMap<string, readonly string[]>;

/** An item with all it brings: by its kind, its substance, its formula and its own label. */
export const keptOf = (item: Item, substances: Substances): Kept => ({
  name: item.name,
  has: propertiesOf({
    kind: item.kind,
    substance: item.substance,
    mixedFrom: item.formulaId === null ? [] : (substances.get(item.formulaId) ?? []),
    hCodes: item.hCodes,
  }),
});

/** What of the things on one shelf must stand apart, the gravest first. */
export const shelfCautions = (items: readonly Item[], substances: Substances): Pair[] =>
  incompatiblePairs(items.map((item) => keptOf(item, substances)));

/** What a formula must be kept apart from while it is mixed: among its own ingredients, and on the shelf. */
export function benchCautions(
  made: { name: string; kind: string; lines: readonly FormulaLine[] },
  around: readonly Item[],
  substances: Substances,
): Pair[] {
  const ingredients = made.lines.map(({ ingredient: name, substance }) => ({
    name,
    has: propertiesOf({ kind: '', substance, hCodes: [] }),
  }));
  const mixedFrom = made.lines.map((line) => line.substance);
  const whole = {
    name: made.name,
    has: propertiesOf({ kind: made.kind, substance: null, mixedFrom, hCodes: [] }),
  };
  const own = new Set(made.lines.map((line) => line.itemId));
  const others = around.filter((item) => !own.has(item.id)).map((item) => keptOf(item, substances));
  return [...incompatiblePairs(ingredients), ...incompatiblePairs([whole, ...others], [whole])];
}
