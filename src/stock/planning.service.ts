// Looking ahead: what everybody needs of the shelf, what is there and on its way for it, and what must be mixed
// and ordered by when. It changes nothing; setting aside stays with StockService, by the same rule.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { ActsService } from './acts.service.js';
import { type Horizon, lookAhead } from './horizon.calc.js';
import { PlanningStore } from './planning.store.js';
import type { Receipt } from './receipts.schemas.js';
import { ReceiptsStore } from './receipts.store.js';
import type { Supplier } from './suppliers.schemas.js';
import { SuppliersStore } from './suppliers.store.js';

export interface OrdersAhead {
  horizon: Horizon;
  suppliers: Supplier[];
  /** The next first. */
  onTheWay: Receipt[];
}

@Injectable()
export class PlanningService {
  private readonly store = new PlanningStore();
  private readonly suppliers = new SuppliersStore();
  private readonly receipts = new ReceiptsStore();

  constructor(
    private readonly db: Db,
    private readonly acts: ActsService,
  ) {}

  /** All that is ahead, from one day on, as if some places were given back. Four statements. */
  async horizon(
    tx: Tx,
    today: Temporal.PlainDate,
    without: ReadonlySet<string> = new Set(),
  ): Promise<Horizon> {
    const facts = await this.store.facts(tx, today);
    const needs = facts.needs.filter(({ heldFor }) => !without.has(heldFor));
    return lookAhead({ ...facts, needs }, today);
  }

  /** What is to be ordered, of whom, and what is on its way. */
  orders(studioId: string): Promise<OrdersAhead> {
    return this.db.inStudio(studioId, async (tx) => ({
      horizon: await this.horizon(tx, await this.acts.today(tx)),
      suppliers: await this.suppliers.all(tx),
      onTheWay: await this.receipts.open(tx),
    }));
  }

  /** All that is ahead, from today on. */
  ahead(studioId: string): Promise<Horizon> {
    return this.db.inStudio(studioId, async (tx) => this.horizon(tx, await this.acts.today(tx)));
  }
}
