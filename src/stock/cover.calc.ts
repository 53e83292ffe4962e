// How the shelf as it stands would meet a day's needs, item by item, without setting anything aside.
import { Temporal } from 'temporal-polyfill';
import { type Allocation, allocate } from './allocation.calc.js';
import type { Item, Lot, Need } from './stock.schemas.js';

export interface Shelf {
  items: Item[];
  lots: Lot[];
}

export interface ItemCover extends Allocation {
  item: Item;
  need: bigint;
}

/** One cover per needed item, in the order of item ids. Needs of nothing and of unknown items are left out. */
export function coverOn(
  needs: Need[],
  { items, lots }: Shelf,
  day: Temporal.PlainDate,
  today: Temporal.PlainDate,
): ItemCover[] {
  return needs
    .filter((need) => need.quantity > 0n)
    .sort((a, b) => (a.itemId < b.itemId ? -1 : 1))
    .flatMap(({ itemId, quantity }) => {
      const item = items.find((one) => one.id === itemId);
      if (!item) return [];
      const usable = lots.filter((lot) => lot.itemId === itemId && usableOn(lot, day)).map(freeOf);
      return [{ item, need: quantity, ...allocate(quantity, usable, item, day, today) }];
    });
}

/** Whether a lot can be used on a day, both ends included. */
export function usableOn(
  { usableFrom, usableUntil }: Pick<Lot, 'usableFrom' | 'usableUntil'>,
  day: Temporal.PlainDate,
) {
  const { compare } = Temporal.PlainDate;
  return compare(usableFrom, day) <= 0 && (usableUntil === null || compare(day, usableUntil) <= 0);
}

/** What of a lot nobody has set aside. */
export const freeOf = ({ id, onHand, reserved, usableUntil }: Lot) => ({
  id,
  free: onHand - reserved,
  usableUntil,
});
