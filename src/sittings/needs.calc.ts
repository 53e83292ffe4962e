// What a sitting asks of the shelf: the chemistry estimate of its plates, matched to the studio's items.
import { estimateNeeds, quantitiesToReserve, type ReserveChoice } from '../chemistry/estimate.calc.js';
import type { OwnFigures } from '../chemistry/learning.calc.js';
import type { Sitter } from '../people/people.schemas.js';
import type { AskedClass, Item, Need, PlateSize } from '../stock/stock.schemas.js';
import { usualOf } from '../stock/usual.calc.js';
import type { Plate } from './sittings.schemas.js';

/**
 * Glass by the size of each plate, solutions by their area, each with the spare tries of the studio's choice,
 * by the figures the studio has learned.
 * An item the studio does not keep, or not any more, is not asked for; of several of one kind, the usual
 * one serves. `collodion` is what is asked of its bottle.
 */
export function needsOf(
  plates: readonly Pick<Plate, 'plateSizeId'>[],
  sizes: readonly PlateSize[],
  items: readonly Item[],
  choice: ReserveChoice,
  { use, attempts }: Pick<OwnFigures, 'use' | 'attempts'>,
  collodion: AskedClass = 'any',
): Need[] {
  const wanted = plates.flatMap(({ plateSizeId }) => {
    const size = sizes.find((one) => one.id === plateSizeId);
    return size ? [{ sizeId: size.id, widthMm: size.widthMm, heightMm: size.heightMm, keepers: 1 }] : [];
  });
  if (wanted.length === 0) return [];
  const reserve = quantitiesToReserve(estimateNeeds(wanted, use, attempts.sittings), choice);
  const glass = reserve.glass.flatMap(({ sizeId, sheets }) => {
    const item = usualOf(items, 'glass', sizeId ?? null);
    return item ? [{ itemId: item.id, quantity: sheets }] : [];
  });
  const solutions = Object.entries(reserve.solutions).flatMap(([kind, quantity]) => {
    const item = usualOf(items, kind);
    if (!item) return [];
    return [
      { itemId: item.id, quantity, ...(kind === 'collodion' && collodion !== 'any' && { class: collodion }) },
    ];
  });
  return [...glass, ...solutions];
}

/** Children are made on a fresh and fast bottle; all others on any. Common practice, no source. */
export const bottleFor = (sitters: readonly Pick<Sitter, 'ageBand'>[]): AskedClass =>
  sitters.some(({ ageBand }) => ageBand !== 'adult') ? 'fresh' : 'any';
