// SQL of labels: the owner's sheet, and the plates that are to be printed.
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import type { LabelSheet } from './labels.calc.js';
import { type LabelQuery, MOST_LABELS, sheetRow, toSheet } from './labels.schemas.js';

export class LabelsStore {
  async sheet(tx: Tx): Promise<LabelSheet | null> {
    const sql = 'select paper, width, height, across, margin, gap from label_sheet where studio_id = $1';
    const row = await tx.maybe(sheetRow, sql, [tx.studioId]);
    return row && toSheet(row);
  }

  async saveSheet(tx: Tx, { paper, width, height, across, margin, gap }: LabelSheet): Promise<void> {
    const tenths = (mm: number) => Math.round(mm * 10);
    await tx.run(
      `insert into label_sheet (studio_id, paper, width, height, across, margin, gap) values ($1, $2, $3, $4, $5, $6, $7)
       on conflict (studio_id) do update set paper = $2, width = $3, height = $4, across = $5, margin = $6, gap = $7`,
      [tx.studioId, paper, tenths(width), tenths(height), across, tenths(margin), tenths(gap)],
    );
  }

  /** The ids of plates that are to be printed, struck ones left out; of a day or a series only those kept. */
  async wanted(tx: Tx, { plate, day, series }: LabelQuery): Promise<string[]> {
    const rows = await tx.many(
      z.object({ made_id: z.uuid() }),
      `select made_id from plate_made where studio_id = $1 and struck_at is null
         and case when $2::int[] <> '{}' then number = any($2::int[]) else keeper
           and ($3::date is not null or $4::uuid is not null)
           and ($3::date is null or day = $3) and ($4::uuid is null or series_id = $4) end
       order by number limit $5`,
      [tx.studioId, plate, day, series, MOST_LABELS],
    );
    return rows.map((row) => row.made_id);
  }
}
