// Looking ahead: what everybody needs of the shelf, what is there and on its way for it, and what must be mixed
// and ordered by when. It changes nothing; setting aside stays with StockService, by the same rule.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { ActsService } from './acts.service.js';
import { type Horizon, lookAhead } from './horizon.calc.js';
import { PlanningStore } from './planning.store.js';

@Injectable()
export class PlanningService {
  private readonly store = new PlanningStore();

  constructor(
    private readonly db: Db,
    private readonly acts: ActsService,
  ) {}

  /** All that is ahead, from one day on. Four statements. */
  async horizon(tx: Tx, today: Temporal.PlainDate): Promise<Horizon> {
    return lookAhead(await this.store.facts(tx, today), today);
  }

  /** All that is ahead, from today on. */
  ahead(studioId: string): Promise<Horizon> {
    return this.db.inStudio(studioId, async (tx) => this.horizon(tx, await this.acts.today(tx)));
  }
}
