// Plates in the book, written by SQL as typing in the day leaves them, for tests of reading them.
import { SystemRandom } from '../../src/platform/clock.js';
import type { TestHouse } from './house.js';
import type { TestStudio } from './studio.js';

export interface WrittenPlate {
  number: number;
  day?: string;
  sittingId?: string | null;
  plateId?: string | null;
  keeper?: boolean;
  names?: string;
  struck?: boolean;
  series?: { id: string; number: number };
}

const WRITE = `insert into plate_made (studio_id, made_id, number, day, sitting_id, plate_id, plate_size_id, keeper, seconds, sky,
    lot_id, result, note, names, series_id, series_number, typed_at, who, struck_at)
  values ($1, $2, $3, $4, $5, $6, $7, $8, 6, 'bright overcast', $9, 'clean', '', $10, $11, $12, $13, 'Isaura Fenwick', $14)`;

/** @returns the plate's id */
export async function writePlate(house: TestHouse, studio: TestStudio, one: WrittenPlate): Promise<string> {
  const id = new SystemRandom().id();
  const at = house.clock.now();
  await house.db.inStudio(studio.id, (tx) =>
    tx.run(WRITE, [
      studio.id,
      id,
      one.number,
      one.day ?? '2026-11-20',
      one.sittingId ?? null,
      one.plateId ?? null,
      studio.sizes.whole.id,
      one.keeper ?? true,
      studio.lots.collodion,
      one.names ?? '',
      one.series?.id ?? null,
      one.series?.number ?? null,
      at,
      one.struck ? at : null,
    ]),
  );
  return id;
}
