// SQL of the record on the back of a plate: the owner's fields, and what is typed of each plate.
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import type { RecordField } from './record.calc.js';
import { fieldRow, toField } from './record.schemas.js';

export class RecordStore {
  /** Those put away included, in the owner's order; none where the studio goes by the usual ones. */
  async fields(tx: Tx): Promise<RecordField[]> {
    const sql = `select field_id, position, label, what, archived from record_field where studio_id = $1
      order by position, field_id`;
    return (await tx.many(fieldRow, sql, [tx.studioId])).map(toField);
  }

  async saveField(tx: Tx, { id, position, label, what, archived }: RecordField): Promise<void> {
    await tx.run(
      `insert into record_field (studio_id, field_id, position, label, what, archived) values ($1, $2, $3, $4, $5, $6)
       on conflict (studio_id, field_id) do update set position = $3, label = $4, what = $5, archived = $6`,
      [tx.studioId, id, position, label, what, archived],
    );
  }

  /** What is typed of some plates. */
  async entries(tx: Tx, madeIds: string[]): Promise<{ madeId: string; fieldId: string; value: string }[]> {
    const rows = await tx.many(
      z.object({ made_id: z.uuid(), field_id: z.uuid(), value: z.string() }),
      `select made_id, field_id, value from record_entry where studio_id = $1 and made_id = any($2::uuid[])
       order by made_id, field_id`,
      [tx.studioId, madeIds],
    );
    return rows.map((row) => ({ madeId: row.made_id, fieldId: row.field_id, value: row.value }));
  }

  /** '' takes it away. */
  async setEntry(tx: Tx, madeId: string, fieldId: string, value: string): Promise<void> {
    const of = [tx.studioId, madeId, fieldId];
    if (value === '')
      await tx.run('delete from record_entry where studio_id = $1 and made_id = $2 and field_id = $3', of);
    else
      await tx.run(
        `insert into record_entry (studio_id, made_id, field_id, value) values ($1, $2, $3, $4)
         on conflict (studio_id, made_id, field_id) do update set value = $4`,
        [...of, value],
      );
  }
}
