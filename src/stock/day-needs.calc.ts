// What a studio day takes beside its sittings: its test plates, each tried once, and the owner's list of materials.
import { estimateNeeds, quantitiesToReserve } from '../chemistry/estimate.calc.js';
import type { UsePerArea } from '../chemistry/use-per-area.calc.js';
import type { DayTakes } from './preparation.schemas.js';
import type { Item, Need, PlateSize } from './stock.schemas.js';
import { usualOf } from './usual.calc.js';

/** A test plate is a test whether it comes out or not. */
const ONE_TRY = { keeperShare: 1, stopAfter: 1, source: 'A test plate is not made again.' };

/** One need an item. What the studio does not keep is not asked for; of several of one kind the usual one serves. */
export function dayNeeds(
  takes: DayTakes,
  sizes: readonly PlateSize[],
  items: readonly Item[],
  use: UsePerArea,
): Need[] {
  const needs = new Map<string, bigint>();
  const add = (itemId: string | undefined, quantity: bigint) => {
    if (itemId !== undefined && quantity > 0n) needs.set(itemId, (needs.get(itemId) ?? 0n) + quantity);
  };
  const size = sizes.find((one) => one.id === takes.testSizeId);
  if (size && takes.testPlates > 0) {
    const tests = { widthMm: size.widthMm, heightMm: size.heightMm, keepers: takes.testPlates };
    const { glass, solutions } = quantitiesToReserve(estimateNeeds([tests], use, ONE_TRY), 'likely');
    const sheets = glass.reduce((sum, one) => sum + one.sheets, 0n);
    add(usualOf(items, 'glass', size.id)?.id, sheets);
    for (const [kind, quantity] of Object.entries(solutions)) add(usualOf(items, kind)?.id, quantity);
  }
  for (const { itemId, quantity } of takes.materials)
    if (items.some((one) => one.id === itemId && !one.archived)) add(itemId, quantity);
  return [...needs].map(([itemId, quantity]) => ({ itemId, quantity }));
}
