// Plates that were typed in, for tests that want a row of everything about them.
import { Temporal } from 'temporal-polyfill';
import type { Tx } from '../../src/platform/db/tx.js';
import { MadeStore } from '../../src/plates/made.store.js';
import { SettledStore } from '../../src/stock/settled.store.js';
import type { TestStudio } from './studio.js';

export const MADE_DAY = Temporal.PlainDate.from('2026-11-20');
export const MADE_ID = '00000000-0000-4000-8000-00000000f001';
export const SERIES_ID = '00000000-0000-4000-8000-00000000f002';

/** One plate of a series with what it took, where the book stands, its line in a bath's ledger, and a settled day. */
export async function typeSomethingIn(
  tx: Tx,
  studio: TestStudio,
  { sittingId, bathId }: { sittingId: string; bathId: string },
): Promise<void> {
  const store = new MadeStore();
  const one = { lotId: studio.lots.fixer, quantity: 1n };
  await tx.run('insert into series (studio_id, series_id, name) values ($1, $2, $3)', [
    tx.studioId,
    SERIES_ID,
    'Ropemakers',
  ]);
  await store.begin(tx, 2);
  const said = { seconds: 6, sky: 'clear', lotId: null, bathId, result: '', note: '', names: '' } as const;
  const plate = { id: MADE_ID, number: 1, day: MADE_DAY, sittingId, plateId: null, keeper: true };
  const series = { seriesId: SERIES_ID, seriesNumber: 1 };
  const by = { plateSizeId: studio.sizes.whole.id, who: 'Isaura Fenwick', struckAt: null };
  await store.insert(tx, { ...plate, ...said, ...series, ...by }, Temporal.Instant.from('2026-11-20T18:00Z'));
  await store.setTook(tx, [MADE_ID], [{ madeId: MADE_ID, ...one }]);
  const sql = 'select event_id from bath_event where studio_id = $1 and bath_id = $2 limit 1';
  await tx.run(
    `insert into day_poured (studio_id, day, bath_id, event_id) select $1, $3, $2, event_id from (${sql}) as e`,
    [tx.studioId, bathId, MADE_DAY],
  );
  await new SettledStore().add(tx, MADE_DAY, sittingId, [one]);
}
