// Proposes new places for sittings that must leave theirs. It changes nothing: no place is given back and nobody told.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Db } from '../platform/db/db.js';
import type { DateRange } from '../room/days.calc.js';
import type { Slot } from '../room/openings.calc.js';
import { StudiosService } from '../studios/studios.service.js';
import { plan } from '../waiting/planner.calc.js';
import { SolverService } from '../waiting/solver.service.js';
import { moveProblem, type Urgency } from './move-proposal.calc.js';
import { PlanFactsService } from './plan-facts.service.js';
import type { NoPlace } from './plan-problem.calc.js';
import type { SittingView } from './sittings.schemas.js';
import { SittingViews } from './views.service.js';

export interface MoveProposal {
  view: SittingView;
  urgency: Urgency;
  /** They are on the way, or a letter may come too late. */
  telephoneNow: boolean;
  from: Temporal.PlainDateTime | null;
  /** Null: there is no place for them, for the reason in `why`; or they are only offered one, and get no other. */
  to: { slot: Slot; askedFor: boolean; onShelf: 'enough' | 'to be had' } | null;
  /** 'others': what they could have goes to those who are more pressing. */
  why: NoPlace | 'others' | null;
}

@Injectable()
export class MoveProposalsService {
  constructor(
    private readonly db: Db,
    private readonly studios: StudiosService,
    private readonly views: SittingViews,
    private readonly facts: PlanFactsService,
    private readonly solver: SolverService,
  ) {}

  /**
   * For some sittings, the most pressing first. `closed` are days that none of them can have, both ends included.
   * Sittings that are not known are left out.
   */
  async propose(
    studioId: string,
    sittingIds: string[],
    closed: DateRange | null = null,
  ): Promise<MoveProposal[]> {
    const facts = await this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      return this.facts.of(tx, studio, await this.views.byIds(tx, studio, sittingIds));
    });
    const about = moveProblem(facts, closed);
    const found = await plan(about.problem, (milp) => this.solver.solve(milp));
    const placings = new Map(found.given.map(({ wish, placing }) => [wish, placing]));
    return about.leaving.map(({ waiting: { view }, urgency }, wish): MoveProposal => {
      const choice = about.choices[wish]?.[placings.get(wish) ?? -1];
      const common = {
        view,
        urgency,
        telephoneNow: urgency !== 'in time',
        from: view.place?.wallStart ?? null,
      };
      if (!choice) {
        const offered = view.sitting.state === 'offered';
        return { ...common, to: null, why: offered ? null : (about.noPlace[wish] ?? 'others') };
      }
      const { slot, askedFor, onShelf } = choice;
      return {
        ...common,
        to: { slot, askedFor, onShelf: onShelf === 'enough' ? onShelf : 'to be had' },
        why: null,
      };
    });
  }
}
