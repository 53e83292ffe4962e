// From which bottles a line of a formula is taken when it is mixed today, and what was said to be taken. It moves
// nothing.
import type { Temporal } from 'temporal-polyfill';
import { parseQuantity } from '../lib/quantity-text.js';
import type { LineUnit } from './formulas.schemas.js';
import { planItem, usableOf, usableOn } from './plan.calc.js';
import type { Item, Lot } from './stock.schemas.js';
import { ACT_PROBLEMS } from './words.calc.js';

export interface BottleShare {
  lot: Lot;
  /** Nothing for a bottle that is not needed. */
  quantity: bigint;
}

/**
 * The bottles of an item that are good and usable today, the first expiring first, and how much of each makes up a
 * quantity, by the rule that stock is set aside by; what they cannot give is missing. Heels stay in their bottles.
 */
export function shareOut(
  quantity: bigint,
  item: Item | null,
  lots: readonly Lot[],
  today: Temporal.PlainDate,
): { from: BottleShare[]; missing: bigint } {
  if (!item) return { from: [], missing: quantity };
  const there = lots.filter(
    (lot) => lot.itemId === item.id && usableOf(lot, item) > 0n && usableOn(lot, today),
  );
  const need = { key: '', day: today, quantity, class: 'any', chosenLotId: null } as const;
  const plan = planItem(
    [need],
    there.map((lot) => ({ ...lot, usable: usableOf(lot, item) })),
  );
  const shares = new Map(plan.fromLots.map((one) => [one.lotId, one.quantity]));
  return {
    from: there.map((lot) => ({ lot, quantity: shares.get(lot.id) ?? 0n })),
    missing: plan.missing[0]?.quantity ?? 0n,
  };
}

/** The shares of several lines, one after the other: what a line takes is not there for the next. */
export function shareAll<L extends { quantity: bigint }>(
  lines: readonly (L & { item: Item | null })[],
  lots: readonly Lot[],
  today: Temporal.PlainDate,
): (L & { item: Item | null; from: BottleShare[]; missing: bigint })[] {
  const taken = new Map<string, bigint>();
  return lines.map((line) => {
    const left = lots.map((lot) => ({ ...lot, onHand: lot.onHand - (taken.get(lot.id) ?? 0n) }));
    const shares = shareOut(line.quantity, line.item, left, today);
    for (const { lot, quantity } of shares.from) taken.set(lot.id, (taken.get(lot.id) ?? 0n) + quantity);
    return { ...line, ...shares };
  });
}

/** Every bottle of some lines once, with all that is taken of it. */
export function bottlesOf<U>(
  lines: readonly { unit: U; from: readonly BottleShare[] }[],
): { lot: Lot; unit: U; quantity: bigint }[] {
  const found = new Map<string, { lot: Lot; unit: U; quantity: bigint }>();
  for (const { unit, from } of lines)
    for (const { lot, quantity } of from) {
      const before = found.get(lot.id);
      found.set(lot.id, { lot: before?.lot ?? lot, unit, quantity: (before?.quantity ?? 0n) + quantity });
    }
  return [...found.values()];
}

/** What was taken of which bottle, as it was typed: fields named from- and the bottle's id. Empty ones are left out. */
export const takenFrom = (sent: Readonly<Record<string, unknown>>): { lotId: string; quantity: string }[] =>
  Object.entries(sent).flatMap(([name, typed]) =>
    name.startsWith('from-') && !name.endsWith('-in') && typeof typed === 'string' && typed.trim() !== ''
      ? [{ lotId: name.slice('from-'.length), quantity: typed }]
      : [],
  );

/** A problem for each bottle that has not so much in it; amounts that cannot be read are left to whoever reads them. */
export function tooMuch(
  from: readonly { lotId: string; quantity: string }[],
  lines: readonly { unit: LineUnit; from: readonly BottleShare[] }[],
): { field: string; message: string }[] {
  const bottles = bottlesOf(lines);
  return from.flatMap(({ lotId, quantity }) => {
    const bottle = bottles.find(({ lot }) => lot.id === lotId);
    const read = bottle && parseQuantity(quantity, bottle.unit);
    if (!bottle || !read?.ok || read.amount <= bottle.lot.onHand) return [];
    const { message } = ACT_PROBLEMS['more than is in it'];
    return [{ field: `from-${lotId}`, message }];
  });
}
