// Questions that come while one is being asked wait, and are then asked together: whoever asks is answered by a look that
// began after they came, and many at once cost little more than one.
import { setImmediate as allWhoCame } from 'node:timers/promises';

export class Together<Q, A> {
  private waiting: { question: Q; resolve: (answer: A) => void; reject: (error: unknown) => void }[] = [];
  private isAsking = false;

  /** @param askAll gives as many answers as there are questions, in their order */
  constructor(private readonly askAll: (questions: Q[]) => Promise<A[]>) {}

  /** @throws what `askAll` throws, to all that were asked together */
  ask(question: Q): Promise<A> {
    return new Promise((resolve, reject) => {
      this.waiting.push({ question, resolve, reject });
      if (!this.isAsking) void this.work();
    });
  }

  private async work(): Promise<void> {
    this.isAsking = true;
    while (this.waiting.length > 0) {
      await allWhoCame(); // in the same turn of the loop
      const now = this.waiting;
      this.waiting = [];
      try {
        const answers = await this.askAll(now.map(({ question }) => question));
        for (const [at, { resolve }] of now.entries()) resolve(answers[at] as A);
      } catch (error) {
        for (const { reject } of now) reject(error);
      }
    }
    this.isAsking = false;
  }
}
