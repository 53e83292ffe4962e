// The whole shelf ahead: for every item what is needed when and what it is taken from, what must be mixed or
// ordered, and for what is mixed what goes into it. Reading it out (states, lists, charts) stands in other files.
import { Temporal } from 'temporal-polyfill';
import { ALARM_DAYS } from './allocation.calc.js';
import { ingredientsOf, type Mixing, mixings, parentsFirst, type Recipe } from './explosion.calc.js';
import { type Netted, type NettingRule, net, type PlannedReceipt, type Short } from './netting.calc.js';
import { type PlanLot, type PlanNeed, supplyOf } from './plan.calc.js';
import { asLot, type Expected, lotsToPlan } from './replan.calc.js';
import type { Held, Item, Lot } from './stock.schemas.js';

/** All that one place, or day, needs of one item and class. */
export type HeldNeed = Omit<Held, 'id' | 'lotId'>;

/** An order that has not come. */
export type OnTheWay = Expected & { receiptId: string; itemId: string };

export interface ShelfFacts {
  items: readonly Item[];
  /** Those that are not gone. */
  lots: readonly Lot[];
  /** What of each lot is set aside for days past. */
  past: ReadonlyMap<string, bigint>;
  /** For today and later. */
  needs: readonly HeldNeed[];
  onTheWay: readonly OnTheWay[];
  recipes: readonly Recipe[];
}

/** Somebody's need, or an ingredient's for a batch that is to be mixed. */
export interface NeedAhead extends PlanNeed {
  heldFor: string | null;
  batch: { itemId: string; planned: PlannedReceipt } | null;
}

export interface ItemAhead {
  item: Item;
  mixing: Mixing | null;
  needs: Map<string, NeedAhead>;
  onHand: PlanLot[];
  /** By their receipts' ids. */
  onTheWay: (PlanLot & { quantity: bigint })[];
  inAll: bigint;
  rule: NettingRule;
  netted: Netted;
  /** By the key of the need. */
  plannedFor: Map<string, PlannedReceipt[]>;
  shortFor: Map<string, Short>;
}

export interface Horizon {
  today: Temporal.PlainDate;
  /** In the order they were given. */
  items: Map<string, ItemAhead>;
}

/** Plans every item's needs, ingredients after what they go into. */
export function lookAhead(facts: ShelfFacts, today: Temporal.PlainDate): Horizon {
  const mixed = mixings(facts.items, facts.recipes);
  const needs = groupBy(facts.needs, (need) => need.itemId);
  const lots = groupBy(facts.lots, (lot) => lot.itemId);
  const coming = groupBy(facts.onTheWay, (one) => one.itemId);
  const asked = new Map<string, NeedAhead[]>();
  const found = new Map<string, ItemAhead>();
  for (const item of parentsFirst(facts.items, mixed)) {
    const mixing = mixed.get(item.id) ?? null;
    const own = lots.get(item.id) ?? [];
    const all = [...(needs.get(item.id) ?? []).map(heldNeed), ...(asked.get(item.id) ?? [])];
    const onHand = lotsToPlan({ item, lots: own, past: facts.past });
    const onTheWay = (coming.get(item.id) ?? []).map((one) => ({
      ...asLot(notPast(one, today), item, one.receiptId),
      quantity: one.quantity,
    }));
    const inAll = own.reduce((sum, lot) => sum + lot.onHand, 0n);
    const rule = ruleOf(item, mixing);
    const netted = net(all, { onHand, onTheWay, inAll }, rule, today);
    for (const planned of mixing ? netted.planned : [])
      for (const { itemId, quantity } of mixing ? ingredientsOf(mixing, planned.quantity) : []) {
        const batch = { itemId: item.id, planned };
        const need = {
          key: batchKey(item.id, planned),
          day: planned.releaseOn,
          quantity,
          heldFor: null,
          batch,
        };
        push(asked, itemId, { ...need, class: 'any', chosenLotId: null });
      }
    const known = new Map(all.map((need) => [need.key, need]));
    found.set(item.id, {
      item,
      mixing,
      needs: known,
      onHand,
      onTheWay,
      inAll,
      rule,
      netted,
      ...byNeed(netted),
    });
  }
  const inOrder = facts.items.flatMap(({ id }) => found.get(id) ?? []);
  return { today, items: new Map(inOrder.map((ahead) => [ahead.item.id, ahead])) };
}

/** What bottles and orders on their way do not give, by the key of the need. */
export function missingOf({ netted }: Pick<ItemAhead, 'netted'>): Map<string, bigint> {
  const ids = new Set(netted.planned.map(({ id }) => id));
  const missing = new Map(netted.short.map((one) => [one.needKey, one.quantity]));
  for (const { needKey, lotId, quantity } of netted.given)
    if (ids.has(lotId)) missing.set(needKey, (missing.get(needKey) ?? 0n) + quantity);
  return missing;
}

/** The key of the need that an ingredient has for a batch. */
export const batchKey = (itemId: string, { id }: PlannedReceipt) => `${itemId} ${id}`;

/**
 * How more of an item comes. It is mixed in whole batches of its formula, or ordered in whole packs; what falls
 * short within two weeks is taken together (assumption).
 */
export function ruleOf(item: Item, mixing: Mixing | null): NettingRule {
  const { leadDays, ripenDays } = supplyOf(item);
  const common = {
    heel: item.heel,
    leastUsable: item.leastPour,
    togetherDays: ALARM_DAYS,
    most: item.mostOnHand,
  };
  if (ripenDays === null)
    return {
      ...common,
      leadDays,
      lifeDays: item.lifeDays,
      lotSize: item.packQuantity,
      leastLots: item.leastPacks,
    };
  // a batch's life is counted from the day it is mixed
  const lifeDays = item.lifeDays === null ? null : Math.max(0, item.lifeDays - ripenDays);
  return {
    ...common,
    leadDays: ripenDays,
    lifeDays,
    lotSize: mixing?.recipe.batchQuantity ?? null,
    leastLots: 1,
  };
}

const heldNeed = ({ neededOn: day, ...need }: HeldNeed): NeedAhead => ({
  key: `${need.heldFor} ${day} ${need.class}`,
  day,
  quantity: need.quantity,
  class: need.class,
  chosenLotId: need.chosenLotId,
  heldFor: need.heldFor,
  batch: null,
});

/** What should have come already is hoped for today. */
const notPast = (one: Expected, today: Temporal.PlainDate): Expected =>
  Temporal.PlainDate.compare(one.expectedOn, today) < 0 ? { ...one, expectedOn: today } : one;

function byNeed({ given, planned, short }: Netted): Pick<ItemAhead, 'plannedFor' | 'shortFor'> {
  const byId = new Map(planned.map((one) => [one.id, one]));
  const plannedFor = new Map<string, PlannedReceipt[]>();
  for (const { needKey, lotId } of given) {
    const one = byId.get(lotId);
    if (one) push(plannedFor, needKey, one);
  }
  return { plannedFor, shortFor: new Map(short.map((one) => [one.needKey, one])) };
}

function groupBy<T>(all: readonly T[], keyOf: (one: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const one of all) push(groups, keyOf(one), one);
  return groups;
}

function push<T>(groups: Map<string, T[]>, key: string, one: T): void {
  const group = groups.get(key);
  if (group) group.push(one);
  else groups.set(key, [one]);
}
