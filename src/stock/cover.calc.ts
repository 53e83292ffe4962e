// How the shelf as it stands would meet a day's needs, item by item, without setting anything aside.
import type { Temporal } from 'temporal-polyfill';
import { type Judged, judge } from './allocation.calc.js';
import { type Plan, planItem, supplyOf } from './plan.calc.js';
import { lotsToPlan } from './replan.calc.js';
import type { Item, Lot, Need } from './stock.schemas.js';

export interface Shelf {
  items: Item[];
  lots: Lot[];
}

export interface ItemCover extends Judged {
  item: Item;
  need: bigint;
  fromLots: Plan['fromLots'];
  /** What the lots cannot give. */
  missing: bigint;
}

/** One cover per needed item, in the order of item ids. Needs of nothing and of unknown items are left out. */
export function coverOn(
  needs: Need[],
  { items, lots }: Shelf,
  day: Temporal.PlainDate,
  today: Temporal.PlainDate,
): ItemCover[] {
  const reserved = new Map(lots.map((lot) => [lot.id, lot.reserved]));
  return needs
    .filter((need) => need.quantity > 0n)
    .sort((a, b) => (a.itemId < b.itemId ? -1 : 1))
    .flatMap(({ itemId, quantity, class: asked = 'any' }) => {
      const item = items.find((one) => one.id === itemId);
      if (!item) return [];
      const own = lots.filter((lot) => lot.itemId === itemId);
      const need = { key: itemId, day, quantity, class: asked, chosenLotId: null };
      const plan = planItem([need], lotsToPlan({ item, lots: own, past: reserved }));
      const missing = plan.missing[0]?.quantity ?? 0n;
      const judged = judge(missing, supplyOf(item), day, today);
      return [{ item, need: quantity, fromLots: plan.fromLots, missing, ...judged }];
    });
}
