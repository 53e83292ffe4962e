// Who things are bought from.
import { z } from 'zod';

export const supplierRow = z.object({
  supplier_id: z.uuid(),
  name: z.string(),
  contact: z.string(),
  lead_days: z.number().nullable(),
  note: z.string(),
});

export interface Supplier {
  id: string;
  name: string;
  contact: string;
  /** Days from order to arrival, where an item has none of its own. */
  leadDays: number | null;
  note: string;
}

export const toSupplier = (row: z.output<typeof supplierRow>): Supplier => ({
  id: row.supplier_id,
  name: row.name,
  contact: row.contact,
  leadDays: row.lead_days,
  note: row.note,
});
