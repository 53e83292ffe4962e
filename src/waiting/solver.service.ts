// Runs HiGHS in a thread of its own, one plan at a time, and ends the thread when its time is over. It knows
// programs and their answers only; what they mean stands in planner.calc.ts.
import { Worker } from 'node:worker_threads';
import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import type { Solved } from './planner.calc.js';
import type { Milp } from './planner-model.calc.js';

/** Seconds that the solver may search. It then tells the best it has, and how far off that may be. */
const SOLVER_SECONDS = 4;
/** Seconds beyond, for the thread to start and to answer, after which it is ended without an answer. */
const GRACE_SECONDS = 10;

const answer = z.object({
  proven: z.boolean(),
  bound: z.number().nullable(),
  /** Its own class is that of another thread. */
  values: z.custom<ArrayLike<number>>((values) => ArrayBuffer.isView(values)),
});

@Injectable()
export class SolverService {
  private last: Promise<unknown> = Promise.resolve();

  /**
   * The best plan found in so many seconds; for a lack of time nothing found and nothing proven.
   * @throws Error when the thread breaks
   */
  solve(milp: Milp, seconds = SOLVER_SECONDS): Promise<Solved> {
    const next = this.last.then(async () => {
      const thread = startThread();
      try {
        return await thread.solve(milp, seconds);
      } finally {
        await thread.end();
      }
    });
    this.last = next.catch(() => undefined);
    return next;
  }
}

/** A thread that takes one program after the other, never two at once; whoever starts it ends it. */
export function startThread(): {
  solve(milp: Milp, seconds: number, graceSeconds?: number): Promise<Solved>;
  end(): Promise<void>;
} {
  const thread = new Worker(new URL('./solver.worker.mjs', import.meta.url));
  return {
    solve: (milp, seconds, graceSeconds = GRACE_SECONDS) =>
      milp.columns === 0 ? Promise.resolve(NOTHING_TO_DO) : ask(thread, milp, seconds, graceSeconds),
    end: async () => {
      await thread.terminate();
    },
  };
}

const NOTHING_TO_DO: Solved = { proven: true, bound: 0, values: [] };
const NOTHING_FOUND: Solved = { proven: false, bound: null, values: [] };

function ask(thread: Worker, milp: Milp, seconds: number, graceSeconds: number): Promise<Solved> {
  return new Promise((resolve, reject) => {
    const broke = (error: unknown) => settle(() => reject(error));
    const ended = () => settle(() => reject(new Error('The solver’s thread ended without an answer.')));
    const answered = (message: unknown) => {
      const read = answer.safeParse(message);
      settle(() => (read.success ? resolve(read.data) : reject(read.error)));
    };
    const timer = setTimeout(
      () => {
        settle(() => resolve(NOTHING_FOUND));
        void thread.terminate();
      },
      (seconds + graceSeconds) * 1000,
    );
    function settle(then: () => void) {
      clearTimeout(timer);
      thread.off('error', broke).off('exit', ended).off('message', answered);
      then();
    }
    thread.on('error', broke).on('exit', ended).on('message', answered);
    thread.postMessage({ milp, seconds });
  });
}
