// The one rule by which stock is set aside: which bottle, batch or box each need is taken from. The shelf,
// approvals and the look ahead all plan by it. It knows no units and moves nothing.
import type { Temporal } from 'temporal-polyfill';
import type { AskedClass, Item, Lot, LotClass } from './stock.schemas.js';

export interface PlanNeed {
  /** Its own among the needs planned together. */
  key: string;
  day: Temporal.PlainDate;
  quantity: bigint;
  class: AskedClass;
  /** The bottle that the owner chose for it. */
  chosenLotId: string | null;
}

export interface PlanLot {
  id: string;
  /** What of it may be given, in the item's unit. */
  usable: bigint;
  usableFrom: Temporal.PlainDate;
  /** Last day of use; null when it does not run out. */
  usableUntil: Temporal.PlainDate | null;
  class: LotClass;
}

export interface Plan {
  fromLots: { needKey: string; lotId: string; quantity: bigint }[];
  /** What the lots cannot give; a need that they can give has no line. */
  missing: { needKey: string; quantity: bigint }[];
}

/** Which class is taken before which, by what is asked for. Common practice, no source. */
const CLASSES: Record<AskedClass, readonly LotClass[]> = {
  fresh: ['fresh', 'ordinary', 'old'],
  any: ['ordinary', 'old', 'fresh'],
  old: ['old', 'ordinary', 'fresh'],
};

/**
 * What of a bottle can be poured: nothing unless it is good; what is in it less its heel; nothing where that is
 * less than the least pour.
 */
export function usableOf(
  { onHand, state }: Pick<Lot, 'onHand' | 'state'>,
  { heel, leastPour }: Pick<Item, 'heel' | 'leastPour'>,
): bigint {
  const above = onHand - heel;
  return state !== 'good' || above < leastPour || above < 0n ? 0n : above;
}

/** Whether a lot can be used on a day, both ends included. */
export function usableOn(
  { usableFrom, usableUntil }: Pick<PlanLot, 'usableFrom' | 'usableUntil'>,
  day: Temporal.PlainDate,
): boolean {
  const at = dayNumber(day);
  return dayNumber(usableFrom) <= at && at <= lastDay(usableUntil);
}

/**
 * Plans the needs of one item over its lots. First the bottles that the owner chose, as far as they serve; then
 * day after day the earliest first, equal days by key: the class asked for before others, and within a class
 * first expiring first, those without an end last, equal ends by id. The same input gives the same plan.
 * Of lots of one class with nothing chosen no plan gives more in all. Needs of nothing are left out.
 */
export function planItem(needs: readonly PlanNeed[], lots: readonly PlanLot[]): Plan {
  const ranked = lots
    .filter((lot) => lot.usable > 0n)
    .map((lot) => ({
      id: lot.id,
      class: lot.class,
      from: dayNumber(lot.usableFrom),
      until: lastDay(lot.usableUntil),
      left: lot.usable,
    }))
    .sort((a, b) => a.until - b.until || compare(a.id, b.id));
  const inOrder = { fresh: byClass('fresh'), any: byClass('any'), old: byClass('old') };
  const due = needs
    .filter((need) => need.quantity > 0n)
    .map((need) => ({ need, at: dayNumber(need.day), left: need.quantity }))
    .sort((a, b) => a.at - b.at || compare(a.need.key, b.need.key));
  const fromLots: Plan['fromLots'] = [];

  for (const one of due) {
    const chosen = one.need.chosenLotId && ranked.find((lot) => lot.id === one.need.chosenLotId);
    if (chosen) give(one, chosen);
  }
  for (const one of due)
    for (const lot of inOrder[one.need.class]) {
      if (one.left === 0n) break;
      give(one, lot);
    }
  const missing = due
    .filter((one) => one.left > 0n)
    .map(({ need, left }) => ({ needKey: need.key, quantity: left }));
  return { fromLots, missing };

  function byClass(asked: AskedClass) {
    return CLASSES[asked].flatMap((wanted) => ranked.filter((lot) => lot.class === wanted));
  }

  function give(one: (typeof due)[number], lot: (typeof ranked)[number]): void {
    if (lot.left === 0n || one.at < lot.from || one.at > lot.until) return;
    const quantity = lot.left < one.left ? lot.left : one.left;
    lot.left -= quantity;
    one.left -= quantity;
    fromLots.push({ needKey: one.need.key, lotId: lot.id, quantity });
  }
}

/** How more of an item comes, in days: mixed here (ready after ripening), bought (lead time), or neither. */
export interface Supply {
  leadDays: number | null;
  ripenDays: number | null;
}

/** The lead time is the item's own, else its supplier's. */
export const supplyOf = ({ ripenDays, leadDays, supplierLeadDays }: Item): Supply => ({
  ripenDays,
  leadDays: leadDays ?? supplierLeadDays,
});

/** The last day on which what is needed on a day can be begun; null when more of it never comes. */
export function lastChance({ leadDays, ripenDays }: Supply, day: Temporal.PlainDate) {
  const days = ripenDays ?? leadDays;
  return days === null ? null : day.subtract({ days });
}

/**
 * What of the missing can neither be given by what is on its way nor be mixed or ordered in time, by need.
 * `onTheWay` are orders not yet arrived, as lots usable from the day they are expected.
 */
export function cannotBeHad(
  missing: readonly PlanNeed[],
  onTheWay: readonly PlanLot[],
  supply: Supply,
  today: Temporal.PlainDate,
): Map<string, bigint> {
  const days = new Map(missing.map((need) => [need.key, need.day]));
  const late = planItem(missing, onTheWay).missing.filter(({ needKey }) => {
    const day = days.get(needKey);
    const chance = day && lastChance(supply, day);
    return !chance || dayNumber(chance) < dayNumber(today);
  });
  return new Map(late.map(({ needKey, quantity }) => [needKey, quantity]));
}

/** Days as numbers in their order, so that each is read once; the day after all others for no end. */
export const dayNumber = ({ year, month, day }: Temporal.PlainDate) => (year * 100 + month) * 100 + day;
const lastDay = (until: Temporal.PlainDate | null) =>
  until === null ? Number.MAX_SAFE_INTEGER : dayNumber(until);
const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);
