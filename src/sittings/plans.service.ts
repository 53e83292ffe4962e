// Plans for the waiting list: proposed by the solver, looked at and changed by the owner, confirmed person by person
// through the same acts as by hand. Nothing is given and nobody is told before that.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Account } from '../accounts/accounts.schemas.js';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import { AppError } from '../platform/problems.js';
import { StockService } from '../stock/stock.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { buildModel } from '../waiting/planner-model.calc.js';
import type { Weights } from '../waiting/planner-points.calc.js';
import { readPlan } from '../waiting/planner.calc.js';
import { SolverService } from '../waiting/solver.service.js';
import { WaitingService } from '../waiting/waiting.service.js';
import { DecisionsService } from './decisions.service.js';
import { ListService } from './list.service.js';
import { NOT_GIVEN, OffersService } from './offers.service.js';
import { entriesOf } from './plan-entries.calc.js';
import { PlanFactsService } from './plan-facts.service.js';
import { planProblem } from './plan-problem.calc.js';
import { type Entry, GIVEN, type Gives, type Plan } from './plans.schemas.js';
import { PlansStore } from './plans.store.js';
import type { SittingView } from './sittings.schemas.js';
import { hasPlace } from './states.calc.js';
import { SittingViews } from './views.service.js';

/** A plan with everybody in it. */
export interface WholePlan {
  plan: Plan;
  entries: (Entry & { view: SittingView })[];
  /** Names of items, for those that are short. */
  items: Map<string, string>;
}

/** So many plans are listed. */
const LISTED = 8;

@Injectable()
export class PlansService {
  private readonly store = new PlansStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly studios: StudiosService,
    private readonly stock: StockService,
    private readonly waiting: WaitingService,
    private readonly list: ListService,
    private readonly views: SittingViews,
    private readonly facts: PlanFactsService,
    private readonly solver: SolverService,
    private readonly offers: OffersService,
    private readonly decisions: DecisionsService,
  ) {}

  /** Makes a plan for all who wait and keeps it as the one to be decided about. @returns its id */
  async propose(studioId: string, who: Account, weights: Weights): Promise<string> {
    const facts = await this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const listed = await this.list.listed(tx, studio, await this.waiting.rules(tx));
      return this.facts.of(
        tx,
        studio,
        listed.map(({ view }) => view),
      );
    });
    const about = planProblem(facts, weights);
    const model = buildModel(about.problem);
    const found = readPlan(about.problem, model, await this.solver.solve(model.milp));
    const plan: Plan = {
      id: this.random.id(),
      madeAt: this.clock.now(),
      who: who.name,
      weights,
      state: 'proposed',
      gives: null,
      points: found.points,
      bound: found.bound,
    };
    await this.db.inStudio(studioId, async (tx) => {
      await this.store.dropProposed(tx, plan.madeAt);
      await this.store.insert(tx, plan, entriesOf(about, found));
    });
    return plan.id;
  }

  /** The latest plans, the newest first, and how many wait. */
  overview(studioId: string): Promise<{ plans: Plan[]; waiting: number }> {
    return this.db.inStudio(studioId, async (tx) => {
      const plans = await this.store.latest(tx, LISTED);
      return { plans, waiting: await this.list.waitingCount(tx) };
    });
  }

  /** @throws AppError not_found */
  whole(studioId: string, planId: string): Promise<WholePlan> {
    return this.db.inStudio(studioId, async (tx) => {
      const plan = await this.store.byId(tx, planId, false);
      if (!plan) throw unknown();
      const studio = await this.studios.load(tx);
      const entries = await this.store.entries(tx, planId);
      const views = await this.views.byIds(
        tx,
        studio,
        entries.map((one) => one.sittingId),
      );
      const byId = new Map(views.map((view) => [view.sitting.id, view]));
      return {
        plan,
        entries: entries.flatMap((entry) => {
          const view = byId.get(entry.sittingId);
          return view ? [{ ...entry, view }] : [];
        }),
        items: new Map((await this.stock.items(tx)).map((item) => [item.id, item.name])),
      };
    });
  }

  /** Puts a plan away; once more is no mistake. @throws AppError not_found, wrong_state for a confirmed one */
  async drop(studioId: string, planId: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const plan = await this.store.byId(tx, planId, true);
      if (!plan) throw unknown();
      if (plan.state === 'confirmed') throw settled();
      await this.store.settle(tx, planId, 'dropped', null, this.clock.now());
    });
  }

  /**
   * Gives those who stay in the plan their places, or offers them, each all or nothing; for whom it could not be done
   * is noted with the reason. Confirmed again, it goes on with whom it did not reach, and does nothing twice.
   * @throws AppError not_found, wrong_state for a plan put away
   */
  async confirm(
    studioId: string,
    who: Account,
    planId: string,
    chosen: { gives: Gives; people: string[] },
  ): Promise<void> {
    const { gives, open } = await this.db.inStudio(studioId, async (tx) => {
      const plan = await this.store.byId(tx, planId, true);
      if (!plan) throw unknown();
      if (plan.state === 'dropped') throw settled();
      if (plan.state === 'proposed') {
        await this.store.tick(tx, planId, chosen.people);
        await this.store.settle(tx, planId, 'confirmed', chosen.gives, this.clock.now());
        const about = { aboutKind: 'plan', aboutId: planId, event: 'confirm', note: chosen.gives };
        await recordHistory(tx, this.clock, { who: who.name, ...about });
      }
      const entries = await this.store.entries(tx, planId);
      return {
        gives: plan.gives ?? chosen.gives,
        open: entries.filter((one) => one.ticked && one.wallStart !== null && one.outcome === ''),
      };
    });
    for (const { sittingId, wallStart } of open) {
      if (!wallStart) continue;
      const outcome = await this.give(studioId, who, gives, sittingId, wallStart);
      await this.db.inStudio(studioId, (tx) => this.store.setOutcome(tx, planId, sittingId, outcome));
    }
  }

  /** The outcome: 'given', or in words why not. What is not an answer to a person goes on as an error. */
  private async give(
    studioId: string,
    who: Account,
    gives: Gives,
    sittingId: string,
    wallStart: Temporal.PlainDateTime,
  ): Promise<string> {
    try {
      if (gives === 'offer') await this.offers.make(studioId, who, sittingId, wallStart);
      else await this.decisions.approve(studioId, who, sittingId, wallStart);
      return GIVEN;
    } catch (error) {
      if (!(error instanceof AppError) || !NOT_GIVEN.includes(error.code)) throw error;
      const hasIt = error.code === 'wrong_state' && (await this.has(studioId, sittingId, wallStart));
      return hasIt ? GIVEN : error.detail;
    }
  }

  /** Whether they have this very place: from an earlier try that was cut off before it was noted. */
  private has(studioId: string, sittingId: string, wallStart: Temporal.PlainDateTime): Promise<boolean> {
    return this.db.inStudio(studioId, async (tx) => {
      const { sitting, place } = await this.views.byId(tx, await this.studios.load(tx), sittingId);
      return hasPlace(sitting.state) && place?.wallStart.equals(wallStart) === true;
    });
  }
}

const unknown = () => new AppError('not_found', 'This plan is not known here.');
const settled = () => new AppError('wrong_state', 'This plan was decided about in the meantime.');
