// Whoever edits something that has no row of its own to lock waits here until the other is done, so that what is compared
// is what is overwritten. To be asked first in the transaction.
import type { Tx } from './tx.js';

export async function editAlone(tx: Tx, what: string): Promise<void> {
  const sql = `select pg_advisory_xact_lock(hashtextextended('edit ' || $1::text || ' ' || $2::text, 0))`;
  await tx.run(sql, [tx.studioId, what]);
}
