// Two days written down by a test studio's assistant: one of sittings, one of learners.
import { Temporal } from 'temporal-polyfill';
import { ActualsService } from '../../src/chemistry/actuals.service.js';
import { plateAreaUm2 } from '../../src/chemistry/plate-sizes.calc.js';
import type { Tx } from '../../src/platform/db/tx.js';
import type { TestHouse } from './house.js';
import type { TestStudio } from './studio.js';

/** A Friday with a record of its sittings. */
export const WRITTEN_DAY = Temporal.PlainDate.from('2026-11-20');

export async function writeDays(house: TestHouse, tx: Tx, { assistant, sizes }: TestStudio): Promise<void> {
  const actuals = house.app.get(ActualsService);
  const { id, widthMm, heightMm } = sizes.whole;
  const whole = { plateSizeId: id, areaUm2: plateAreaUm2(widthMm, heightMm) };
  await actuals.record(tx, assistant, {
    day: WRITTEN_DAY,
    madeBy: 'sittings',
    plates: [{ ...whole, tries: 6, keepers: 5 }],
    used: { collodion: 80_000n, developer: 420_000n, silver: 4_100n },
    note: 'Bright all day.',
  });
  await actuals.record(tx, assistant, {
    day: WRITTEN_DAY.subtract({ days: 2 }),
    madeBy: 'beginners',
    plates: [{ ...whole, tries: 12, keepers: 6 }],
    used: {},
    note: '',
  });
}
