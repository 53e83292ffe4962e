// How an item stands on the shelf today: what can be used, what is set aside, what is free, what is near its end,
// and what is still promised without a bottle. It plans nothing.
import { Temporal } from 'temporal-polyfill';
import { lastChance, supplyOf, usableOf, usableOn } from './plan.calc.js';
import type { Item, Lot } from './stock.schemas.js';

/** What runs out within so many days is near its end. Assumption. */
const NEAR_END_DAYS = 30;

/** A part of what is needed that neither lots nor orders on their way give. */
export interface Planned {
  itemId: string;
  quantity: bigint;
  neededOn: Temporal.PlainDate;
}

export interface Promised {
  quantity: bigint;
  /** How it comes; null when the item is neither mixed nor bought. */
  action: 'mix' | 'order' | null;
  /** The last day to do it, already past when `late`. */
  by: Temporal.PlainDate | null;
  late: boolean;
  /** The first day it is needed on. */
  neededOn: Temporal.PlainDate;
}

export interface Standing {
  item: Item;
  /** What of good bottles can be poured today. */
  usable: bigint;
  /** What of the live ones is set aside, whatever the day. */
  setAside: bigint;
  /** What of the usable nobody has set aside. */
  free: bigint;
  /** Usable some day: the first to run out first. */
  live: Lot[];
  /** Past their end, or suspect. */
  unusable: Lot[];
  /** Needed from today on and given by nothing that is there or on its way; null when all is given. */
  promised: Promised | null;
}

export type LotStanding = 'usable' | 'near its end' | 'ripening' | 'ran out' | 'suspect' | 'empty' | 'gone';

export function standingOf(
  item: Item,
  lots: readonly Lot[],
  planned: readonly Planned[],
  today: Temporal.PlainDate,
): Standing {
  const own = lots.filter((lot) => lot.itemId === item.id && lot.state !== 'gone').sort(byEnd);
  const now = own.filter((lot) => usableOn(lot, today));
  const sum = (amounts: bigint[]) => amounts.reduce((all, one) => all + one, 0n);
  const unusable = own.filter((lot) => ['ran out', 'suspect'].includes(lotStanding(lot, today)));
  const live = own.filter((lot) => !unusable.includes(lot));
  return {
    item,
    usable: sum(now.map((lot) => usableOf(lot, item))),
    setAside: sum(live.map((lot) => lot.reserved)),
    free: sum(now.map((lot) => above(usableOf(lot, item) - lot.reserved))),
    live,
    unusable,
    promised: promisedOf(item, planned, today),
  };
}

export function lotStanding(lot: Lot, today: Temporal.PlainDate): LotStanding {
  if (lot.state !== 'good') return lot.state;
  if (lot.usableUntil && lot.usableUntil.until(today).days > 0) return 'ran out';
  if (lot.onHand === 0n) return 'empty';
  if (today.until(lot.usableFrom).days > 0) return 'ripening';
  return lot.usableUntil && today.until(lot.usableUntil).days <= NEAR_END_DAYS ? 'near its end' : 'usable';
}

/** All bottles near their end or past it that have something in them, the most pressing first. */
export function ending(lots: readonly Lot[], today: Temporal.PlainDate): Lot[] {
  const near = (lot: Lot) => ['near its end', 'ran out'].includes(lotStanding(lot, today)) && lot.onHand > 0n;
  return lots.filter(near).sort(byEnd);
}

function promisedOf(item: Item, planned: readonly Planned[], today: Temporal.PlainDate): Promised | null {
  const own = planned
    .filter((one) => one.itemId === item.id && today.until(one.neededOn).days >= 0)
    .sort((a, b) => Temporal.PlainDate.compare(a.neededOn, b.neededOn));
  const [first] = own;
  if (!first) return null;
  const by = lastChance(supplyOf(item), first.neededOn);
  return {
    quantity: own.reduce((sum, one) => sum + one.quantity, 0n),
    action: by === null ? null : item.ripenDays !== null ? 'mix' : 'order',
    by,
    late: by === null || today.until(by).days < 0,
    neededOn: first.neededOn,
  };
}

function byEnd(a: Lot, b: Lot): number {
  if (a.usableUntil && b.usableUntil) return Temporal.PlainDate.compare(a.usableUntil, b.usableUntil);
  return Number(a.usableUntil === null) - Number(b.usableUntil === null);
}

const above = (amount: bigint) => (amount < 0n ? 0n : amount);

/** How much of an item is on its way in all. */
export const onTheWay = (orders: readonly { quantity: bigint }[]): bigint =>
  orders.reduce((sum, { quantity }) => sum + quantity, 0n);
