// Arithmetic of plates that were typed in: what a correction changes, and what a day's plates add up to.
import type { TriedPlates } from '../chemistry/actuals.schemas.js';
import { plateAreaUm2 } from '../chemistry/plate-sizes.calc.js';
import type { PlateSize } from '../stock/stock.schemas.js';
import type { Made, SaidPlate } from './made.schemas.js';

const SAID = [
  'sittingId',
  'plateId',
  'plateSizeId',
  'keeper',
  'seconds',
  'sky',
  'lotId',
  'bathId',
  'result',
  'note',
  'names',
  'seriesId',
] as const satisfies (keyof SaidPlate)[];

/** Whether something else is said of a plate than stands in the book. */
export const saysOtherwise = (was: Made, said: SaidPlate): boolean =>
  SAID.some((key) => was[key] !== said[key]);

export const counting = (plates: readonly Made[]): Made[] => plates.filter((one) => one.struckAt === null);

/** All that is said of some plates, in one text that differs when anything does. */
export const inOneText = (plates: readonly Made[]): string =>
  JSON.stringify(
    plates.map((one) => [one.id, one.number, ...SAID.map((key) => one[key]), one.struckAt?.toString() ?? '']),
  );

/**
 * Tries and kept plates of a day by size, for the studio's own figures: plates of sitters only, since a test plate is a
 * test whether it comes out or not. In the order of the sizes.
 */
export function talliesOf(plates: readonly Made[], sizes: readonly PlateSize[]): TriedPlates[] {
  const counted = counting(plates).filter((one) => one.sittingId !== null);
  return sizes.flatMap(({ id, widthMm, heightMm }) => {
    const own = counted.filter((one) => one.plateSizeId === id);
    if (own.length === 0) return [];
    const keepers = own.filter((one) => one.keeper).length;
    return [{ plateSizeId: id, areaUm2: plateAreaUm2(widthMm, heightMm), tries: own.length, keepers }];
  });
}

/** Whether two tallies say the same, in whatever order. */
export function sameTallies(one: readonly TriedPlates[], other: readonly TriedPlates[]): boolean {
  const words = (all: readonly TriedPlates[]) =>
    all
      .map(({ plateSizeId, tries, keepers }) => `${plateSizeId} ${tries} ${keepers}`)
      .sort()
      .join('\n');
  return words(one) === words(other);
}

/** Plates, and their area in square micrometres, that went through each bath; test plates too. */
export function poursOf(
  plates: readonly Made[],
  sizes: readonly PlateSize[],
): Map<string, { plates: number; area: bigint }> {
  const pours = new Map<string, { plates: number; area: bigint }>();
  for (const { bathId, plateSizeId } of counting(plates)) {
    const size = sizes.find((one) => one.id === plateSizeId);
    if (bathId === null || !size) continue;
    const before = pours.get(bathId) ?? { plates: 0, area: 0n };
    const area = before.area + plateAreaUm2(size.widthMm, size.heightMm);
    pours.set(bathId, { plates: before.plates + 1, area });
  }
  return pours;
}
