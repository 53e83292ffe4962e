// The reading methods of the stores of copies. The catalogue and the list of migrations are nobody's rows: what is read
// with them is.
import { ReadableStore } from '../../src/backup/readable.store.js';
import { TablesStore } from '../../src/backup/tables.store.js';
import type { Tx } from '../../src/platform/db/tx.js';

const store = new TablesStore();
const contacts = (tx: Tx) => store.dump(tx, { name: 'contact', key: 'contact_id' });

export const BACKUP_CALLS: Record<string, (tx: Tx) => Promise<unknown>> = {
  'TablesStore.dump': contacts,
  'TablesStore.tables': async (tx) => {
    const rows: string[] = [];
    // the directory of studios is read by all
    for (const table of await store.tables(tx))
      if (table.name !== 'studio_directory') rows.push(...(await store.dump(tx, table)));
    return rows;
  },
  'TablesStore.migrations': async (tx) => ((await store.migrations(tx)).length > 0 ? contacts(tx) : []),
  'TablesStore.isEmpty': async (tx) => ((await store.isEmpty(tx)) ? [] : contacts(tx)),
  'TablesStore.jobs': (tx) => store.jobs(tx),
  'TablesStore.shelf': (tx) => store.shelf(tx),
  'ReadableStore.sheets': async (tx) =>
    [...(await new ReadableStore().sheets(tx)).values()].flatMap((sheet) =>
      sheet
        .split('\r\n')
        .slice(1)
        .filter((line) => line !== ''),
    ),
};
