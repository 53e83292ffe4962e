// Which plates may go on a list for an archive, and what such a list says. Everybody on a plate must have agreed that it,
// or a scan of it, is given to an archive; a plate with names on it whose people are not known may not go.
import type { SeenPlate } from './book.schemas.js';
import { namesOf } from './record.calc.js';

export const HANDED = ['plate', 'scan'] as const;
export type HandedAs = (typeof HANDED)[number];

export type MayGo =
  | { ok: true }
  | { ok: false; reason: 'struck' | 'not kept' | 'people not known' }
  /** Who never said yes, and who took it back. */
  | { ok: false; reason: 'no consent'; asked: string[]; takenBack: string[] };

export function mayGo({ plate, on }: SeenPlate): MayGo {
  if (plate.struckAt) return { ok: false, reason: 'struck' };
  if (!plate.keeper) return { ok: false, reason: 'not kept' };
  if (on.length === 0)
    return plate.sittingId === null && plate.names === ''
      ? { ok: true }
      : { ok: false, reason: 'people not known' };
  const named = (state: 'asked' | 'taken back') =>
    on.filter((one) => one.archive.state === state).map((one) => one.name);
  const [asked, takenBack] = [named('asked'), named('taken back')];
  return asked.length + takenBack.length === 0
    ? { ok: true }
    : { ok: false, reason: 'no consent', asked, takenBack };
}

export const LIST_HEADS = ['plate', 'given as', 'day', 'names', 'series', 'series number', 'size'] as const;

/** The cells of a line of the list, as LIST_HEADS names them. */
export const listCells = ({ plate, on }: SeenPlate, as: HandedAs): string[] => [
  String(plate.number),
  as,
  plate.day.toString(),
  namesOf(plate, on),
  plate.series?.name ?? '',
  plate.series ? String(plate.series.number) : '',
  plate.size,
];
