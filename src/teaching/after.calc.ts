// What a class took of which bottle, and what its day tells the studio's own figures. Pure.
import type { TriedPlates } from '../chemistry/actuals.schemas.js';
import { USED, type Used } from '../chemistry/learning.calc.js';
import { plateAreaUm2 } from '../chemistry/plate-sizes.calc.js';
import type { Lot, PlateSize } from '../stock/stock.schemas.js';
import type { ClassRecord, HeldBottle, MadePlates } from './after.schemas.js';

export interface Took {
  held: readonly HeldBottle[];
  /** Of whom what was set aside counts as not used. */
  absent: ReadonlySet<string>;
  /** What was measured or counted, by item; it goes before what was reckoned. */
  told: ReadonlyMap<string, bigint>;
  /** As they are now, nothing of the class taken out; those of the items concerned. */
  lots: readonly Lot[];
}

export type Taken =
  | { ok: true; used: { lotId: string; quantity: bigint }[] }
  | { ok: false; reason: 'not so much in it'; itemId: string };

/**
 * An item that was told is taken as told: of the bottles that were set aside first, in their order, up to what was set
 * aside of each, then what else is in them, then the item's other bottles. Of the rest what was set aside for those who
 * came is taken, as far as it is in the bottle. Nothing is ever taken twice.
 */
export function takenOf({ held, absent, told, lots }: Took): Taken {
  const taken = new Map<string, bigint>();
  const take = (lot: Lot, most: bigint): bigint => {
    const already = taken.get(lot.id) ?? 0n;
    const there = lot.onHand - already;
    const quantity = most < there ? most : there;
    if (quantity > 0n) taken.set(lot.id, already + quantity);
    return quantity > 0n ? quantity : 0n;
  };
  for (const one of held) {
    const lot = lots.find(({ id }) => id === one.lotId);
    if (lot && !told.has(lot.itemId) && !absent.has(one.holder)) take(lot, one.quantity);
  }
  for (const [itemId, quantity] of told) {
    const own = lots.filter((lot) => lot.itemId === itemId);
    const setAside = own.filter(({ id }) => held.some(({ lotId }) => lotId === id));
    let left = quantity;
    for (const lot of setAside) {
      const kept = held.filter(({ lotId }) => lotId === lot.id).reduce((sum, one) => sum + one.quantity, 0n);
      left -= take(lot, left < kept ? left : kept);
    }
    for (const lot of [...setAside, ...own]) left -= take(lot, left);
    if (left > 0n) return { ok: false, reason: 'not so much in it', itemId };
  }
  return { ok: true, used: [...taken].map(([lotId, quantity]) => ({ lotId, quantity })) };
}

/** Plates of each size, all makers together; a size of which nothing was told is not among them. */
export function triesBySize(plates: readonly MadePlates[]): Map<string, { tries: number; keepers: number }> {
  const sizes = new Map<string, { tries: number; keepers: number }>();
  for (const { plateSizeId, tries, keepers } of plates) {
    const known = sizes.get(plateSizeId) ?? { tries: 0, keepers: 0 };
    sizes.set(plateSizeId, { tries: known.tries + tries, keepers: known.keepers + keepers });
  }
  return sizes;
}

/** Whether a record tells the figures anything. */
export const tellsFigures = ({ plates, used }: Pick<ClassRecord, 'plates' | 'used'>): boolean =>
  plates.some(({ tries }) => tries > 0) || Object.keys(used).length > 0;

/**
 * What the classes of one day tell together. What was used of a kind is told only where every class of the day that
 * made plates tells it: otherwise it would stand against plates it was not poured on.
 */
export function dayOfClasses(
  records: readonly Pick<ClassRecord, 'plates' | 'used'>[],
  sizes: readonly PlateSize[],
): { plates: TriedPlates[]; used: Partial<Record<Used, bigint>> } {
  const all = triesBySize(records.flatMap(({ plates }) => plates));
  const plates = sizes.flatMap(({ id, widthMm, heightMm }) => {
    const made = all.get(id);
    return made && made.tries > 0
      ? [{ plateSizeId: id, areaUm2: plateAreaUm2(widthMm, heightMm), ...made }]
      : [];
  });
  const making = records.filter(tellsFigures);
  const used: Partial<Record<Used, bigint>> = {};
  for (const what of USED)
    if (making.length > 0 && making.every((one) => one.used[what] !== undefined))
      used[what] = making.reduce((sum, one) => sum + (one.used[what] ?? 0n), 0n);
  return { plates, used };
}
