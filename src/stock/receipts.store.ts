// SQL of orders.
import type { Tx } from '../platform/db/tx.js';
import { type Receipt, receiptRow, toReceipt } from './receipts.schemas.js';

export class ReceiptsStore {
  /** Those that have not come and are not called off, the next first. */
  async open(tx: Tx): Promise<Receipt[]> {
    const rows = await tx.many(
      receiptRow,
      `select * from receipt where studio_id = $1 and lot_id is null and not cancelled
       order by expected_on, receipt_id`,
      [tx.studioId],
    );
    return rows.map(toReceipt);
  }

  async byId(tx: Tx, receiptId: string): Promise<Receipt | null> {
    const sql = 'select * from receipt where studio_id = $1 and receipt_id = $2';
    const row = await tx.maybe(receiptRow, sql, [tx.studioId, receiptId]);
    return row && toReceipt(row);
  }

  async insert(tx: Tx, one: Receipt): Promise<void> {
    await tx.run(
      `insert into receipt (studio_id, receipt_id, item_id, supplier_id, quantity, ordered_on, expected_on)
       values ($1, $2, $3, $4, $5, $6, $7)`,
      [tx.studioId, one.id, one.itemId, one.supplierId, one.quantity, one.orderedOn, one.expectedOn],
    );
  }

  /** Closes an open order: it has come as this lot, or (null) is called off. @returns false when it is closed */
  async close(tx: Tx, receiptId: string, lotId: string | null): Promise<boolean> {
    const closed = await tx.run(
      `update receipt set lot_id = $3, cancelled = $3::uuid is null
       where studio_id = $1 and receipt_id = $2 and lot_id is null and not cancelled`,
      [tx.studioId, receiptId, lotId],
    );
    return closed === 1;
  }
}
