// A thread for long reckoning, so that the process that answers pages goes on answering. It begins with the first
// question, answers one at a time in the order they came, and is ended when one takes too long; the next question then
// begins another. The file of the thread answers `{ number, what, asked }` with `{ number, found }` or `{ number, broke }`.
import { Worker } from 'node:worker_threads';
import { z } from 'zod';

const answer = z.union([
  z.object({ number: z.number(), found: z.unknown() }),
  z.object({ number: z.number(), broke: z.string() }),
]);

/** `Questions` names each question's plain data and the answer's. */
export class Thread<Questions extends Record<keyof Questions, { asked: unknown; found: unknown }>> {
  private thread: Worker | null = null;
  private last: Promise<unknown> = Promise.resolve();
  private number = 0;

  /** @param file the thread's own, plain JavaScript: the same in source, tests and build */
  constructor(private readonly file: URL) {}

  /** Null when so many seconds went by, not counting the wait for earlier questions. @throws Error when the thread breaks */
  ask<W extends keyof Questions>(
    what: W,
    asked: Questions[W]['asked'],
    seconds: number,
  ): Promise<Questions[W]['found'] | null> {
    const next = this.last.then(() => this.once(what, asked, seconds));
    this.last = next.catch(() => undefined);
    return next;
  }

  async end(): Promise<void> {
    const thread = this.thread;
    this.thread = null;
    await thread?.terminate();
  }

  private once<W extends keyof Questions>(
    what: W,
    asked: Questions[W]['asked'],
    seconds: number,
  ): Promise<Questions[W]['found'] | null> {
    this.thread ??= new Worker(this.file);
    const thread = this.thread;
    this.number += 1;
    const number = this.number;
    return new Promise((resolve, reject) => {
      const broke = (error: unknown) => {
        if (this.thread === thread) this.thread = null;
        settle(() => reject(error));
      };
      const ended = () => broke(new Error('A thread ended without an answer.'));
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
