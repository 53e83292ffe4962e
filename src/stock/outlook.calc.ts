// How the shelf stands with what places need that are given: a state, and its reasons: what to mix or order by
// when, for an ingredient with what it goes into.
import type { Temporal } from 'temporal-polyfill';
import { ALARM_DAYS, gravest, type Judged, type StockState } from './allocation.calc.js';
import { batchKey, type Horizon, type ItemAhead } from './horizon.calc.js';
import { type PlannedReceipt, type Short, type ShortReason } from './netting.calc.js';
import { dayNumber, lastChance, supplyOf } from './plan.calc.js';
import type { Item } from './stock.schemas.js';

/** An item of which there is not enough yet, and what is to be done about it. */
export interface StockReason extends Judged {
  item: string;
  /** How more of it comes; null when it does not. */
  action: 'mix' | 'order' | null;
  /** What it goes into, when it is an ingredient of something to be mixed. */
  into: string | null;
  /** Why it cannot be had; or 'over the limit' beside a day to act by, when it would be more than is kept at most. */
  why: ShortReason | null;
}

export interface Outlook extends Judged {
  /** The gravest first, then the earliest; empty when there is enough. */
  reasons: StockReason[];
}

export const ENOUGH: Outlook = { state: 'enough', by: null, reasons: [] };

/** How it stands with all who have something set aside, by their id. */
export function outlooks(horizon: Horizon): Map<string, Outlook> {
  const reasons = new Map<string, StockReason[]>();
  // one batch or order is for many
  const told: Told = new Map();
  for (const ahead of horizon.items.values())
    for (const { key, heldFor } of ahead.needs.values()) {
      if (heldFor === null) continue;
      const known = reasons.get(heldFor) ?? [];
      known.push(...reasonsOf(horizon, ahead, key, { into: null, later: 0 }, told));
      reasons.set(heldFor, known);
    }
  return new Map([...reasons].map(([heldFor, found]) => [heldFor, outlookOf(found)]));
}

type Told = Map<PlannedReceipt, StockReason[]>;

interface Asking {
  /** What it goes into. */
  into: Item | null;
  /** So many days later than it is planned would do: what is asked for is left over from something sooner. */
  later: number;
}

/** What is to be done for one need as it is planned; nothing when bottles or orders on their way give it. */
export function reasonsOf(
  horizon: Horizon,
  ahead: ItemAhead,
  needKey: string,
  asking: Asking,
  told?: Told,
): StockReason[] {
  const { item, plannedFor, shortFor, needs } = ahead;
  const short = shortFor.get(needKey);
  const planned = (plannedFor.get(needKey) ?? []).flatMap((one) => {
    const later = asking.later + laterThan(ahead, one, needs.get(needKey)?.day ?? one.receiptOn);
    const reasons =
      (later === 0 && told?.get(one)) || reasonsOfPlanned(horizon, item, one, { ...asking, later });
    if (later === 0) told?.set(one, reasons);
    return reasons;
  });
  return [...(short ? [reasonOfShort(horizon, item, short, asking)] : []), ...planned];
}

/**
 * How many days a need comes after those that a batch or order is for: what it takes is left over, and if it
 * were not, there would be so much more time. None for those within two weeks, which are taken together.
 */
export function laterThan(
  { rule }: ItemAhead,
  { receiptOn }: PlannedReceipt,
  day: Temporal.PlainDate,
): number {
  const gap = dayNumber(day) === dayNumber(receiptOn) ? 0 : receiptOn.until(day).days;
  return gap > rule.togetherDays ? gap : 0;
}

/** What is to be done for a batch or an order that is planned. */
export function reasonsOfPlanned(
  horizon: Horizon,
  item: Item,
  planned: PlannedReceipt,
  { into, later }: Asking,
): StockReason[] {
  const takes = horizon.items.get(item.id)?.mixing?.takes ?? [];
  const ingredients = takes.flatMap(({ itemId }) => {
    const raw = horizon.items.get(itemId);
    return raw ? reasonsOf(horizon, raw, batchKey(item.id, planned), { into: item, later }) : [];
  });
  const by = later === 0 ? planned.releaseOn : planned.releaseOn.add({ days: later });
  return [doBy(horizon, item, by, into), ...ingredients];
}

function reasonOfShort(
  horizon: Horizon,
  item: Item,
  { reason, day }: Short,
  { into, later }: Asking,
): StockReason {
  const limit = reason === 'over the limit';
  const may = limit || (later > 0 && reason === 'too late');
  const by = may ? lastChance(supplyOf(item), day.add({ days: later })) : null;
  return by && dayNumber(by) >= dayNumber(horizon.today)
    ? doBy(horizon, item, by, into, limit ? reason : null)
    : cannot(item, reason, into);
}

/** What is to be done for an item by a day: said while that is near. The owner's own limit never forbids it. */
export function doBy(
  { today }: Horizon,
  item: Item,
  by: Temporal.PlainDate,
  into: Item | null,
  why: 'over the limit' | null = null,
): StockReason {
  const action = item.ripenDays === null ? 'order' : 'mix';
  const near = today.until(by).days <= ALARM_DAYS;
  const state: StockState = near ? `${action} by` : 'nothing to do yet';
  return { item: item.name, state, by, action, into: into?.name ?? null, why };
}

export const cannot = (item: Item, why: ShortReason, into: Item | null): StockReason => ({
  item: item.name,
  state: 'cannot be had',
  by: null,
  action: item.ripenDays !== null ? 'mix' : supplyOf(item).leadDays !== null ? 'order' : null,
  into: into?.name ?? null,
  why,
});

/** The gravest of all reasons, each told once and the most pressing first. */
export function outlookOf(reasons: readonly StockReason[]): Outlook {
  const once = new Map<string, StockReason>();
  for (const one of reasons) {
    const key = `${one.item} ${one.state} ${one.why ?? ''}`;
    const known = once.get(key);
    if (!known || order(one) < order(known)) once.set(key, one);
  }
  const worst = gravest([...once.values()]);
  const first = (one: StockReason) =>
    one.state === worst.state && (one.by === null ? worst.by === null : worst.by?.equals(one.by)) ? 0 : 1;
  const sorted = [...once.values()].sort((a, b) => first(a) - first(b) || order(a) - order(b));
  return { state: worst.state, by: worst.by, reasons: sorted };
}

/** What cannot be had any more comes first. */
const order = ({ by }: Pick<StockReason, 'by'>) => (by === null ? 0 : dayNumber(by));
