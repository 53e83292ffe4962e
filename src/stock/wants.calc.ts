// What must still be mixed or ordered for places that are given already: reservations without a lot.
import type { Temporal } from 'temporal-polyfill';
import { ALARM_DAYS } from './allocation.calc.js';
import { lastChance, supplyOf } from './plan.calc.js';
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
 * (null: however late). Days past count no more.
 */
export function wantsOf(
  planned: Planned[],
  { items }: { items: Item[] },
  today: Temporal.PlainDate,
  withinDays: number | null = ALARM_DAYS,
): Want[] {
  const wants = new Map<string, Want>();
  const ahead = planned.filter((one) => today.until(one.neededOn).days >= 0);
  for (const { itemId, quantity, neededOn } of ahead.sort((a, b) => b.neededOn.until(a.neededOn).days)) {
    const item = items.find(({ id }) => id === itemId);
    if (!item) continue;
    const chance = chanceOf(item, neededOn, today);
    if (withinDays !== null && chance.by !== null && today.until(chance.by).days > withinDays) continue;
    const known = wants.get(item.id) ?? { item, quantity: 0n, ...chance, neededOn };
    wants.set(item.id, { ...known, quantity: known.quantity + quantity });
  }
  const urgency = ({ by }: Want) => (by === null ? Number.MIN_SAFE_INTEGER : today.until(by).days);
  return [...wants.values()].sort((a, b) => urgency(a) - urgency(b));
}

function chanceOf(item: Item, neededOn: Temporal.PlainDate, today: Temporal.PlainDate) {
  const by = lastChance(supplyOf(item), neededOn);
  if (by === null) return { action: null, by, late: true } as const;
  return { action: item.ripenDays !== null ? 'mix' : 'order', by, late: today.until(by).days < 0 } as const;
}
