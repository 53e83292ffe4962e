// What must still be mixed or ordered for places that are given already: reservations without a lot, less
// what has come onto the shelf since.
import type { Temporal } from 'temporal-polyfill';
import { ALARM_DAYS, allocate } from './allocation.calc.js';
import { freeOf, type Shelf, usableOn } from './cover.calc.js';
import type { Item } from './stock.schemas.js';

/** A part of places' needs that no lot gave when they were set aside. */
export interface Planned {
  itemId: string;
  quantity: bigint;
  neededOn: Temporal.PlainDate;
}

export interface Want {
  item: Item;
  quantity: bigint;
  /** How it comes; null when the item is neither mixed nor bought. */
  action: 'mix' | 'order' | null;
  /** The last day to do it, already past when `late`; null without an action. */
  by: Temporal.PlainDate | null;
  late: boolean;
  /** The first day it is needed on. */
  neededOn: Temporal.PlainDate;
}

/**
 * One want per item, the most pressing first: all that must be begun within so many days from today
 * (null: however late). Free stock usable on a day serves the earliest days first. Days past count no more.
 */
export function wantsOf(
  planned: Planned[],
  shelf: Shelf,
  today: Temporal.PlainDate,
  withinDays: number | null = ALARM_DAYS,
): Want[] {
  const wants = new Map<string, Want>();
  for (const { item, quantity, neededOn } of missingOf(planned, shelf, today)) {
    const chance = chanceOf(item, neededOn, today);
    if (withinDays !== null && chance.by !== null && today.until(chance.by).days > withinDays) continue;
    const known = wants.get(item.id) ?? { item, quantity: 0n, ...chance, neededOn };
    wants.set(item.id, { ...known, quantity: known.quantity + quantity });
  }
  const urgency = ({ by }: Want) => (by === null ? Number.MIN_SAFE_INTEGER : today.until(by).days);
  return [...wants.values()].sort((a, b) => urgency(a) - urgency(b));
}

/** What the lots cannot give to the days from today on, the earliest day first. */
function missingOf(planned: Planned[], shelf: Shelf, today: Temporal.PlainDate) {
  const free = new Map(shelf.lots.map((lot) => [lot.id, lot.onHand - lot.reserved]));
  const ahead = planned.filter((one) => today.until(one.neededOn).days >= 0);
  return ahead
    .sort((a, b) => b.neededOn.until(a.neededOn).days)
    .flatMap(({ itemId, quantity, neededOn }) => {
      const item = shelf.items.find(({ id }) => id === itemId);
      if (!item) return [];
      const lots = shelf.lots
        .filter((lot) => lot.itemId === itemId && usableOn(lot, neededOn))
        .map((lot) => ({ ...freeOf(lot), free: free.get(lot.id) ?? 0n }));
      const { fromLots, missing } = allocate(quantity, lots, item, neededOn, today);
      for (const part of fromLots) free.set(part.lotId, (free.get(part.lotId) ?? 0n) - part.quantity);
      return missing > 0n ? [{ item, quantity: missing, neededOn }] : [];
    });
}

function chanceOf(item: Item, neededOn: Temporal.PlainDate, today: Temporal.PlainDate) {
  const needed = item.ripenDays ?? item.leadDays;
  if (needed === null) return { action: null, by: null, late: true } as const;
  const by = neededOn.subtract({ days: needed });
  return { action: item.ripenDays !== null ? 'mix' : 'order', by, late: today.until(by).days < 0 } as const;
}
