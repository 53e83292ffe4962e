// A formula scaled to the batch that is wanted: what to weigh and measure, for the bench card.
import { divide } from '../lib/units.js';

/** A line of a formula, in the unit its ingredient is measured in. */
export interface Line {
  quantity: bigint;
}

/**
 * Each line for a batch of `wanted` microlitres, to the nearest milligram, microlitre or piece, halves up; what is
 * above nothing stays at least one. Throws RangeError for a formula or a batch of nothing or less.
 */
export function scaleLines<L extends Line>(lines: readonly L[], batch: bigint, wanted: bigint): L[] {
  if (batch <= 0n || wanted <= 0n) throw new RangeError('A batch holds more than nothing.');
  return lines.map((line) => {
    const exact = divide(line.quantity * wanted, batch, 'nearest');
    return { ...line, quantity: exact === 0n && line.quantity > 0n ? 1n : exact };
  });
}
