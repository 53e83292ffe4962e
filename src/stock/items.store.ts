// SQL of items: entering one, changing one, and which of several is the usual.
import type { Tx } from '../platform/db/tx.js';
import type { Item } from './stock.schemas.js';
import { WITH_A_USUAL } from './usual.calc.js';

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
    if (!WITH_A_USUAL.includes(item.kind)) return;
    if (item.usual) await this.makeUsual(tx, item);
    else await this.usualIfNone(tx, item);
  }

  /** Makes an item the usual one of its kind, and the one that was it no more. */
  async makeUsual(tx: Tx, { id, kind, plateSizeId }: Item): Promise<void> {
    const like = 'studio_id = $1 and kind = $2 and plate_size_id is not distinct from $3';
    const of = [tx.studioId, kind, plateSizeId];
    await tx.run(`update item set usual = false where ${like} and usual and item_id <> $4`, [...of, id]);
    await tx.run(`update item set usual = true where ${like} and item_id = $4 and not archived`, [...of, id]);
  }

  private async usualIfNone(tx: Tx, { id, kind, plateSizeId }: Item): Promise<void> {
    await tx.run(
      `update item set usual = true where studio_id = $1 and item_id = $4 and not archived and not exists (
         select from item where studio_id = $1 and kind = $2 and plate_size_id is not distinct from $3 and usual)`,
      [tx.studioId, kind, plateSizeId, id],
    );
  }

  async update(tx: Tx, item: Item): Promise<void> {
    await tx.run(
      `update item set ${COLUMNS.map(([, column], at) => `${column} = $${at + 3}`).join(', ')},
         usual = usual and not $${COLUMNS.findIndex(([name]) => name === 'archived') + 3}
       where studio_id = $1 and item_id = $2`,
      [tx.studioId, item.id, ...COLUMNS.map(([name]) => item[name])],
    );
  }
}
