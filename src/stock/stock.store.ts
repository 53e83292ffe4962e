// SQL of what is set aside, and of all that planning reads. What is set aside of a lot changes only by a guarded
// UPDATE, beside the movement that explains it.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { plainDate } from '../platform/db/row.js';
import type { Tx } from '../platform/db/tx.js';
import { itemRow, toItem } from './items.schemas.js';
import { lotRow, toLot } from './lots.schemas.js';
import type { Change, Expected } from './replan.calc.js';
import {
  type Held,
  type Item,
  type Lot,
  type PlateSize,
  plateSizeRow,
  reservationRow,
  toHeld,
  toPlateSize,
} from './stock.schemas.js';

const ITEMS = `select item.*, supplier.lead_days as supplier_lead_days from item
  left join supplier using (studio_id, supplier_id) where item.studio_id = $1`;

export class StockStore {
  async plateSizes(tx: Tx): Promise<PlateSize[]> {
    const sql = 'select * from plate_size where studio_id = $1 order by position, plate_size_id';
    return (await tx.many(plateSizeRow, sql, [tx.studioId])).map(toPlateSize);
  }

  async items(tx: Tx): Promise<Item[]> {
    const rows = await tx.many(itemRow, `${ITEMS} order by item.name, item.item_id`, [tx.studioId]);
    return rows.map(toItem);
  }

  /** Those that are not gone. */
  async lots(tx: Tx): Promise<Lot[]> {
    const sql = `select * from lot where studio_id = $1 and state <> 'gone'
      order by item_id, usable_until nulls last, lot_id`;
    return (await tx.many(lotRow, sql, [tx.studioId])).map(toLot);
  }

  /** Locks items against every other act at the shelf, in id order, and gives them as they stand. */
  async lockItems(tx: Tx, itemIds: string[]): Promise<Item[]> {
    const rows = await tx.many(
      itemRow,
      `${ITEMS} and item.item_id = any($2::uuid[]) order by item.item_id for no key update of item`,
      [tx.studioId, itemIds],
    );
    return rows.map(toItem);
  }

  /** The lots of some items that are not gone, and of those that are the named ones. */
  async lotsOf(tx: Tx, itemIds: string[], named: string[] = []): Promise<Lot[]> {
    const rows = await tx.many(
      lotRow,
      `select * from lot where studio_id = $1 and item_id = any($2::uuid[])
         and (state <> 'gone' or lot_id = any($3::uuid[])) order by item_id, lot_id`,
      [tx.studioId, itemIds, named],
    );
    return rows.map(toLot);
  }

  /** What is set aside of some items for the days from one on. */
  async heldFrom(tx: Tx, itemIds: string[], from: Temporal.PlainDate): Promise<Held[]> {
    const rows = await tx.many(
      reservationRow,
      `select * from reservation where studio_id = $1 and item_id = any($2::uuid[]) and needed_on >= $3
       order by reservation_id`,
      [tx.studioId, itemIds, from],
    );
    return rows.map(toHeld);
  }

  /** What of each lot is set aside for the days before one. */
  async heldBefore(tx: Tx, itemIds: string[], day: Temporal.PlainDate): Promise<Map<string, bigint>> {
    const rows = await tx.many(
      z.object({ lot_id: z.uuid(), quantity: z.bigint() }),
      `select lot_id, sum(quantity)::bigint as quantity from reservation
       where studio_id = $1 and item_id = any($2::uuid[]) and needed_on < $3 and lot_id is not null
       group by lot_id`,
      [tx.studioId, itemIds, day],
    );
    return new Map(rows.map((row) => [row.lot_id, row.quantity]));
  }

  /** The rows of days past that hold some lots, the latest day first. */
  async pastOfLots(tx: Tx, lotIds: string[], before: Temporal.PlainDate): Promise<Held[]> {
    const rows = await tx.many(
      reservationRow,
      `select * from reservation where studio_id = $1 and lot_id = any($2::uuid[]) and needed_on < $3
       order by needed_on desc, reservation_id`,
      [tx.studioId, lotIds, before],
    );
    return rows.map(toHeld);
  }

  /** What is ordered of some items and has not come. */
  async expected(tx: Tx, itemIds: string[]): Promise<(Expected & { itemId: string })[]> {
    const rows = await tx.many(
      z.object({ item_id: z.uuid(), quantity: z.bigint(), expected_on: plainDate }),
      `select item_id, quantity, expected_on from receipt
       where studio_id = $1 and item_id = any($2::uuid[]) and lot_id is null and not cancelled
       order by expected_on, receipt_id`,
      [tx.studioId, itemIds],
    );
    return rows.map((row) => ({ itemId: row.item_id, quantity: row.quantity, expectedOn: row.expected_on }));
  }

  /** Changes rows of what is set aside. The level of their lots is changed by `moveReserved`. */
  async writeHeld(tx: Tx, changes: (Change & { id: string })[]): Promise<void> {
    const gone = changes.filter(({ to }) => to === 0n);
    const kept = changes.filter(({ from, to }) => from > 0n && to > 0n);
    const made = changes.filter(({ from }) => from === 0n);
    if (gone.length > 0)
      await tx.run('delete from reservation where studio_id = $1 and reservation_id = any($2::uuid[])', [
        tx.studioId,
        gone.map(({ id }) => id),
      ]);
    if (kept.length > 0)
      await tx.run(
        `update reservation r set quantity = c.quantity from unnest($2::uuid[], $3::bigint[]) as c (id, quantity)
         where r.studio_id = $1 and r.reservation_id = c.id`,
        [tx.studioId, kept.map(({ id }) => id), kept.map(({ to }) => to)],
      );
    if (made.length > 0)
      await tx.run(
        `insert into reservation
           (studio_id, reservation_id, held_for, item_id, lot_id, quantity, needed_on, class, chosen_lot_id)
         select $1, * from unnest
           ($2::uuid[], $3::uuid[], $4::uuid[], $5::uuid[], $6::bigint[], $7::date[], $8::text[], $9::uuid[])`,
        [
          tx.studioId,
          made.map(({ id }) => id),
          made.map(({ heldFor }) => heldFor),
          made.map(({ itemId }) => itemId),
          made.map(({ lotId }) => lotId),
          made.map(({ to }) => to),
          made.map(({ neededOn }) => neededOn),
          made.map((one) => one.class),
          made.map(({ chosenLotId }) => chosenLotId),
        ],
      );
  }

  /**
   * Sets aside from lots, or gives back to them (below 0), each as much as `by` says; a lot that has not that
   * much free is left. @returns how many lots were changed
   */
  async moveReserved(tx: Tx, lots: { lotId: string; by: bigint }[]): Promise<number> {
    return tx.run(
      `update lot set reserved = lot.reserved + c.by from unnest($2::uuid[], $3::bigint[]) as c (lot_id, by)
       where lot.studio_id = $1 and lot.lot_id = c.lot_id and lot.on_hand - lot.reserved >= c.by`,
      [tx.studioId, lots.map(({ lotId }) => lotId), lots.map(({ by }) => by)],
    );
  }

  /** Notes on a need which bottle the owner chose for it; null takes the choice back. */
  async choose(tx: Tx, need: Omit<Held, 'id' | 'lotId' | 'quantity'>): Promise<number> {
    return tx.run(
      `update reservation set chosen_lot_id = $6
       where studio_id = $1 and held_for = $2 and item_id = $3 and needed_on = $4 and class = $5`,
      [tx.studioId, need.heldFor, need.itemId, need.neededOn, need.class, need.chosenLotId],
    );
  }

  async reservations(tx: Tx, heldFor: string): Promise<Held[]> {
    const rows = await tx.many(
      reservationRow,
      'select * from reservation where studio_id = $1 and held_for = $2 order by item_id, needed_on, lot_id',
      [tx.studioId, heldFor],
    );
    return rows.map(toHeld);
  }

  /** What is set aside for one day, by whom it is for. */
  async heldOn(tx: Tx, day: Temporal.PlainDate): Promise<Held[]> {
    const rows = await tx.many(
      reservationRow,
      `select * from reservation where studio_id = $1 and needed_on = $2 order by held_for, item_id, lot_id`,
      [tx.studioId, day],
    );
    return rows.map(toHeld);
  }

  /** What is still set aside for days before one, the latest day first. */
  async unsettled(tx: Tx, day: Temporal.PlainDate): Promise<Held[]> {
    const rows = await tx.many(
      reservationRow,
      `select * from reservation where studio_id = $1 and needed_on < $2
       order by needed_on desc, item_id, held_for, lot_id`,
      [tx.studioId, day],
    );
    return rows.map(toHeld);
  }

  async insertPlateSize(tx: Tx, size: PlateSize): Promise<void> {
    await tx.run(
      `insert into plate_size (studio_id, plate_size_id, name, width_mm, height_mm, offered, position)
       values ($1, $2, $3, $4, $5, $6, $7)`,
      [tx.studioId, size.id, size.name, size.widthMm, size.heightMm, size.offered, size.position],
    );
  }
}
