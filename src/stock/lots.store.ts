// SQL of bottles, batches and boxes: their levels, their states, and the movements that explain them. A level
// changes only by a guarded UPDATE beside its movement; movements are only ever added.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { plainDate } from '../platform/db/row.js';
import type { Tx } from '../platform/db/tx.js';
import type { LotChange, OnHandKind } from './acts.calc.js';
import {
  lotRow,
  type MovementLine,
  movementRow,
  type Parent,
  parentRow,
  toLot,
  toMovementLine,
} from './lots.schemas.js';
import type { Lot } from './stock.schemas.js';

export interface Movement {
  id: string;
  lotId: string;
  kind: OnHandKind | 'reserved' | 'released';
  quantity: bigint;
  heldFor: string | null;
  reason: string;
}

/** Who acts when, and the act that all its movements share. */
export interface Act {
  who: string;
  at: Temporal.Instant;
  batchId: string | null;
}

export class LotsStore {
  async byId(tx: Tx, lotId: string): Promise<Lot | null> {
    const sql = 'select * from lot where studio_id = $1 and lot_id = $2';
    const row = await tx.maybe(lotRow, sql, [tx.studioId, lotId]);
    return row && toLot(row);
  }

  async byIds(tx: Tx, lotIds: string[]): Promise<Lot[]> {
    const sql = 'select * from lot where studio_id = $1 and lot_id = any($2::uuid[]) order by lot_id';
    return (await tx.many(lotRow, sql, [tx.studioId, lotIds])).map(toLot);
  }

  /** Those of an item that are gone, the latest first. */
  async goneOf(tx: Tx, itemId: string, most: number): Promise<Lot[]> {
    const sql = `select * from lot where studio_id = $1 and item_id = $2 and state = 'gone'
      order by usable_from desc, lot_id limit $3`;
    return (await tx.many(lotRow, sql, [tx.studioId, itemId, most])).map(toLot);
  }

  /** The latest first. */
  async movements(tx: Tx, lotId: string, most: number): Promise<MovementLine[]> {
    const rows = await tx.many(
      movementRow,
      'select * from movement where studio_id = $1 and lot_id = $2 order by seq desc limit $3',
      [tx.studioId, lotId, most],
    );
    return rows.map(toMovementLine);
  }

  /** By how much one act changed what is on hand of which lots, signed. */
  async movedIn(tx: Tx, batchId: string): Promise<{ lotId: string; quantity: bigint }[]> {
    const rows = await tx.many(
      z.object({ lot_id: z.uuid(), quantity: z.bigint() }),
      `select lot_id, sum(quantity)::bigint as quantity from movement
       where studio_id = $1 and batch_id = $2 and kind not in ('reserved', 'released') group by lot_id`,
      [tx.studioId, batchId],
    );
    return rows.map((row) => ({ lotId: row.lot_id, quantity: row.quantity }));
  }

  /** Those of some of which anything was ever used, counted or poured. */
  async usedOf(tx: Tx, lotIds: string[]): Promise<Set<string>> {
    const rows = await tx.many(
      z.object({ lot_id: z.uuid() }),
      `select distinct lot_id from movement where studio_id = $1 and lot_id = any($2::uuid[])
         and kind not in ('received', 'reserved', 'released')`,
      [tx.studioId, lotIds],
    );
    return new Set(rows.map((row) => row.lot_id));
  }

  /** What went into a lot, and what it went into itself. */
  async family(tx: Tx, lotId: string): Promise<Parent[]> {
    const rows = await tx.many(
      parentRow,
      `select p.lot_id, p.parent_lot_id, p.quantity, parent.label as parent_label, child.label, item.unit
       from lot_parent p
       join lot parent on parent.studio_id = p.studio_id and parent.lot_id = p.parent_lot_id
       join lot child on child.studio_id = p.studio_id and child.lot_id = p.lot_id
       join item on item.studio_id = p.studio_id and item.item_id = parent.item_id
       where p.studio_id = $1 and (p.lot_id = $2 or p.parent_lot_id = $2)
       order by child.usable_from, parent.label, p.parent_lot_id, p.lot_id`,
      [tx.studioId, lotId],
    );
    return rows.map((row) => ({
      lotId: row.lot_id,
      label: row.label,
      parentLotId: row.parent_lot_id,
      parentLabel: row.parent_label,
      quantity: row.quantity,
      unit: row.unit,
    }));
  }

  /** For whom something of a lot is set aside, the nearest day first. */
  async heldOf(
    tx: Tx,
    lotId: string,
  ): Promise<{ heldFor: string; neededOn: Temporal.PlainDate; quantity: bigint }[]> {
    const rows = await tx.many(
      heldRow,
      `select held_for, needed_on, quantity from reservation where studio_id = $1 and lot_id = $2
       order by needed_on, reservation_id`,
      [tx.studioId, lotId],
    );
    return rows.map((row) => ({ heldFor: row.held_for, neededOn: row.needed_on, quantity: row.quantity }));
  }

  /** Enters a new lot, with what is in it. */
  async insert(tx: Tx, lot: Lot): Promise<void> {
    await tx.run(
      `insert into lot (studio_id, lot_id, item_id, label, usable_from, usable_until, on_hand, class,
         speed_factor, colour, received_on, opened_on, state, state_note, peroxide_checked_on, note)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16)`,
      [
        tx.studioId,
        lot.id,
        lot.itemId,
        lot.label,
        lot.usableFrom,
        lot.usableUntil,
        lot.onHand,
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

  /**
   * Changes what is in a lot by so much, and how it is, if there is that much in it that is not set aside.
   * @returns false when there is not
   */
  async change(tx: Tx, { lot, moves }: LotChange): Promise<boolean> {
    const by = moves.reduce((sum, move) => sum + move.quantity, 0n);
    const changed = await tx.run(
      `update lot set on_hand = on_hand + $3, label = $4, usable_until = $5, class = $6, speed_factor = $7,
         colour = $8, opened_on = $9, state = $10, state_note = $11, peroxide_checked_on = $12, note = $13
       where studio_id = $1 and lot_id = $2 and on_hand + $3 = $14 and $14 >= reserved`,
      [
        tx.studioId,
        lot.id,
        by,
        lot.label,
        lot.usableUntil,
        lot.class,
        lot.speedFactor,
        lot.colour,
        lot.openedOn,
        lot.state,
        lot.stateNote,
        lot.peroxideCheckedOn,
        lot.note,
        lot.onHand,
      ],
    );
    return changed === 1;
  }

  async insertMovements(tx: Tx, moves: Movement[], act: Act): Promise<void> {
    if (moves.length === 0) return;
    await tx.run(
      `insert into movement (studio_id, at, who, batch_id, movement_id, lot_id, kind, quantity, held_for, reason)
       select $1, $2, $3, $4, * from unnest
         ($5::uuid[], $6::uuid[], $7::text[], $8::bigint[], $9::uuid[], $10::text[])`,
      [
        tx.studioId,
        act.at,
        act.who,
        act.batchId,
        moves.map(({ id }) => id),
        moves.map(({ lotId }) => lotId),
        moves.map(({ kind }) => kind),
        moves.map(({ quantity }) => quantity),
        moves.map(({ heldFor }) => heldFor),
        moves.map(({ reason }) => reason),
      ],
    );
  }

  async insertParents(tx: Tx, lotId: string, parents: LotChange['parents']): Promise<void> {
    if (parents.length === 0) return;
    await tx.run(
      `insert into lot_parent (studio_id, lot_id, parent_lot_id, quantity)
       select $1, $2, * from unnest($3::uuid[], $4::bigint[])
       on conflict (studio_id, lot_id, parent_lot_id) do update set quantity = lot_parent.quantity + excluded.quantity`,
      [tx.studioId, lotId, parents.map((one) => one.lotId), parents.map((one) => one.quantity)],
    );
  }
}

const heldRow = z.object({ held_for: z.uuid(), needed_on: plainDate, quantity: z.bigint() });
