// SQL of all that the look ahead reads: four statements, however much there is.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { plainDate } from '../platform/db/row.js';
import type { Tx } from '../platform/db/tx.js';
import type { Recipe } from './explosion.calc.js';
import type { HeldNeed, OnTheWay, ShelfFacts } from './horizon.calc.js';
import { lotRow, toLot } from './lots.schemas.js';
import { askedClass, type Lot } from './stock.schemas.js';
import { StockStore } from './stock.store.js';

const lotAndPast = lotRow.extend({ past: z.bigint() });

/** A need, or (without a class) an order on its way. */
const dueRow = z.object({
  id: z.uuid(),
  item_id: z.uuid(),
  day: plainDate,
  class: askedClass.nullable(),
  chosen_lot_id: z.uuid().nullable(),
  quantity: z.bigint(),
});

const lineRow = z.object({
  formula_id: z.uuid(),
  batch_quantity: z.bigint(),
  ingredient: z.string().nullable(),
  substance: z.string().nullable(),
  item_id: z.uuid().nullable(),
  quantity: z.bigint().nullable(),
  unit: z.enum(['mg', 'uL', 'piece']).nullable(),
});

export class PlanningStore {
  private readonly stock = new StockStore();

  /** All there is on the shelf, needed of it, on its way to it, and how it is mixed. */
  async facts(tx: Tx, today: Temporal.PlainDate): Promise<ShelfFacts> {
    const items = await this.stock.items(tx);
    const lots = await this.lots(tx, today);
    const due = await this.due(tx, today);
    const needs = due.flatMap((one) => ('heldFor' in one ? [one] : []));
    const onTheWay = due.flatMap((one) => ('receiptId' in one ? [one] : []));
    const past = new Map(lots.map((lot) => [lot.id, lot.past]));
    return { items, lots, past, needs, onTheWay, recipes: await this.recipes(tx) };
  }

  /** Those that are not gone, and what of each is set aside for days past. */
  async lots(tx: Tx, today: Temporal.PlainDate): Promise<(Lot & { past: bigint })[]> {
    const rows = await tx.many(
      lotAndPast,
      `select lot.*, coalesce(before.quantity, 0)::bigint as past from lot
       left join (select lot_id, sum(quantity) as quantity from reservation
         where studio_id = $1 and needed_on < $2 and lot_id is not null group by lot_id) before using (lot_id)
       where lot.studio_id = $1 and lot.state <> 'gone' order by lot.item_id, lot.usable_until nulls last, lot_id`,
      [tx.studioId, today],
    );
    return rows.map((row) => ({ ...toLot(row), past: row.past }));
  }

  /** What is needed from a day on, and what is ordered and has not come. */
  async due(tx: Tx, today: Temporal.PlainDate): Promise<(HeldNeed | OnTheWay)[]> {
    const rows = await tx.many(
      dueRow,
      `select held_for as id, item_id, needed_on as day, class, chosen_lot_id, sum(quantity)::bigint as quantity
       from reservation where studio_id = $1 and needed_on >= $2
       group by held_for, item_id, needed_on, class, chosen_lot_id
       union all
       select receipt_id, item_id, expected_on, null, null, quantity
       from receipt where studio_id = $1 and lot_id is null and not cancelled
       order by day, id, item_id`,
      [tx.studioId, today],
    );
    return rows.map(({ id, item_id: itemId, day, class: asked, chosen_lot_id: chosenLotId, quantity }) =>
      asked === null
        ? { receiptId: id, itemId, quantity, expectedOn: day }
        : { heldFor: id, itemId, neededOn: day, class: asked, chosenLotId, quantity },
    );
  }

  /** Each formula as it is mixed now. */
  async recipes(tx: Tx): Promise<Recipe[]> {
    const rows = await tx.many(
      lineRow,
      `select f.formula_id, v.batch_quantity, l.ingredient, l.substance, l.item_id, l.quantity, l.unit
       from formula f
       join formula_version v on v.studio_id = f.studio_id and v.formula_id = f.formula_id
         and v.version = f.current_version
       left join formula_line l on l.studio_id = f.studio_id and l.formula_id = f.formula_id
         and l.version = f.current_version
       where f.studio_id = $1 order by f.formula_id, l.position`,
      [tx.studioId],
    );
    const found = new Map<string, Recipe>();
    for (const row of rows) {
      const { formula_id: formulaId, batch_quantity: batchQuantity } = row;
      const recipe = found.get(formulaId) ?? { formulaId, batchQuantity, lines: [] };
      const { ingredient, substance, item_id: itemId, quantity, unit } = row;
      if (ingredient !== null && quantity !== null && unit !== null)
        recipe.lines.push({ ingredient, substance, itemId, quantity, unit });
      found.set(formulaId, recipe);
    }
    return [...found.values()];
  }
}
