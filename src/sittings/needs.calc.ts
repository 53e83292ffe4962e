// What a sitting asks of the shelf: the chemistry estimate of its plates, matched to the studio's items.
import { estimateNeeds, quantitiesToReserve, type ReserveChoice } from '../chemistry/estimate.calc.js';
import type { OwnFigures } from '../chemistry/learning.calc.js';
import type { Item, Need, PlateSize } from '../stock/stock.schemas.js';
import type { Plate } from './sittings.schemas.js';

/**
 * Glass by the size of each plate, solutions by their area, each with the spare tries of the studio's choice,
 * by the figures the studio has learned.
 * An item the studio does not keep is not asked for; of several of one kind, the first by name serves.
 */
export function needsOf(
  plates: readonly Pick<Plate, 'plateSizeId'>[],
  sizes: readonly PlateSize[],
  items: readonly Item[],
  choice: ReserveChoice,
  { use, attempts }: Pick<OwnFigures, 'use' | 'attempts'>,
): Need[] {
  const wanted = plates.flatMap(({ plateSizeId }) => {
    const size = sizes.find((one) => one.id === plateSizeId);
    return size ? [{ sizeId: size.id, widthMm: size.widthMm, heightMm: size.heightMm, keepers: 1 }] : [];
  });
  if (wanted.length === 0) return [];
  const reserve = quantitiesToReserve(estimateNeeds(wanted, use, attempts.sittings), choice);
  const glass = reserve.glass.flatMap(({ sizeId, sheets }) => {
    const item = items.find((one) => one.kind === 'glass' && one.plateSizeId === sizeId);
    return item ? [{ itemId: item.id, quantity: sheets }] : [];
  });
  const solutions = Object.entries(reserve.solutions).flatMap(([kind, quantity]) => {
    const item = items.find((one) => one.kind === kind);
    return item ? [{ itemId: item.id, quantity }] : [];
  });
  return [...glass, ...solutions];
}
