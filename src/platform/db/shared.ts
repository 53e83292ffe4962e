// Acts of a kind that come at the same time, such as letters of one morning, share a transaction: what opening and ending it
// costs, and what they ask alike (see together-in.ts), is paid once.
import { Together } from '../together.js';
import type { Db } from './db.js';
import type { Tx } from './tx.js';

/** So many share a transaction at most: it holds their rows as long as it takes. */
const MOST = 25;

export class Shared<Q, A> {
  private readonly ofStudio = new Map<string, Together<Q, (() => A) | null>>();

  /**
   * @param act runs again alone where it, or another beside it, has failed; so it must do nothing outside the transaction
   * @param subjectOf no two acts about the same share a transaction
   */
  constructor(
    private readonly db: Db,
    private readonly act: (tx: Tx, question: Q) => Promise<A>,
    private readonly subjectOf: (question: Q) => string,
  ) {}

  /** @throws what the act throws, which has done nothing then; the others are not touched by it */
  async do(studioId: string, question: Q): Promise<A> {
    let together = this.ofStudio.get(studioId);
    if (!together) {
      together = new Together((questions) => this.all(studioId, questions));
      this.ofStudio.set(studioId, together);
    }
    const done = await together.ask(question);
    return done ? done() : this.alone(studioId, question);
  }

  private alone(studioId: string, question: Q): Promise<A> {
    return this.db.inStudio(studioId, (tx) => this.act(tx, question));
  }

  /** What each comes to; null for one that is to be done alone. Whoever comes meanwhile waits, and shares the next one. */
  private async all(studioId: string, questions: Q[]): Promise<((() => A) | null)[]> {
    const answers = questions.map((): (() => A) | null => null);
    const sharing = this.oneOfEach(questions);
    const act = async (tx: Tx) => {
      const acts = sharing.map((at) => this.act(tx, questions[at] as Q));
      for (const one of await Promise.allSettled(acts)) if (one.status === 'rejected') throw one.reason;
      return Promise.all(acts);
    };
    try {
      const done = await this.db.inStudio(studioId, act);
      for (const [n, answer] of done.entries()) answers[sharing[n] as number] = () => answer;
    } catch (error) {
      if (questions.length === 1)
        answers[0] = () => {
          throw error;
        };
    }
    return answers;
  }

  /** Where the first question about each subject stands. */
  private oneOfEach(questions: Q[]): number[] {
    const seen = new Set<string>();
    const first = [...questions.keys()].filter((at) => {
      const subject = this.subjectOf(questions[at] as Q);
      return !seen.has(subject) && seen.add(subject);
    });
    return first.slice(0, MOST);
  }
}
