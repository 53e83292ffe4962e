// SQL of plates made before, which are brought into the book.
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';

const idRow = z.object({ made_id: z.uuid() });

export class BroughtStore {
  /** Those of some numbers that a plate has. */
  async taken(tx: Tx, numbers: number[]): Promise<Set<number>> {
    const rows = await tx.many(
      z.object({ number: z.number() }),
      'select number from plate_made where studio_id = $1 and number = any($2::int[])',
      [tx.studioId, numbers],
    );
    return new Set(rows.map((row) => row.number));
  }

  /** Those of some that stand on a list, have a record or took something, or whose day was typed in after a line of history. */
  async usedOf(tx: Tx, ids: string[], upTo: bigint): Promise<Set<string>> {
    const rows = await tx.many(
      idRow,
      `select p.made_id from plate_made p where p.studio_id = $1 and p.made_id = any($2::uuid[]) and (
         exists (select from hand_over_plate h where h.studio_id = $1 and h.made_id = p.made_id)
         or exists (select from record_entry e where e.studio_id = $1 and e.made_id = p.made_id)
         or exists (select from plate_took t where t.studio_id = $1 and t.made_id = p.made_id)
         or exists (select from studio_day d join history h on h.studio_id = d.studio_id and h.about_id = d.day_id
                    where d.studio_id = $1 and d.day = p.day and h.event = 'plates_typed' and h.history_id > $3))`,
      [tx.studioId, ids, upTo],
    );
    return new Set(rows.map((row) => row.made_id));
  }

  async remove(tx: Tx, ids: string[]): Promise<void> {
    const sql = 'delete from plate_made where studio_id = $1 and made_id = any($2::uuid[])';
    await tx.run(sql, [tx.studioId, ids]);
  }
}
