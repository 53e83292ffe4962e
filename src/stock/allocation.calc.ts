// Which bottles, batches and boxes a day's need is taken from, and what must still be mixed or bought.
// First expiring first among the lots usable on that day. Pure: day and today are arguments.
import type { Temporal } from 'temporal-polyfill';

export interface UsableLot {
  id: string;
  /** On hand less what is set aside, in the item's unit. */
  free: bigint;
  /** Last day of use; null when it does not run out. */
  usableUntil: Temporal.PlainDate | null;
}

/** How more of an item comes: bought, mixed here, or neither (both null). Days. */
export interface Supply {
  leadDays: number | null;
  ripenDays: number | null;
}

export type StockState = 'enough' | 'mix by' | 'order by' | 'nothing to do yet' | 'cannot be had';

export interface Allocation {
  fromLots: { lotId: string; quantity: bigint }[];
  /** What the lots cannot give. */
  missing: bigint;
  state: StockState;
  /** The last day to mix or order, when something is missing and there is still time. */
  by: Temporal.PlainDate | null;
}

/** Far-out days are quiet: within this many days of the last chance we say what to do. Common practice, no source. */
export const ALARM_DAYS = 14;

/**
 * Spreads `need` over `lots` (those usable on the day), first expiring first, lots without an end last,
 * equal ends by id so that the answer is always the same. What is missing is judged by `supply`.
 */
export function allocate(
  need: bigint,
  lots: UsableLot[],
  supply: Supply,
  day: Temporal.PlainDate,
  today: Temporal.PlainDate,
): Allocation {
  let missing = need;
  const fromLots: Allocation['fromLots'] = [];
  for (const lot of [...lots].sort(firstExpiringFirst)) {
    const quantity = lot.free < missing ? lot.free : missing;
    if (quantity <= 0n) continue;
    fromLots.push({ lotId: lot.id, quantity });
    missing -= quantity;
  }
  return { fromLots, missing, ...judge(missing, supply, day, today) };
}

/** Compares by last day of use, then id. */
export function firstExpiringFirst(a: UsableLot, b: UsableLot): number {
  if (a.usableUntil && b.usableUntil) {
    const order = a.usableUntil.since(b.usableUntil).days;
    if (order !== 0) return order;
  } else if (a.usableUntil || b.usableUntil) return a.usableUntil ? -1 : 1;
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}

function judge(
  missing: bigint,
  supply: Supply,
  day: Temporal.PlainDate,
  today: Temporal.PlainDate,
): Pick<Allocation, 'state' | 'by'> {
  if (missing <= 0n) return { state: 'enough', by: null };
  const action = supply.ripenDays !== null ? 'mix by' : 'order by';
  const days = supply.ripenDays ?? supply.leadDays;
  if (days === null) return { state: 'cannot be had', by: null };
  const by = day.subtract({ days });
  const left = today.until(by).days;
  if (left < 0) return { state: 'cannot be had', by: null };
  return { state: left <= ALARM_DAYS ? action : 'nothing to do yet', by };
}

const GRAVITY: StockState[] = ['enough', 'nothing to do yet', 'mix by', 'order by', 'cannot be had'];

/** The gravest of several states, with the earliest date that goes with it. */
export function gravest(parts: Pick<Allocation, 'state' | 'by'>[]): Pick<Allocation, 'state' | 'by'> {
  let worst: Pick<Allocation, 'state' | 'by'> = { state: 'enough', by: null };
  for (const part of parts) {
    const order = GRAVITY.indexOf(part.state) - GRAVITY.indexOf(worst.state);
    const earlier = part.by !== null && worst.by !== null && part.by.until(worst.by).days > 0;
    if (order > 0 || (order === 0 && earlier)) worst = { state: part.state, by: part.by };
  }
  return worst;
}
