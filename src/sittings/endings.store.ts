// SQL of how sittings went on their day, and of what they used.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import { type SittingDay, sittingDayRow } from './endings.schemas.js';

export interface Used {
  lotId: string;
  quantity: bigint;
}

export class EndingsStore {
  async of(tx: Tx, sittingIds: string[]): Promise<Map<string, SittingDay>> {
    const rows = await tx.many(
      sittingDayRow,
      `select sitting_id, arrived_at, ended_at, reason, note, return_id, set_aside from sitting_day
       where studio_id = $1 and sitting_id = any($2::uuid[])`,
      [tx.studioId, sittingIds],
    );
    return new Map(
      rows.map((row) => [
        row.sitting_id,
        {
          arrivedAt: row.arrived_at,
          endedAt: row.ended_at,
          reason: row.reason,
          note: row.note,
          returnId: row.return_id,
          setAside: row.set_aside,
        },
      ]),
    );
  }

  async setArrived(tx: Tx, sittingId: string, at: Temporal.Instant | null): Promise<void> {
    await tx.run(
      `insert into sitting_day (studio_id, sitting_id, arrived_at) values ($1, $2, $3)
       on conflict (studio_id, sitting_id) do update set arrived_at = excluded.arrived_at`,
      [tx.studioId, sittingId, at],
    );
  }

  /** How it ended; the arrival stays as it was. */
  async setEnding(tx: Tx, sittingId: string, told: Omit<SittingDay, 'arrivedAt'>): Promise<void> {
    await tx.run(
      `insert into sitting_day (studio_id, sitting_id, ended_at, reason, note, return_id, set_aside)
       values ($1, $2, $3, $4, $5, $6, $7)
       on conflict (studio_id, sitting_id) do update set ended_at = excluded.ended_at, reason = excluded.reason,
         note = excluded.note, return_id = excluded.return_id, set_aside = excluded.set_aside`,
      [tx.studioId, sittingId, told.endedAt, told.reason, told.note, told.returnId, told.setAside],
    );
  }

  /** From now on nothing is set aside again for a sitting when its ending is taken back. */
  async forgetSetAside(tx: Tx, sittingId: string): Promise<void> {
    const sql = 'update sitting_day set set_aside = false where studio_id = $1 and sitting_id = $2';
    await tx.run(sql, [tx.studioId, sittingId]);
  }

  async used(tx: Tx, sittingId: string): Promise<Used[]> {
    const rows = await tx.many(
      z.object({ lot_id: z.uuid(), quantity: z.bigint() }),
      'select lot_id, quantity from sitting_used where studio_id = $1 and sitting_id = $2 order by lot_id',
      [tx.studioId, sittingId],
    );
    return rows.map((row) => ({ lotId: row.lot_id, quantity: row.quantity }));
  }

  async setUsed(tx: Tx, sittingId: string, used: Used[]): Promise<void> {
    await tx.run('delete from sitting_used where studio_id = $1 and sitting_id = $2', [
      tx.studioId,
      sittingId,
    ]);
    await tx.run(
      `insert into sitting_used (studio_id, sitting_id, lot_id, quantity)
       select $1, $2, lot, sum(quantity) from unnest($3::uuid[], $4::bigint[]) as u (lot, quantity) group by lot`,
      [tx.studioId, sittingId, used.map((one) => one.lotId), used.map((one) => one.quantity)],
    );
  }
}
