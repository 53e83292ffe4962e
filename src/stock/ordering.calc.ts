// What is to be ordered: how many packs, by when, from whom and for what.
import type { Temporal } from 'temporal-polyfill';
import { ALARM_DAYS } from './allocation.calc.js';
import type { Horizon } from './horizon.calc.js';
import { isMixed, type Purpose, purposeOf } from './mixing.calc.js';
import { dayNumber } from './plan.calc.js';
import type { Item } from './stock.schemas.js';

export interface ToOrder {
  item: Item;
  quantity: bigint;
  /** Whole packs; null when it is bought in any quantity. */
  packs: bigint | null;
  /** What of it is needed. */
  needed: bigint;
  /** The latest day to order. */
  by: Temporal.PlainDate;
  /** The day it must be there. */
  neededOn: Temporal.PlainDate;
  purpose: Purpose;
  /** More is needed than the most that may be on hand lets come. */
  limited: boolean;
  /** It is time to think of it. */
  near: boolean;
}

/** The most pressing first. */
export function toOrder(horizon: Horizon): ToOrder[] {
  const found = [...horizon.items.values()]
    .filter((ahead) => !isMixed(ahead))
    .flatMap((ahead) => {
      const { item, rule, netted } = ahead;
      return netted.planned.map((planned) => ({
        item,
        quantity: planned.quantity,
        packs: rule.lotSize === null ? null : planned.quantity / rule.lotSize,
        needed: planned.net,
        by: planned.releaseOn,
        neededOn: planned.receiptOn,
        purpose: purposeOf(horizon, ahead, planned),
        limited: planned.limited,
        near: horizon.today.until(planned.releaseOn).days <= ALARM_DAYS,
      }));
    });
  return found.sort((a, b) => dayNumber(a.by) - dayNumber(b.by) || (a.item.name < b.item.name ? -1 : 1));
}

/** By supplier, those without one last; the supplier with the most pressing order first. */
export function bySupplier(orders: readonly ToOrder[]): { supplierId: string | null; orders: ToOrder[] }[] {
  const groups = new Map<string | null, ToOrder[]>();
  for (const one of orders) {
    const known = groups.get(one.item.supplierId) ?? [];
    groups.set(one.item.supplierId, [...known, one]);
  }
  const all = [...groups].map(([supplierId, found]) => ({ supplierId, orders: found }));
  return all.sort((a, b) => Number(a.supplierId === null) - Number(b.supplierId === null));
}
