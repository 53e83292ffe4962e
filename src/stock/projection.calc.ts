// One item day by day, as far as anything changes: what is usable on hand, what of it is set aside, what comes and
// runs out, what falls short. What is only suggested (batches to mix, orders to make) is told beside it.
import type { Temporal } from 'temporal-polyfill';
import type { ItemAhead } from './horizon.calc.js';
import { dayNumber, type PlanLot } from './plan.calc.js';

/** A day on which something changes, as it stands in the evening. */
export interface ProjectionDay {
  day: Temporal.PlainDate;
  /** Usable that day, less what the day itself took. */
  onHand: bigint;
  /** What of it is set aside for later days. */
  setAside: bigint;
  /** Becomes usable: it has come, or has ripened. */
  came: bigint;
  used: bigint;
  /** Left over in bottles whose last day was the day before. */
  ranOut: bigint;
  /** What the day needs and nothing gives. */
  short: bigint;
}

export interface Projection {
  /** In order; the first is today. */
  days: ProjectionDay[];
  /** Batches to mix or orders to make, by the day they are usable: not among the days above. */
  suggested: { day: Temporal.PlainDate; quantity: bigint }[];
}

/** @param until changes after this day are left out */
export function projectionOf(
  { needs, onHand, onTheWay, netted }: Pick<ItemAhead, 'needs' | 'onHand' | 'onTheWay' | 'netted'>,
  today: Temporal.PlainDate,
  until: Temporal.PlainDate,
): Projection {
  const [start, end] = [dayNumber(today), dayNumber(until)];
  const days = new Map<number, ProjectionDay>();
  /** What is set aside of bottles that are there: grows in the morning they are, shrinks when a day is served. */
  const promised = new Map<number, bigint>();
  const at = (day: Temporal.PlainDate): ProjectionDay => {
    const number = Math.max(start, dayNumber(day));
    const known = days.get(number);
    if (known) return known;
    const fresh = { onHand: 0n, setAside: 0n, came: 0n, used: 0n, ranOut: 0n, short: 0n };
    const made = { day: number === start ? today : day, ...fresh };
    days.set(number, made);
    return made;
  };
  const promise = (day: Temporal.PlainDate, by: bigint) => {
    const number = dayNumber(at(day).day);
    promised.set(number, (promised.get(number) ?? 0n) + by);
  };
  at(today);
  const lots = new Map<string, PlanLot>();
  const left = new Map<string, bigint>();
  for (const lot of [...onHand, ...onTheWay]) {
    if (lot.usable === 0n || (lot.usableUntil && dayNumber(lot.usableUntil) < start)) continue;
    at(lot.usableFrom).came += lot.usable;
    lots.set(lot.id, lot);
    left.set(lot.id, lot.usable);
  }
  for (const need of needs.values()) at(need.day).short += need.quantity;
  for (const { needKey, lotId, quantity } of netted.given) {
    const need = needs.get(needKey);
    const lot = lots.get(lotId);
    if (!need || !lot) continue;
    const day = at(need.day);
    day.used += quantity;
    day.short -= quantity;
    promise(lot.usableFrom, quantity);
    promise(need.day, -quantity);
    left.set(lotId, (left.get(lotId) ?? 0n) - quantity);
  }
  for (const [lotId, rest] of left) {
    const last = lots.get(lotId)?.usableUntil;
    if (last && rest > 0n && dayNumber(last) < end) at(last.add({ days: 1 })).ranOut += rest;
  }
  const sorted = [...days].sort(([a], [b]) => a - b).filter(([number]) => number <= end);
  let level = 0n;
  let aside = 0n;
  for (const [number, day] of sorted) {
    level += day.came - day.used - day.ranOut;
    aside += promised.get(number) ?? 0n;
    day.onHand = level;
    day.setAside = aside;
  }
  const suggested = netted.planned.map((one) => ({ day: one.receiptOn, quantity: one.quantity }));
  return {
    days: sorted.map(([, day]) => day),
    suggested: suggested.filter(({ day }) => dayNumber(day) <= end),
  };
}
