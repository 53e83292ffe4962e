// What was ordered, and whether it has come.
import { z } from 'zod';
import { plainDate } from '../platform/db/row.js';

export const receiptRow = z.object({
  receipt_id: z.uuid(),
  item_id: z.uuid(),
  supplier_id: z.uuid().nullable(),
  quantity: z.bigint(),
  ordered_on: plainDate,
  expected_on: plainDate,
  lot_id: z.uuid().nullable(),
  cancelled: z.boolean(),
});
type Row = z.output<typeof receiptRow>;

export interface Receipt {
  id: string;
  itemId: string;
  supplierId: string | null;
  quantity: bigint;
  orderedOn: Row['ordered_on'];
  expectedOn: Row['expected_on'];
  /** The bottle or box it became. */
  lotId: string | null;
  cancelled: boolean;
}

export const toReceipt = (row: Row): Receipt => ({
  id: row.receipt_id,
  itemId: row.item_id,
  supplierId: row.supplier_id,
  quantity: row.quantity,
  orderedOn: row.ordered_on,
  expectedOn: row.expected_on,
  lotId: row.lot_id,
  cancelled: row.cancelled,
});
