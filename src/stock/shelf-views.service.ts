// Looking at the shelf: all of it, one item, one bottle. It changes nothing.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Pair } from '../chemistry/incompatible.calc.js';
import { Db } from '../platform/db/db.js';
import { type HistoryLine, historyOf } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { ActsService } from './acts.service.js';
import { shelfCautions } from './cautions.calc.js';
import { FormulasStore } from './formulas.store.js';
import { type Horizon, lookAhead, missingOf } from './horizon.calc.js';
import type { MovementLine, Parent } from './lots.schemas.js';
import { LotsStore } from './lots.store.js';
import { usableOn } from './plan.calc.js';
import { PlanningStore } from './planning.store.js';
import type { Receipt } from './receipts.schemas.js';
import { ReceiptsStore } from './receipts.store.js';
import { type Planned, type Standing, standingOf } from './levels.calc.js';
import type { Item, Lot, PlateSize } from './stock.schemas.js';
import { StockStore } from './stock.store.js';
import type { Supplier } from './suppliers.schemas.js';
import { SuppliersStore } from './suppliers.store.js';

/** So many lines of a bottle's ledger are shown, and so many bottles of an item that are gone. */
const MOST = 200;

export interface WholeShelf {
  today: Temporal.PlainDate;
  standings: Standing[];
  lots: Lot[];
  orders: Receipt[];
  suppliers: Supplier[];
  sizes: PlateSize[];
  /** What of the things that stand there must stand apart. */
  cautions: Pair[];
}

export interface ItemView {
  today: Temporal.PlainDate;
  standing: Standing;
  /** All that is ahead of the shelf. */
  horizon: Horizon;
  /** Emptied and thrown away, the latest first. */
  gone: Lot[];
  orders: Receipt[];
  suppliers: Supplier[];
  sizes: PlateSize[];
}

export interface BottleView {
  today: Temporal.PlainDate;
  item: Item;
  lot: Lot;
  /** The latest first, each with what was in it after. */
  ledger: (MovementLine & { level: bigint })[];
  family: Parent[];
  heldFor: { heldFor: string; neededOn: Temporal.PlainDate; quantity: bigint }[];
  history: HistoryLine[];
  /** Other good bottles of the same item. */
  others: Lot[];
  /** Bottles of chemicals that are measured alike. */
  solvents: { item: Item; lot: Lot }[];
}

@Injectable()
export class ShelfViews {
  private readonly store = new StockStore();
  private readonly lots = new LotsStore();
  private readonly receipts = new ReceiptsStore();
  private readonly suppliers = new SuppliersStore();
  private readonly formulas = new FormulasStore();
  private readonly planning = new PlanningStore();

  constructor(
    private readonly db: Db,
    private readonly acts: ActsService,
  ) {}

  /** Everything that is kept; what is not kept any more only as long as something of it is left. */
  all(studioId: string): Promise<WholeShelf> {
    return this.db.inStudio(studioId, async (tx) => {
      const today = await this.acts.today(tx);
      const facts = await this.planning.facts(tx, today);
      const lots = [...facts.lots];
      const missing = missingIn(lookAhead(facts, today));
      const kept = facts.items.filter((item) => !item.archived || lots.some((lot) => lot.itemId === item.id));
      const standings = kept.map((item) => standingOf(item, lots, missing, today));
      const there = kept.filter((item) => lots.some((lot) => lot.itemId === item.id && lot.onHand > 0n));
      const cautions = shelfCautions(there, await this.formulas.substances(tx));
      return { today, standings, lots, cautions, ...(await this.around(tx)) };
    });
  }

  /** @throws AppError not_found */
  item(studioId: string, itemId: string): Promise<ItemView> {
    return this.db.inStudio(studioId, async (tx) => {
      const today = await this.acts.today(tx);
      const item = (await this.store.items(tx)).find((one) => one.id === itemId);
      if (!item) throw new AppError('not_found', 'This is not kept on the shelf.');
      const facts = await this.planning.facts(tx, today);
      const horizon = lookAhead(facts, today);
      const standing = standingOf(item, facts.lots, missingIn(horizon), today);
      const { orders, ...rest } = await this.around(tx);
      const gone = await this.lots.goneOf(tx, itemId, MOST);
      const own = orders.filter((one) => one.itemId === itemId);
      return { today, standing, horizon, gone, orders: own, ...rest };
    });
  }

  /** @throws AppError not_found */
  bottle(studioId: string, lotId: string): Promise<BottleView> {
    return this.db.inStudio(studioId, async (tx) => {
      const lot = await this.lots.byId(tx, lotId);
      const items = await this.store.items(tx);
      const item = items.find((one) => one.id === lot?.itemId);
      if (!lot || !item) throw new AppError('not_found', 'This bottle is not known here.');
      const all = (await this.store.lots(tx)).filter((one) => one.id !== lotId && one.state === 'good');
      const today = await this.acts.today(tx);
      const usable = all.filter((one) => usableOn(one, today));
      const solvents = usable.flatMap((one) => {
        const of = items.find(({ id }) => id === one.itemId);
        return of?.kind === 'chemical' && of.id !== item.id && of.unit === item.unit
          ? [{ item: of, lot: one }]
          : [];
      });
      return {
        today,
        item,
        lot,
        ledger: levels(lot.onHand, await this.lots.movements(tx, lotId, MOST)),
        family: await this.lots.family(tx, lotId),
        heldFor: await this.lots.heldOf(tx, lotId),
        history: await historyOf(tx, lotId),
        others: all.filter((one) => one.itemId === item.id),
        solvents,
      };
    });
  }

  private async around(tx: Tx) {
    return {
      orders: await this.receipts.open(tx),
      suppliers: await this.suppliers.all(tx),
      sizes: await this.store.plateSizes(tx),
    };
  }
}

/** What was in it after each movement, reckoned back from what is in it now. */
function levels(onHand: bigint, latestFirst: MovementLine[]): (MovementLine & { level: bigint })[] {
  let level = onHand;
  return latestFirst.map((line) => {
    const after = { ...line, level };
    if (line.kind !== 'reserved' && line.kind !== 'released') level -= line.quantity;
    return after;
  });
}

/** What neither bottles nor orders on their way give. */
function missingIn({ items }: Horizon): Planned[] {
  return [...items.values()].flatMap((ahead) =>
    [...missingOf(ahead)].flatMap(([key, quantity]) => {
      const neededOn = ahead.needs.get(key)?.day;
      return neededOn ? [{ itemId: ahead.item.id, quantity, neededOn }] : [];
    }),
  );
}
