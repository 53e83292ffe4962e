// SQL of the shelf. A lot's level changes only by a guarded UPDATE beside the movement that explains it.
import type { Temporal } from 'temporal-polyfill';
import type { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import {
  type Item,
  itemRow,
  type Lot,
  lotRow,
  type PlateSize,
  plannedRow,
  plateSizeRow,
  reservationRow,
  toItem,
  toLot,
  toPlateSize,
} from './stock.schemas.js';
import type { Planned } from './wants.calc.js';

export interface Movement {
  id: string;
  lotId: string;
  kind: 'received' | 'mixed';
  quantity: bigint;
  reason: string;
}

/** One part of a place's need, taken from one lot. */
export interface Take {
  id: string;
  movementId: string;
  heldFor: string;
  lotId: string;
  quantity: bigint;
  neededOn: Temporal.PlainDate;
}

export class StockStore {
  async plateSizes(tx: Tx): Promise<PlateSize[]> {
    const sql = 'select * from plate_size where studio_id = $1 order by position, plate_size_id';
    return (await tx.many(plateSizeRow, sql, [tx.studioId])).map(toPlateSize);
  }

  async items(tx: Tx): Promise<Item[]> {
    const sql = 'select * from item where studio_id = $1 order by name, item_id';
    return (await tx.many(itemRow, sql, [tx.studioId])).map(toItem);
  }

  async lots(tx: Tx): Promise<Lot[]> {
    const sql = 'select * from lot where studio_id = $1 order by item_id, usable_until nulls last, lot_id';
    return (await tx.many(lotRow, sql, [tx.studioId])).map(toLot);
  }

  /** Lots of some items usable on a day with anything free, locked in id order. */
  async lockUsableLots(tx: Tx, itemIds: string[], day: Temporal.PlainDate): Promise<Lot[]> {
    const rows = await tx.many(
      lotRow,
      `select * from lot where studio_id = $1 and item_id = any($2::uuid[])
         and usable_from <= $3 and (usable_until is null or usable_until >= $3) and on_hand > reserved
       order by item_id, lot_id for no key update`,
      [tx.studioId, itemIds, day],
    );
    return rows.map(toLot);
  }

  /** Sets aside from a lot if that much is free, with its movement and note; false when it is not free. */
  async takeFromLot(tx: Tx, take: Take, at: Temporal.Instant): Promise<boolean> {
    const noted = await tx.run(
      `with taken as (
         update lot set reserved = reserved + $5
         where studio_id = $1 and lot_id = $4 and on_hand - reserved >= $5 returning lot_id, item_id),
       moved as (
         insert into movement (studio_id, movement_id, lot_id, kind, quantity, held_for, at)
         select $1, $6, lot_id, 'reserved', $5, $3, $8 from taken)
       insert into reservation (studio_id, reservation_id, held_for, item_id, lot_id, quantity, needed_on)
       select $1, $2, $3, item_id, lot_id, $5, $7 from taken`,
      [tx.studioId, take.id, take.heldFor, take.lotId, take.quantity, take.movementId, take.neededOn, at],
    );
    return noted === 1;
  }

  /** Gives one reservation back to its lot, with the movement that explains it. */
  async giveBackToLot(
    tx: Tx,
    reservationId: string,
    movementId: string,
    at: Temporal.Instant,
  ): Promise<void> {
    const given = await tx.run(
      `with gone as (
         delete from reservation where studio_id = $1 and reservation_id = $2
         returning lot_id, quantity, held_for),
       freed as (
         update lot set reserved = reserved - gone.quantity from gone
         where lot.studio_id = $1 and lot.lot_id = gone.lot_id returning lot.lot_id)
       insert into movement (studio_id, movement_id, lot_id, kind, quantity, held_for, at)
       select $1, $3, freed.lot_id, 'released', gone.quantity, gone.held_for, $4 from freed join gone using (lot_id)`,
      [tx.studioId, reservationId, movementId, at],
    );
    if (given !== 1) throw new Error(`The reservation ${reservationId} was not there to give back.`);
  }

  async addToLot(tx: Tx, lotId: string, quantity: bigint): Promise<void> {
    await tx.run('update lot set on_hand = on_hand + $3 where studio_id = $1 and lot_id = $2', [
      tx.studioId,
      lotId,
      quantity,
    ]);
  }

  async insertMovement(tx: Tx, move: Movement, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `insert into movement (studio_id, movement_id, lot_id, kind, quantity, reason, at)
       values ($1, $2, $3, $4, $5, $6, $7)`,
      [tx.studioId, move.id, move.lotId, move.kind, move.quantity, move.reason, at],
    );
  }

  /** Notes what no lot can give yet: a batch to be mixed or bought. */
  async insertPlanned(
    tx: Tx,
    one: { id: string; heldFor: string; itemId: string; quantity: bigint; neededOn: Temporal.PlainDate },
  ): Promise<void> {
    await tx.run(
      `insert into reservation (studio_id, reservation_id, held_for, item_id, quantity, needed_on)
       values ($1, $2, $3, $4, $5, $6)`,
      [tx.studioId, one.id, one.heldFor, one.itemId, one.quantity, one.neededOn],
    );
  }

  /** In the order in which lots are locked, so that giving back and taking never wait in a ring. */
  async reservations(tx: Tx, heldFor: string): Promise<z.output<typeof reservationRow>[]> {
    return tx.many(
      reservationRow,
      'select * from reservation where studio_id = $1 and held_for = $2 order by item_id, lot_id',
      [tx.studioId, heldFor],
    );
  }

  /** What is noted as to be mixed or bought for the days from one on, by item and day. */
  async planned(tx: Tx, from: Temporal.PlainDate): Promise<Planned[]> {
    const rows = await tx.many(
      plannedRow,
      `select item_id, needed_on, sum(quantity)::bigint as quantity from reservation
       where studio_id = $1 and lot_id is null and needed_on >= $2 group by item_id, needed_on`,
      [tx.studioId, from],
    );
    return rows.map((row) => ({ itemId: row.item_id, quantity: row.quantity, neededOn: row.needed_on }));
  }

  /** Drops a place's planned batches; what came from lots is given back by giveBackToLot. */
  async deletePlanned(tx: Tx, heldFor: string): Promise<void> {
    await tx.run('delete from reservation where studio_id = $1 and held_for = $2 and lot_id is null', [
      tx.studioId,
      heldFor,
    ]);
  }

  async insertPlateSize(tx: Tx, size: PlateSize): Promise<void> {
    await tx.run(
      `insert into plate_size (studio_id, plate_size_id, name, width_mm, height_mm, offered, position)
       values ($1, $2, $3, $4, $5, $6, $7)`,
      [tx.studioId, size.id, size.name, size.widthMm, size.heightMm, size.offered, size.position],
    );
  }

  async insertItem(tx: Tx, item: Item): Promise<void> {
    await tx.run(
      `insert into item (studio_id, item_id, name, kind, unit, plate_size_id, lead_days, ripen_days, life_days,
         surface, substance, opened_life_days, formula_id, supplier_id, pack_quantity, least_packs, heel,
         least_pour, most_on_hand, no_post, h_codes, hazard_note, storage, archived)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19, $20, $21,
         $22, $23, $24)`,
      [
        tx.studioId,
        item.id,
        item.name,
        item.kind,
        item.unit,
        item.plateSizeId,
        item.leadDays,
        item.ripenDays,
        item.lifeDays,
        item.surface,
        item.substance,
        item.openedLifeDays,
        item.formulaId,
        item.supplierId,
        item.packQuantity,
        item.leastPacks,
        item.heel,
        item.leastPour,
        item.mostOnHand,
        item.noPost,
        item.hCodes,
        item.hazardNote,
        item.storage,
        item.archived,
      ],
    );
  }

  async insertLot(tx: Tx, lot: Omit<Lot, 'onHand' | 'reserved'>): Promise<void> {
    await tx.run(
      `insert into lot (studio_id, lot_id, item_id, label, usable_from, usable_until, class, speed_factor, colour,
         received_on, opened_on, state, state_note, peroxide_checked_on, note)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15)`,
      [
        tx.studioId,
        lot.id,
        lot.itemId,
        lot.label,
        lot.usableFrom,
        lot.usableUntil,
        lot.class,
        lot.speedFactor,
        lot.colour,
        lot.receivedOn,
        lot.openedOn,
        lot.state,
        lot.stateNote,
        lot.peroxideCheckedOn,
        lot.note,
      ],
    );
  }
}
