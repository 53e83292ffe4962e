// SQL of suppliers.
import type { Tx } from '../platform/db/tx.js';
import { type Supplier, supplierRow, toSupplier } from './suppliers.schemas.js';

export class SuppliersStore {
  async all(tx: Tx): Promise<Supplier[]> {
    const sql = 'select * from supplier where studio_id = $1 order by name, supplier_id';
    return (await tx.many(supplierRow, sql, [tx.studioId])).map(toSupplier);
  }

  async byId(tx: Tx, supplierId: string, locked = false): Promise<Supplier | null> {
    const sql = `select * from supplier where studio_id = $1 and supplier_id = $2${locked ? ' for update' : ''}`;
    const row = await tx.maybe(supplierRow, sql, [tx.studioId, supplierId]);
    return row && toSupplier(row);
  }

  async save(tx: Tx, supplier: Supplier): Promise<void> {
    await tx.run(
      `insert into supplier (studio_id, supplier_id, name, contact, lead_days, note) values ($1, $2, $3, $4, $5, $6)
       on conflict (studio_id, supplier_id) do update set
         name = excluded.name, contact = excluded.contact, lead_days = excluded.lead_days, note = excluded.note`,
      [tx.studioId, supplier.id, supplier.name, supplier.contact, supplier.leadDays, supplier.note],
    );
  }
}
