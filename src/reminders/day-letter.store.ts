// SQL of when the owner's letter goes.
import type { Tx } from '../platform/db/tx.js';
import { type DayLetterRule, dayLetterRow } from './day-letter.schemas.js';

export class DayLetterStore {
  /** Null where the studio never saved any. */
  async rule(tx: Tx): Promise<DayLetterRule | null> {
    const row = await tx.maybe(dayLetterRow, 'select hour, is_on from day_letter_rule where studio_id = $1', [
      tx.studioId,
    ]);
    return row && { hour: row.hour, on: row.is_on };
  }

  async save(tx: Tx, { hour, on }: DayLetterRule): Promise<void> {
    await tx.run(
      `insert into day_letter_rule (studio_id, hour, is_on) values ($1, $2, $3)
       on conflict (studio_id) do update set hour = excluded.hour, is_on = excluded.is_on`,
      [tx.studioId, hour, on],
    );
  }
}
