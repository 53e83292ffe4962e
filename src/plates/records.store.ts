// SQL of the list of plates, their records, the owner's fields, and labels.
import { z } from 'zod';
import type { Temporal } from 'temporal-polyfill';
import type { Tx } from '../platform/db/tx.js';
import {
  type Entry,
  entryRow,
  fieldRow,
  type LabelSize,
  labelSizeRow,
  type PlateFilter,
  type PlateRecord,
  type RecordField,
  recordRow,
  toField,
} from './records.schemas.js';

const RECORDS = `select p.made_id, p.number, p.day, p.sitting_id, coalesce(c.name, '') as contact, z.name as size, p.keeper,
    p.seconds, p.sky, coalesce(l.label, '') as bottle, coalesce(b.name, '') as bath, p.result, p.note, p.names,
    p.series_id, coalesce(s.name, '') as series_name, p.series_number, p.struck_at
  from plate_made p
  join plate_size z on z.studio_id = p.studio_id and z.plate_size_id = p.plate_size_id
  left join sitting t on t.studio_id = p.studio_id and t.sitting_id = p.sitting_id
  left join contact c on c.studio_id = t.studio_id and c.contact_id = t.contact_id
  left join lot l on l.studio_id = p.studio_id and l.lot_id = p.lot_id
  left join bath b on b.studio_id = p.studio_id and b.bath_id = p.bath_id
  left join series s on s.studio_id = p.studio_id and s.series_id = p.series_id
  where p.studio_id = $1`;

export class RecordsStore {
  /** A page of plates, the highest number first; struck ones stand among them. */
  async list(
    tx: Tx,
    filter: PlateFilter,
    page: { most: number; before: number | null },
  ): Promise<PlateRecord[]> {
    const number = /^\d{1,9}$/.test(filter.text) ? Number(filter.text) : null;
    return tx.many(
      recordRow,
      `${RECORDS} and ($2::int is null or p.number < $2)
         and ($3 = '' or p.number = $4 or strpos(lower(p.names), lower($3)) > 0 or strpos(lower(c.name), lower($3)) > 0)
         and ($5 = '' or p.series_id::text = $5)
         and ($6 = '' or p.keeper = ($6 = 'kept'))
       order by p.number desc limit $7`,
      [tx.studioId, page.before, filter.text, number, filter.seriesId, filter.kept, page.most],
    );
  }

  byNumber(tx: Tx, number: number): Promise<PlateRecord | null> {
    return tx.maybe(recordRow, `${RECORDS} and p.number = $2`, [tx.studioId, number]);
  }

  /** Some plates by id, or all that count of a day or of a series, by number. */
  some(
    tx: Tx,
    which: { ids?: string[]; day?: Temporal.PlainDate; seriesId?: string },
  ): Promise<PlateRecord[]> {
    return tx.many(
      recordRow,
      `${RECORDS} and (p.made_id = any($2::uuid[])
         or (p.struck_at is null and p.keeper and (p.day = $3 or p.series_id = $4))) order by p.number`,
      [tx.studioId, which.ids ?? [], which.day ?? null, which.seriesId ?? null],
    );
  }

  /** Those put away included, in the owner's order; none where the studio goes by the usual ones. */
  async fields(tx: Tx): Promise<RecordField[]> {
    const rows = await tx.many(
      fieldRow,
      'select * from record_field where studio_id = $1 order by position, label, field_id',
      [tx.studioId],
    );
    return rows.map(toField);
  }

  async saveField(tx: Tx, one: RecordField): Promise<void> {
    await tx.run(
      `insert into record_field (studio_id, field_id, position, label, what, archived) values ($1, $2, $3, $4, $5, $6)
       on conflict (studio_id, field_id) do update set position = $3, label = $4, what = $5, archived = $6`,
      [tx.studioId, one.id, one.position, one.label, one.what, one.archived],
    );
  }

  entries(tx: Tx, madeIds: string[]): Promise<Entry[]> {
    return tx.many(
      entryRow,
      `select made_id, field_id, value from record_entry where studio_id = $1 and made_id = any($2::uuid[])
       order by made_id, field_id`,
      [tx.studioId, madeIds],
    );
  }

  /** Puts these words in the place of those a plate had; '' is left out. */
  async setEntries(tx: Tx, madeId: string, values: ReadonlyMap<string, string>): Promise<void> {
    await tx.run('delete from record_entry where studio_id = $1 and made_id = $2', [tx.studioId, madeId]);
    for (const [fieldId, value] of values)
      if (value !== '')
        await tx.run(
          'insert into record_entry (studio_id, made_id, field_id, value) values ($1, $2, $3, $4)',
          [tx.studioId, madeId, fieldId, value],
        );
  }

  async setNames(tx: Tx, madeId: string, names: string): Promise<void> {
    await tx.run('update plate_made set names = $3 where studio_id = $1 and made_id = $2', [
      tx.studioId,
      madeId,
      names,
    ]);
  }

  /** Takes a plate for a change until the transaction ends. */
  async lock(tx: Tx, madeId: string): Promise<boolean> {
    const row = await tx.maybe(
      z.object({ made_id: z.uuid() }),
      'select made_id from plate_made where studio_id = $1 and made_id = $2 for no key update',
      [tx.studioId, madeId],
    );
    return row !== null;
  }

  async labelSize(tx: Tx): Promise<LabelSize | null> {
    const row = await tx.maybe(
      labelSizeRow,
      'select width_mm, height_mm from label_size where studio_id = $1',
      [tx.studioId],
    );
    return row && { widthMm: row.width_mm, heightMm: row.height_mm };
  }

  async saveLabelSize(tx: Tx, { widthMm, heightMm }: LabelSize): Promise<void> {
    await tx.run(
      `insert into label_size (studio_id, width_mm, height_mm) values ($1, $2, $3)
       on conflict (studio_id) do update set width_mm = $2, height_mm = $3`,
      [tx.studioId, widthMm, heightMm],
    );
  }
}
