// What changes of all that is set aside of one item when needs come or go or its bottles change: the rows that
// stay as they are are not among the changes. Days past are not planned any more; they wait to be recorded.
import type { Temporal } from 'temporal-polyfill';
import { cannotBeHad, type PlanLot, type PlanNeed, planItem, supplyOf, usableOf } from './plan.calc.js';
import type { Held, Item, Lot } from './stock.schemas.js';

/** A need that is entered now. */
export type Entered = Omit<Held, 'id' | 'lotId'>;

/** One row of what is set aside that is made (no id yet), changed, or dropped (to 0). */
export interface Change extends Omit<Held, 'id' | 'quantity'> {
  id: string | null;
  from: bigint;
  to: bigint;
}

/** What is ordered and has not come yet. */
export interface Expected {
  quantity: bigint;
  expectedOn: Temporal.PlainDate;
}

export interface ItemFacts {
  item: Item;
  /** As they are after the act. */
  lots: readonly Lot[];
  /** All of the item that is set aside for today and later. */
  held: readonly Held[];
  /** Whose needs go. */
  leaves?: string | undefined;
  /** What of each lot is set aside for days past. */
  past: ReadonlyMap<string, bigint>;
  expected: readonly Expected[];
  today: Temporal.PlainDate;
}

export interface Replanned {
  changes: Change[];
  /** The needs of which less can be had than before, whatever is done now. */
  worse: { heldFor: string; neededOn: Temporal.PlainDate }[];
}

/** A need is all of one place, day and class. */
const keyOf = ({ heldFor, neededOn, class: asked }: Pick<Held, 'heldFor' | 'neededOn' | 'class'>) =>
  `${heldFor} ${neededOn} ${asked}`;

/** Plans the item's needs anew, those entered now with them. */
export function replanItem(facts: ItemFacts, entered: readonly Entered[] = []): Replanned {
  const { item, held, expected, today } = facts;
  const needs = new Map<string, PlanNeed & { heldFor: string }>();
  for (const one of [...held.filter((row) => row.heldFor !== facts.leaves), ...entered]) {
    const key = keyOf(one);
    const { heldFor, neededOn: day, class: asked, chosenLotId } = one;
    const quantity = (needs.get(key)?.quantity ?? 0n) + one.quantity;
    needs.set(key, { key, heldFor, day, class: asked, chosenLotId, quantity });
  }
  const plan = planItem([...needs.values()], lotsToPlan(facts));

  const rows = new Map<string, Change>();
  for (const one of held)
    rows.set(`${keyOf(one)} ${one.lotId}`, { ...withoutQuantity(one), from: one.quantity, to: 0n });
  const planned = (needKey: string, lotId: string | null, quantity: bigint) => {
    const key = `${needKey} ${lotId}`;
    const need = needs.get(needKey);
    if (!need) return;
    const { heldFor, day: neededOn, class: asked, chosenLotId } = need;
    const known = rows.get(key);
    const made = { id: null, heldFor, itemId: item.id, lotId, neededOn, class: asked, chosenLotId, from: 0n };
    rows.set(key, { ...(known ?? made), to: (known?.to ?? 0n) + quantity });
  };
  for (const { needKey, lotId, quantity } of plan.fromLots) planned(needKey, lotId, quantity);
  for (const { needKey, quantity } of plan.missing) planned(needKey, null, quantity);
  const changes = [...rows.values()].filter(({ from, to }) => from !== to);

  const was = held.filter((one) => one.lotId === null);
  const onTheWay = expected.map((one, at) => asLot(one, item, String(at)));
  const late = (missing: { needKey: string; quantity: bigint }[]) =>
    cannotBeHad(
      missing.flatMap(({ needKey, quantity }) => {
        const need = needs.get(needKey);
        return need ? [{ ...need, quantity }] : [];
      }),
      onTheWay,
      supplyOf(item),
      today,
    );
  const before = late(was.map((one) => ({ needKey: keyOf(one), quantity: one.quantity })));
  const worse = [...late(plan.missing)]
    .filter(([key, quantity]) => quantity > (before.get(key) ?? 0n))
    .flatMap(([key]) => {
      const need = needs.get(key);
      return need ? [{ heldFor: need.heldFor, neededOn: need.day }] : [];
    });
  return { changes, worse };
}

/** The lots with what of them may be given to days from today on. */
export function lotsToPlan({ item, lots, past }: Pick<ItemFacts, 'item' | 'lots' | 'past'>): PlanLot[] {
  return lots.map((lot) => {
    const usable = usableOf(lot, item) - (past.get(lot.id) ?? 0n);
    const { id, usableFrom, usableUntil, class: kind } = lot;
    return { id, usable: usable < 0n ? 0n : usable, usableFrom, usableUntil, class: kind };
  });
}

/** An order as the lot it will be, of which the heel is not given either. */
export function asLot({ quantity, expectedOn }: Expected, item: Item, id: string): PlanLot {
  const { lifeDays } = item;
  const usable = usableOf({ onHand: quantity, state: 'good' }, item);
  const usableUntil = lifeDays === null ? null : expectedOn.add({ days: lifeDays });
  return { id, usable, usableFrom: expectedOn, usableUntil, class: 'ordinary' };
}

const withoutQuantity = ({ quantity: _, ...rest }: Held): Omit<Held, 'quantity'> => rest;
