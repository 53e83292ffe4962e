// From which bottles a line of a formula is taken when it is mixed today. It moves nothing.
import type { Temporal } from 'temporal-polyfill';
import { planItem, usableOf, usableOn } from './plan.calc.js';
import type { Item, Lot } from './stock.schemas.js';

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
