// SQL of what was said to be used of what had been set aside for a day that is past.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';

/** So much of a bottle or box, in the item's unit. */
export interface OfLot {
  lotId: string;
  quantity: bigint;
}

export class SettledStore {
  async of(tx: Tx, day: Temporal.PlainDate, heldFor: string): Promise<OfLot[]> {
    const rows = await tx.many(
      z.object({ lot_id: z.uuid(), quantity: z.bigint() }),
      `select lot_id, quantity from day_settled where studio_id = $1 and day = $2 and held_for = $3 order by lot_id`,
      [tx.studioId, day, heldFor],
    );
    return rows.map((row) => ({ lotId: row.lot_id, quantity: row.quantity }));
  }

  async add(tx: Tx, day: Temporal.PlainDate, heldFor: string, used: OfLot[]): Promise<void> {
    await tx.run(
      `insert into day_settled (studio_id, day, held_for, lot_id, quantity)
       select $1, $2, $3, lot, sum(quantity) from unnest($4::uuid[], $5::bigint[]) as u (lot, quantity)
       where quantity > 0 group by lot
       on conflict (studio_id, day, held_for, lot_id) do update set quantity = day_settled.quantity + excluded.quantity`,
      [tx.studioId, day, heldFor, used.map((one) => one.lotId), used.map((one) => one.quantity)],
    );
  }

  async remove(tx: Tx, day: Temporal.PlainDate, heldFor: string, lotIds: string[]): Promise<void> {
    await tx.run(
      `delete from day_settled where studio_id = $1 and day = $2 and held_for = $3 and lot_id = any($4::uuid[])`,
      [tx.studioId, day, heldFor, lotIds],
    );
  }
}
