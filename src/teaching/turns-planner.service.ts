// Plans turns in threads of their own, so that no page waits for another one's reckoning: one for the turns
// themselves, one for the changes that would make a day fit. It stores nothing and knows no student by name.
import { Worker } from 'node:worker_threads';
import { Injectable, type OnModuleDestroy } from '@nestjs/common';
import { z } from 'zod';
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
type What = keyof Questions;

/** What was found, or null when the time ran out. */
type Found<W extends What> = Questions[W]['found'] | null;

const answer = z.union([
  z.object({ number: z.number(), found: z.unknown() }),
  z.object({ number: z.number(), broke: z.string() }),
]);

@Injectable()
export class TurnsPlanner implements OnModuleDestroy {
  private readonly laying = new PlannerThread();
  private readonly changing = new PlannerThread();

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

/** A thread that begins with the first question, answers one at a time, and is ended when one takes too long. */
class PlannerThread {
  private thread: Worker | null = null;
  private last: Promise<unknown> = Promise.resolve();
  private number = 0;

  ask<W extends What>(what: W, asked: Questions[W]['asked'], seconds: number): Promise<Found<W>> {
    const next = this.last.then(() => this.once(what, asked, seconds));
    this.last = next.catch(() => undefined);
    return next;
  }

  async end(): Promise<void> {
    const thread = this.thread;
    this.thread = null;
    await thread?.terminate();
  }

  private once<W extends What>(what: W, asked: Questions[W]['asked'], seconds: number): Promise<Found<W>> {
    this.thread ??= new Worker(new URL('./turns.worker.mjs', import.meta.url));
    const thread = this.thread;
    this.number += 1;
    const number = this.number;
    return new Promise((resolve, reject) => {
      const broke = (error: unknown) => {
        if (this.thread === thread) this.thread = null;
        settle(() => reject(error));
      };
      const ended = () => broke(new Error('The thread that plans turns ended without an answer.'));
      const answered = (message: unknown) => {
        const read = answer.safeParse(message);
        if (!read.success) return broke(read.error);
        if (read.data.number !== number) return;
        const { data } = read;
        if ('broke' in data) settle(() => reject(new Error(data.broke)));
        else settle(() => resolve(data.found as Questions[W]['found']));
      };
      const timer = setTimeout(() => {
        settle(() => resolve(null));
        void this.end();
      }, seconds * 1000);
      function settle(then: () => void) {
        clearTimeout(timer);
        thread.off('error', broke).off('exit', ended).off('message', answered);
        thread.unref(); // a thread that waits keeps no program from ending
        then();
      }
      thread.ref();
      thread.on('error', broke).on('exit', ended).on('message', answered);
      thread.postMessage({ number, what, asked });
    });
  }
}
