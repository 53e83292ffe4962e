// SQL of what days took.
import type { Temporal } from 'temporal-polyfill';
import type { Tx } from '../platform/db/tx.js';
import {
  actualsRow,
  type RecordedDay,
  type TriedPlates,
  triesRow,
  useRow,
  type WhichDay,
} from './actuals.schemas.js';
import type { Maker, Used } from './learning.calc.js';

export class ActualsStore {
  /** The latest records first, at most so many. */
  async latest(tx: Tx, most: number): Promise<RecordedDay[]> {
    const heads = await tx.many(
      actualsRow,
      'select * from day_actuals where studio_id = $1 order by day desc, made_by limit $2',
      [tx.studioId, most],
    );
    const oldest = heads.at(-1)?.day;
    if (!oldest) return [];
    const tries = await tx.many(
      triesRow,
      'select * from day_tries where studio_id = $1 and day >= $2 order by plate_area desc, plate_size_id',
      [tx.studioId, oldest],
    );
    const use = await tx.many(useRow, 'select * from day_use where studio_id = $1 and day >= $2', [
      tx.studioId,
      oldest,
    ]);
    const of = ({ day, made_by }: { day: Temporal.PlainDate; made_by: Maker }) => `${day} ${made_by}`;
    return heads.map((head) => ({
      id: head.actuals_id,
      day: head.day,
      madeBy: head.made_by,
      note: head.note,
      plates: tries.filter((row) => of(row) === of(head)).map(toPlates),
      used: Object.fromEntries(
        use.filter((row) => of(row) === of(head)).map(({ what, quantity }) => [what, quantity]),
      ) as Partial<Record<Used, bigint>>,
    }));
  }

  /** Begins a day's record unless there is one. */
  async insert(tx: Tx, { day, madeBy }: WhichDay, id: string): Promise<void> {
    await tx.run(
      `insert into day_actuals (studio_id, day, made_by, actuals_id) values ($1, $2, $3, $4)
       on conflict (studio_id, day, made_by) do nothing`,
      [tx.studioId, day, madeBy, id],
    );
  }

  /** The id of a day's record, or null; locked until the transaction ends. */
  async locked(tx: Tx, { day, madeBy }: WhichDay): Promise<string | null> {
    const row = await tx.maybe(
      actualsRow,
      'select * from day_actuals where studio_id = $1 and day = $2 and made_by = $3 for no key update',
      [tx.studioId, day, madeBy],
    );
    return row?.actuals_id ?? null;
  }

  async setNote(tx: Tx, { day, madeBy }: WhichDay, note: string): Promise<void> {
    const sql = 'update day_actuals set note = $4 where studio_id = $1 and day = $2 and made_by = $3';
    await tx.run(sql, [tx.studioId, day, madeBy, note]);
  }

  async setPlates(tx: Tx, { day, madeBy }: WhichDay, plates: readonly TriedPlates[]): Promise<void> {
    const of = [tx.studioId, day, madeBy];
    await tx.run('delete from day_tries where studio_id = $1 and day = $2 and made_by = $3', of);
    for (const { plateSizeId, areaUm2, tries, keepers } of plates)
      await tx.run(
        `insert into day_tries (studio_id, day, made_by, plate_size_id, plate_area, tries, keepers)
         values ($1, $2, $3, $4, $5, $6, $7)`,
        [...of, plateSizeId, areaUm2, tries, keepers],
      );
  }

  async setUse(tx: Tx, { day, madeBy }: WhichDay, used: Partial<Record<Used, bigint>>): Promise<void> {
    const of = [tx.studioId, day, madeBy];
    await tx.run('delete from day_use where studio_id = $1 and day = $2 and made_by = $3', of);
    for (const [what, quantity] of Object.entries(used))
      await tx.run(
        'insert into day_use (studio_id, day, made_by, what, quantity) values ($1, $2, $3, $4, $5)',
        [...of, what, quantity],
      );
  }

  async remove(tx: Tx, { day, madeBy }: WhichDay): Promise<void> {
    const sql = 'delete from day_actuals where studio_id = $1 and day = $2 and made_by = $3';
    await tx.run(sql, [tx.studioId, day, madeBy]);
  }
}

const toPlates = (row: { plate_size_id: string; plate_area: bigint; tries: number; keepers: number }) => ({
  plateSizeId: row.plate_size_id,
  areaUm2: row.plate_area,
  tries: row.tries,
  keepers: row.keepers,
});
