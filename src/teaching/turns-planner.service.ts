// Plans turns in threads of their own, so that no page waits for another one's reckoning: one for the turns
// themselves, one for the changes that would make a day fit. It stores nothing and knows no student by name.
import { Injectable, type OnModuleDestroy } from '@nestjs/common';
import { Thread } from '../platform/thread.js';
import type { Rota, RotaAnswer } from './rota.calc.js';
import type { Bench } from './rota-bench.calc.js';
import type { Remedy } from './rota-changes.calc.js';
import type { Meanwhile } from './rota-replan.calc.js';

/** Seconds after which a question is given up. Assumptions: a page is waited for, people at a bench wait less. */
const LIMITS = { plan: 10, replan: 5, changes: 8 };

interface Questions {
  plan: { asked: { bench: Bench }; found: RotaAnswer };
  replan: { asked: { bench: Bench; rota: Rota; meanwhile: Meanwhile }; found: RotaAnswer };
  changes: { asked: { bench: Bench }; found: Remedy[] };
}

const newThread = () => new Thread<Questions>(new URL('./turns.worker.mjs', import.meta.url));

@Injectable()
export class TurnsPlanner implements OnModuleDestroy {
  private readonly laying = newThread();
  private readonly changing = newThread();

  /** Null when the time ran out. @throws Error when the thread breaks */
  plan(bench: Bench, seconds = LIMITS.plan): Promise<RotaAnswer | null> {
    return this.laying.ask('plan', { bench }, seconds);
  }

  /** Null when the time ran out. @throws Error when the thread breaks */
  replan(
    bench: Bench,
    rota: Rota,
    meanwhile: Meanwhile,
    seconds = LIMITS.replan,
  ): Promise<RotaAnswer | null> {
    return this.laying.ask('replan', { bench, rota, meanwhile }, seconds);
  }

  /** The smallest changes that make a day fit; null when the time ran out. @throws Error when the thread breaks */
  changes(bench: Bench, seconds = LIMITS.changes): Promise<Remedy[] | null> {
    return this.changing.ask('changes', { bench }, seconds);
  }

  async onModuleDestroy(): Promise<void> {
    await Promise.all([this.laying.end(), this.changing.end()]);
  }
}
