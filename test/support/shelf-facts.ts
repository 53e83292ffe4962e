// A shelf for tests of the look ahead, in days counted from one day.
import { Temporal } from 'temporal-polyfill';
import type { Recipe } from '../../src/stock/explosion.calc.js';
import type { HeldNeed, ShelfFacts } from '../../src/stock/horizon.calc.js';
import {
  type AskedClass,
  type Item,
  type Lot,
  type NewItem,
  withExtras,
  withLotExtras,
} from '../../src/stock/stock.schemas.js';

export const TODAY = Temporal.PlainDate.from('2027-03-01');
export const on = (day: number) => TODAY.add({ days: day });
/** The day as a number again. */
export const dayOf = (date: Temporal.PlainDate) => TODAY.until(date).days;

const PLAIN = { unit: 'uL', plateSizeId: null, leadDays: null, ripenDays: null, lifeDays: null } as const;
const kinded = (id: string, change: Partial<NewItem>): Item => ({
  id,
  ...withExtras({ name: id, kind: 'chemical', ...PLAIN, ...change }),
});

/** Something bought; it comes in ten days unless said otherwise. */
export const bought = (id: string, change: Partial<NewItem> = {}): Item =>
  kinded(id, { leadDays: 10, ...change });
/** Something mixed by the formula of its name; usable after three days unless said otherwise. */
export const mixed = (id: string, change: Partial<NewItem> = {}): Item =>
  kinded(id, { kind: 'developer', ripenDays: 3, formulaId: `${id} formula`, ...change });

export const recipe = (id: string, batch: bigint, takes: Record<string, bigint>): Recipe => ({
  formulaId: `${id} formula`,
  batchQuantity: batch,
  lines: Object.entries(takes).map(([itemId, quantity]) => ({
    ingredient: itemId,
    substance: null,
    itemId,
    quantity,
    unit: 'uL',
  })),
});

let count = 0;
export const bottle = (
  itemId: string,
  onHand: bigint,
  days: { from?: number; until?: number | null } = {},
  change: Partial<Lot> = {},
): Lot => {
  const usableUntil = days.until === undefined || days.until === null ? null : on(days.until);
  const lot = { itemId, label: 'Bottle', usableFrom: on(days.from ?? 0), usableUntil };
  count += 1;
  return { id: `bottle ${count}`, ...withLotExtras(lot), onHand, reserved: 0n, ...change };
};

export const needs = (
  heldFor: string,
  day: number,
  quantities: Record<string, bigint>,
  asked: AskedClass = 'any',
): HeldNeed[] =>
  Object.entries(quantities).map(([itemId, quantity]) => ({
    heldFor,
    itemId,
    neededOn: on(day),
    class: asked,
    chosenLotId: null,
    quantity,
  }));

export const shelf = (facts: Partial<ShelfFacts>): ShelfFacts => ({
  items: [],
  lots: [],
  past: new Map(),
  needs: [],
  onTheWay: [],
  recipes: [],
  ...facts,
});
