// SQL of items: entering one, changing one.
import type { Tx } from '../platform/db/tx.js';
import type { Item } from './stock.schemas.js';

/** What of an item may change, with its column. Kind, unit and plate size stay: its bottles are kept by them. */
const COLUMNS: [keyof Item, string][] = [
  ['name', 'name'],
  ['substance', 'substance'],
  ['leadDays', 'lead_days'],
  ['ripenDays', 'ripen_days'],
  ['lifeDays', 'life_days'],
  ['openedLifeDays', 'opened_life_days'],
  ['formulaId', 'formula_id'],
  ['supplierId', 'supplier_id'],
  ['packQuantity', 'pack_quantity'],
  ['leastPacks', 'least_packs'],
  ['heel', 'heel'],
  ['leastPour', 'least_pour'],
  ['mostOnHand', 'most_on_hand'],
  ['noPost', 'no_post'],
  ['hCodes', 'h_codes'],
  ['hazardNote', 'hazard_note'],
  ['storage', 'storage'],
  ['archived', 'archived'],
];
const FIXED: [keyof Item, string][] = [
  ['id', 'item_id'],
  ['kind', 'kind'],
  ['unit', 'unit'],
  ['plateSizeId', 'plate_size_id'],
  ['surface', 'surface'],
];

export class ItemsStore {
  async insert(tx: Tx, item: Item): Promise<void> {
    const all = [...FIXED, ...COLUMNS];
    await tx.run(
      `insert into item (studio_id, ${all.map(([, column]) => column).join(', ')})
       values ($1, ${all.map((_, at) => `$${at + 2}`).join(', ')})`,
      [tx.studioId, ...all.map(([name]) => item[name])],
    );
  }

  async update(tx: Tx, item: Item): Promise<void> {
    await tx.run(
      `update item set ${COLUMNS.map(([, column], at) => `${column} = $${at + 3}`).join(', ')}
       where studio_id = $1 and item_id = $2`,
      [tx.studioId, item.id, ...COLUMNS.map(([name]) => item[name])],
    );
  }
}
