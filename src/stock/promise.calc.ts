// Available to promise: how much more of an item may be promised for a day without anybody losing what they have.
// What an item's lots give to whom is planned before; this only counts.
import type { Temporal } from 'temporal-polyfill';
import { dayNumber, type Plan, type PlanLot, usableOn } from './plan.calc.js';

/**
 * Discrete available to promise by the rule of the APICS dictionary: in the first bucket what is on hand and
 * comes, less the orders before the next receipt; later only where something comes, less the orders before the
 * next one; null where nothing comes. Below 0 where the orders pass what comes.
 */
export function discretePromise(
  onHand: bigint,
  receipts: readonly bigint[],
  orders: readonly bigint[],
): (bigint | null)[] {
  const found: (bigint | null)[] = [];
  let last = 0;
  orders.forEach((order, bucket) => {
    const comes = receipts[bucket] ?? 0n;
    const begins = bucket === 0 || comes !== 0n;
    if (begins) last = bucket;
    found.push(begins ? comes + (bucket === 0 ? onHand : 0n) : null);
    found[last] = (found[last] ?? 0n) - order;
  });
  return found;
}

/** The same with each shortage taken from what could be promised before it; what is short in the first stays. */
export function carriedBack(discrete: readonly (bigint | null)[]): (bigint | null)[] {
  let owed = 0n;
  const carried = discrete.map((): bigint | null => null);
  for (let bucket = discrete.length - 1; bucket >= 0; bucket--) {
    const free = discrete[bucket] ?? null;
    if (free === null) continue;
    const rest = free - owed;
    carried[bucket] = rest < 0n && bucket > 0 ? 0n : rest;
    owed = rest < 0n ? -rest : 0n;
  }
  return carried;
}

export interface Promisable {
  /** Days in their order, as numbers, and what may be promised from each on. */
  days: number[];
  inAll: bigint[];
  /** What will be left over in lots that run out: it can be had on their days only. */
  leftOver: PlanLot[];
}

/**
 * What of an item's lots may still be promised, beside what they give by the plan. A day is a bucket.
 * @param given by these lots to needs whose days `dayOf` tells; none before `today`
 */
export function promisable(
  lots: readonly PlanLot[],
  given: Plan['fromLots'],
  dayOf: (needKey: string) => Temporal.PlainDate | undefined,
  today: Temporal.PlainDate,
): Promisable {
  const start = dayNumber(today);
  const used = new Map<string, bigint>();
  const orders = new Map<number, bigint>();
  for (const { needKey, lotId, quantity } of given) {
    const day = dayOf(needKey);
    if (!day) continue;
    add(orders, dayNumber(day), quantity);
    add(used, lotId, quantity);
  }
  const receipts = new Map<number, bigint>();
  const leftOver: PlanLot[] = [];
  for (const lot of lots) {
    const gives = used.get(lot.id) ?? 0n;
    const lasting = lot.usableUntil === null ? lot.usable : gives;
    if (lot.usable > lasting) leftOver.push({ ...lot, usable: lot.usable - gives });
    add(receipts, Math.max(start, dayNumber(lot.usableFrom)), lasting);
  }
  const days = [...new Set([start, ...receipts.keys(), ...orders.keys()])].sort((a, b) => a - b);
  const on = (of: Map<number, bigint>) => days.map((day) => of.get(day) ?? 0n);
  let all = 0n;
  const inAll = carriedBack(discretePromise(0n, on(receipts), on(orders))).map((free) => {
    all += free ?? 0n;
    return all;
  });
  return { days, inAll, leftOver };
}

/** Whether so much more may be promised for a day. A false says "not by this plan": another plan may have room. */
export function mayPromise(
  { days, inAll, leftOver }: Promisable,
  day: Temporal.PlainDate,
  quantity: bigint,
): boolean {
  const at = dayNumber(day);
  const bucket = days.findLastIndex((one) => one <= at);
  const lasting = inAll[bucket] ?? 0n;
  if (lasting >= quantity) return true;
  const besides = leftOver.filter((lot) => usableOn(lot, day)).reduce((sum, lot) => sum + lot.usable, 0n);
  return lasting + besides >= quantity;
}

function add<Key>(sums: Map<Key, bigint>, key: Key, quantity: bigint): void {
  sums.set(key, (sums.get(key) ?? 0n) + quantity);
}
