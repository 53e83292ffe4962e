// What typed plates took of which bottle and box: a sheet of glass each, and solutions by the studio's figures for its
// area. It knows nothing of what was set aside or told before.
import { estimateNeeds, quantitiesToReserve } from '../chemistry/estimate.calc.js';
import type { UsePerArea } from '../chemistry/use-per-area.calc.js';
import type { Item, PlateSize } from '../stock/stock.schemas.js';
import { usualOf } from '../stock/usual.calc.js';
import type { Made, SaidPlate } from './made.schemas.js';

/** One plate, tried once. */
const ONE_TRY = { keeperShare: 1, stopAfter: 1, source: 'The plate was typed in: it was tried once.' };

export interface Want {
  itemId: string;
  quantity: bigint;
  /** From this bottle first; null: none is named. */
  lotId: string | null;
}

/**
 * What one plate took: glass of its size, and of each solution what its area takes by the likely figure. Varnish goes on
 * plates that are kept only (common practice, no source). What the studio does not keep is not asked for; of several of
 * one kind the usual one serves, unless the bottle is named.
 */
export function wantsOf(
  plate: Pick<SaidPlate, 'plateSizeId' | 'keeper' | 'lotId'>,
  sizes: readonly PlateSize[],
  items: readonly Item[],
  bottle: { itemId: string } | null,
  use: UsePerArea,
): Want[] {
  const size = sizes.find((one) => one.id === plate.plateSizeId);
  if (!size) return [];
  const wanted = { sizeId: size.id, widthMm: size.widthMm, heightMm: size.heightMm, keepers: 1 };
  const { solutions } = quantitiesToReserve(estimateNeeds([wanted], use, ONE_TRY), 'likely');
  const want = (itemId: string | undefined, quantity: bigint, lotId: string | null = null): Want[] =>
    itemId === undefined || quantity <= 0n ? [] : [{ itemId, quantity, lotId }];
  return [
    ...want(usualOf(items, 'glass', size.id)?.id, 1n),
    ...Object.entries(solutions).flatMap(([kind, quantity]) => {
      if (kind === 'varnish' && !plate.keeper) return [];
      if (kind === 'collodion' && bottle) return want(bottle.itemId, quantity, plate.lotId);
      return want(usualOf(items, kind)?.id, quantity);
    }),
  ];
}

/** A bottle or box as far as it can have given anything; in the order in which they are asked. */
export interface Giving {
  lotId: string;
  itemId: string;
  left: bigint;
}

/**
 * Shares wants out over lots, one after the other: first the bottle that is named, then in the order given. What no lot
 * has by the book is left out: the shelf is not made to hold less than nothing.
 */
export function allot<K extends string>(
  wants: readonly { key: K; wants: readonly Want[] }[],
  giving: readonly Giving[],
): { key: K; lotId: string; quantity: bigint }[] {
  const left = new Map(giving.map((one) => [one.lotId, one.left]));
  return wants.flatMap(({ key, wants: all }) => {
    const given = new Map<string, bigint>();
    for (const want of all) {
      let missing = want.quantity;
      const own = giving.filter((one) => one.itemId === want.itemId);
      const named = own.filter((one) => one.lotId === want.lotId);
      for (const { lotId } of [...named, ...own]) {
        const there = left.get(lotId) ?? 0n;
        const taken = there < missing ? there : missing;
        if (taken <= 0n) continue;
        left.set(lotId, there - taken);
        given.set(lotId, (given.get(lotId) ?? 0n) + taken);
        missing -= taken;
      }
    }
    return [...given].map(([lotId, quantity]) => ({ key, lotId, quantity }));
  });
}

/** Whether a correction, or striking, changes what a plate took. */
export function takesOtherwise(was: Made | undefined, is: Made): boolean {
  if (!was) return is.struckAt === null;
  if ((was.struckAt === null) !== (is.struckAt === null)) return true;
  return (
    is.struckAt === null &&
    (was.plateSizeId !== is.plateSizeId || was.keeper !== is.keeper || was.lotId !== is.lotId)
  );
}

type OfLot = { lotId: string; quantity: bigint };

/** By how much more, or less, is taken of each lot now than before. */
export function differencesOf(
  before: readonly OfLot[],
  now: readonly OfLot[],
): { lotId: string; by: bigint }[] {
  const by = new Map<string, bigint>();
  for (const { lotId, quantity } of now) by.set(lotId, (by.get(lotId) ?? 0n) + quantity);
  for (const { lotId, quantity } of before) by.set(lotId, (by.get(lotId) ?? 0n) - quantity);
  return [...by].filter(([, much]) => much !== 0n).map(([lotId, much]) => ({ lotId, by: much }));
}
