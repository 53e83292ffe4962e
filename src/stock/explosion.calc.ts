// From what is mixed here to what goes into it: formulas as lists of ingredients that the shelf keeps, and the
// order in which items are looked at, so that all that asks for an ingredient is known before it is planned.
import type { Item, Unit } from './stock.schemas.js';

/** A formula as it is mixed now. */
export interface Recipe {
  formulaId: string;
  /** What one batch gives, in microlitres. */
  batchQuantity: bigint;
  lines: RecipeLine[];
}

export interface RecipeLine {
  ingredient: string;
  substance: string | null;
  itemId: string | null;
  /** In one batch. */
  quantity: bigint;
  unit: Exclude<Unit, 'sheet'>;
}

/** How an item is mixed, as far as the shelf can tell. */
export interface Mixing {
  recipe: Recipe;
  /** What one batch takes of which item. */
  takes: { itemId: string; quantity: bigint }[];
  /** Ingredients not kept on the shelf, or kept in another kind of unit: nobody counts them. */
  uncounted: string[];
}

/**
 * How each mixed item is mixed, by item. A line without an item is taken from the first item, by name, of the same
 * substance. Of items that go into themselves, by whatever way, none has a mixing.
 */
export function mixings(items: readonly Item[], recipes: readonly Recipe[]): Map<string, Mixing> {
  const kept = items.filter((item) => !item.archived);
  const byId = new Map(items.map((item) => [item.id, item]));
  const byFormula = new Map(recipes.map((recipe) => [recipe.formulaId, recipe]));
  const found = new Map<string, Mixing>();
  for (const item of items) {
    const recipe = item.formulaId === null ? undefined : byFormula.get(item.formulaId);
    if (!recipe || item.ripenDays === null || item.unit !== 'uL') continue;
    const takes = new Map<string, bigint>();
    const uncounted: string[] = [];
    for (const line of recipe.lines) {
      const one = line.itemId
        ? byId.get(line.itemId)
        : line.substance !== null && kept.find(({ substance }) => substance === line.substance);
      if (!one || one.unit !== line.unit) uncounted.push(line.ingredient);
      else if (line.quantity > 0n) takes.set(one.id, (takes.get(one.id) ?? 0n) + line.quantity);
    }
    const lines = [...takes].map(([itemId, quantity]) => ({ itemId, quantity }));
    found.set(item.id, { recipe, takes: lines, uncounted });
  }
  const circular = [...found.keys()].filter((id) => goesIntoItself(id, found));
  for (const id of circular) found.delete(id);
  return found;
}

function goesIntoItself(id: string, mixed: ReadonlyMap<string, Mixing>): boolean {
  const reached = new Set([id]);
  for (const one of reached)
    for (const { itemId } of mixed.get(one)?.takes ?? []) {
      if (itemId === id) return true;
      reached.add(itemId);
    }
  return false;
}

/** Items in such an order that each comes after all it goes into; of those that `mixings` found, so none into itself. */
export function parentsFirst(items: readonly Item[], mixed: ReadonlyMap<string, Mixing>): Item[] {
  const parents = new Map(items.map((item) => [item.id, 0]));
  for (const { takes } of mixed.values())
    for (const { itemId } of takes) parents.set(itemId, (parents.get(itemId) ?? 0) + 1);
  const order: Item[] = [];
  let ready = items.filter((item) => parents.get(item.id) === 0);
  const byId = new Map(items.map((item) => [item.id, item]));
  while (ready.length > 0) {
    order.push(...ready);
    const next: Item[] = [];
    for (const item of ready)
      for (const { itemId } of mixed.get(item.id)?.takes ?? []) {
        const left = (parents.get(itemId) ?? 0) - 1;
        parents.set(itemId, left);
        const ingredient = byId.get(itemId);
        if (left === 0 && ingredient) next.push(ingredient);
      }
    ready = next;
  }
  return order;
}

/** What so much of a mixed item takes, rounded up. */
export function ingredientsOf({ recipe, takes }: Mixing, quantity: bigint): Mixing['takes'] {
  return takes.map((one) => ({
    itemId: one.itemId,
    quantity: (one.quantity * quantity + recipe.batchQuantity - 1n) / recipe.batchQuantity,
  }));
}
