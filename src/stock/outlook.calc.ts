// How the shelf stands with what a place needs: of what is given, and of what would be given if it were promised.
// Each state has its reasons: what to mix or order by when, for an ingredient with what it goes into.
import type { Temporal } from 'temporal-polyfill';
import { ALARM_DAYS, gravest, type Judged, type StockState } from './allocation.calc.js';
import { ingredientsOf } from './explosion.calc.js';
import { batchKey, type Horizon, type ItemAhead } from './horizon.calc.js';
import { net, type PlannedReceipt, type ShortReason } from './netting.calc.js';
import { dayNumber, lastChance, type PlanNeed, supplyOf, usableOn } from './plan.calc.js';
import { mayPromise, type Promisable, promisable } from './promise.calc.js';
import type { Item, Need } from './stock.schemas.js';

/** An item of which there is not enough yet, and what is to be done about it. */
export interface StockReason extends Judged {
  item: string;
  /** How more of it comes; null when it does not. */
  action: 'mix' | 'order' | null;
  /** What it goes into, when it is an ingredient of something to be mixed. */
  into: string | null;
  /** Why it cannot be had. */
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
  const told = new Map<PlannedReceipt, StockReason[]>();
  for (const ahead of horizon.items.values())
    for (const { key, heldFor } of ahead.needs.values()) {
      if (heldFor === null) continue;
      const known = reasons.get(heldFor) ?? [];
      known.push(...reasonsOf(horizon, ahead, key, null, told));
      reasons.set(heldFor, known);
    }
  return new Map([...reasons].map(([heldFor, found]) => [heldFor, outlookOf(found)]));
}

/** What is to be done for one need as it is planned; nothing when bottles or orders on their way give it. */
export function reasonsOf(
  horizon: Horizon,
  { item, plannedFor, shortFor }: ItemAhead,
  needKey: string,
  into: Item | null,
  told?: Map<PlannedReceipt, StockReason[]>,
): StockReason[] {
  const short = shortFor.get(needKey);
  const planned = (plannedFor.get(needKey) ?? []).flatMap((one) => {
    const reasons = told?.get(one) ?? reasonsOfPlanned(horizon, item, one, into);
    told?.set(one, reasons);
    return reasons;
  });
  return [...(short ? [cannot(item, short.reason, into)] : []), ...planned];
}

function reasonsOfPlanned(
  horizon: Horizon,
  item: Item,
  planned: PlannedReceipt,
  into: Item | null,
): StockReason[] {
  const takes = horizon.items.get(item.id)?.mixing?.takes ?? [];
  const ingredients = takes.flatMap(({ itemId }) => {
    const raw = horizon.items.get(itemId);
    return raw ? reasonsOf(horizon, raw, batchKey(item.id, planned), item) : [];
  });
  return [doBy(horizon, item, planned.releaseOn, into), ...ingredients];
}

/** How it would stand with a day if its needs were promised, asked of many days and places in turn. */
export class IfPromised {
  private readonly known = new Map<string, Planned>();
  private readonly tried = new Map<string, Trial>();

  constructor(private readonly horizon: Horizon) {}

  /** Items that are not on the shelf at all are left out; the same needs of other days do not count. */
  on(day: Temporal.PlainDate, needs: readonly Need[]): Outlook {
    // ingredients that several solutions share are asked for together
    const asked = new Map<string, bigint>();
    return outlookOf(
      needs.flatMap((need) => {
        const ahead = this.horizon.items.get(need.itemId);
        return ahead && need.quantity > 0n ? this.reasons(ahead, need, day, null, asked) : [];
      }),
    );
  }

  private reasons(
    ahead: ItemAhead,
    { quantity, class: of = 'any' }: Pick<Need, 'quantity' | 'class'>,
    day: Temporal.PlainDate,
    into: Item | null,
    asked: Map<string, bigint>,
  ): StockReason[] {
    const { item, mixing } = ahead;
    const { today } = this.horizon;
    const all = quantity + (asked.get(item.id) ?? 0n);
    asked.set(item.id, all);
    if (mayPromise(this.planned(ahead).promises, day, all)) return [];
    const trial = this.try(ahead, { key: '', day, quantity: all, class: of, chosenLotId: null });
    if (trial.first === null) return [];
    const planned = trial.leftOver;
    if (planned) return reasonsOfPlanned(this.horizon, item, planned, into);
    const by = lastChance(supplyOf(item), trial.first);
    if (by === null) return [cannot(item, 'never comes', into)];
    if (dayNumber(by) < dayNumber(today)) return [cannot(item, 'too late', into)];
    if (trial.overLimit) return [cannot(item, 'over the limit', into)];
    const takes = mixing ? ingredientsOf(mixing, inBatches(trial.missing, ahead)) : [];
    const ingredients = takes.flatMap((one) => {
      const raw = this.horizon.items.get(one.itemId);
      return raw ? this.reasons(raw, one, by, item, asked) : [];
    });
    return [doBy(this.horizon, item, by, into), ...ingredients];
  }

  private planned(ahead: ItemAhead): Planned {
    const known = this.known.get(ahead.item.id) ?? plannedOf(ahead, this.horizon.today);
    this.known.set(ahead.item.id, known);
    return known;
  }

  private try(ahead: ItemAhead, need: PlanNeed): Trial {
    const key = `${ahead.item.id} ${need.day} ${need.quantity} ${need.class}`;
    const known = this.tried.get(key) ?? trialOf(ahead, this.planned(ahead), need, this.horizon.today);
    this.tried.set(key, known);
    return known;
  }
}

/** What an item's plan says to one who asks for more. */
interface Planned {
  promises: Promisable;
  /** What bottles and orders on their way do not give, by need. */
  missing: Map<string, bigint>;
  /** What is given of each lot. */
  used: Map<string, bigint>;
}

function plannedOf({ onHand, onTheWay, netted, needs }: ItemAhead, today: Temporal.PlainDate): Planned {
  const ids = new Set(netted.planned.map(({ id }) => id));
  const missing = new Map(netted.short.map((one) => [one.needKey, one.quantity]));
  const used = new Map<string, bigint>();
  for (const { needKey, lotId, quantity } of netted.given) {
    if (ids.has(lotId)) missing.set(needKey, (missing.get(needKey) ?? 0n) + quantity);
    used.set(lotId, (used.get(lotId) ?? 0n) + quantity);
  }
  const given = netted.given.filter(({ lotId }) => !ids.has(lotId));
  const promises = promisable([...onHand, ...onTheWay], given, (key) => needs.get(key)?.day, today);
  return { promises, missing, used };
}

interface Trial {
  /** The first day on which anybody has less than before, the one who asks with them; null when nobody has. */
  first: Temporal.PlainDate | null;
  /** How much less in all. */
  missing: bigint;
  /** A batch or an order that is planned already, and will have enough left over. */
  leftOver: PlannedReceipt | null;
  overLimit: boolean;
}

/** What bottles and orders on their way would give if this need were planned with the others. */
function trialOf(
  ahead: ItemAhead,
  { missing: before, used }: Planned,
  need: PlanNeed,
  today: Temporal.PlainDate,
): Trial {
  const { onHand, onTheWay, needs, netted, rule } = ahead;
  const gives = [...onHand, ...onTheWay].some((lot) => lot.usable > 0n && usableOn(lot, need.day));
  let first: Temporal.PlainDate | null = need.day;
  let missing = need.quantity;
  if (gives) {
    const unhelped = { ...rule, leadDays: null };
    const more = net([...needs.values(), need], ahead, unhelped, today)
      .short.map((one) => ({ day: one.day, quantity: one.quantity - (before.get(one.needKey) ?? 0n) }))
      .filter(({ quantity }) => quantity > 0n)
      .sort((a, b) => dayNumber(a.day) - dayNumber(b.day));
    first = more[0]?.day ?? null;
    missing = more.reduce((sum, { quantity }) => sum + quantity, 0n);
  }
  const enough = netted.plannedLots.findIndex(
    (lot) => first !== null && usableOn(lot, first) && lot.usable - (used.get(lot.id) ?? 0n) >= missing,
  );
  const leftOver = netted.planned[enough] ?? null;
  return { first, missing, leftOver, overLimit: leftOver === null && overLimit(ahead, need, today) };
}

/** Whether the most that may be on hand is in the way. */
function overLimit(ahead: ItemAhead, need: PlanNeed, today: Temporal.PlainDate): boolean {
  if (ahead.rule.most === null) return false;
  const over = (short: ItemAhead['netted']['short']) =>
    short.reduce((sum, one) => (one.reason === 'over the limit' ? sum + one.quantity : sum), 0n);
  const { short } = net([...ahead.needs.values(), need], ahead, ahead.rule, today);
  return over(short) > over(ahead.netted.short);
}

/** So much, in whole batches. */
function inBatches(quantity: bigint, { rule }: ItemAhead): bigint {
  const filled = (quantity > rule.leastUsable ? quantity : rule.leastUsable) + rule.heel;
  const size = rule.lotSize ?? 1n;
  return ((filled + size - 1n) / size) * size;
}

function doBy({ today }: Horizon, item: Item, by: Temporal.PlainDate, into: Item | null): StockReason {
  const action = item.ripenDays === null ? 'order' : 'mix';
  const near = today.until(by).days <= ALARM_DAYS;
  const state: StockState = near ? `${action} by` : 'nothing to do yet';
  return { item: item.name, state, by, action, into: into?.name ?? null, why: null };
}

const cannot = (item: Item, why: ShortReason, into: Item | null): StockReason => ({
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
    const key = `${one.item} ${one.state}`;
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
