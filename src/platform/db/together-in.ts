// Several acts of one transaction that run at once ask much alike: for the studio, for a sitting each. What they ask in
// the same turn of the loop is one statement; see together.ts. And what was read is not read again until the transaction
// changes anything.
import { Together } from '../together.js';
import type { Tx } from './tx.js';

interface Kept<A> {
  /** Those of the transaction when they were asked. */
  changes: number;
  answers: Map<string, Promise<A>>;
}

export class TogetherIn<Q, A> {
  private readonly looks = new WeakMap<Tx, Together<Q, A>>();
  private readonly kept = new WeakMap<Tx, Kept<A>>();

  /**
   * @param askAll gives as many answers as there are questions, in their order
   * @param keyOf where given, a question of the same key is answered as before until the transaction changes anything;
   *   so the answers must be left as they are by whoever gets them
   */
  constructor(
    private readonly askAll: (tx: Tx, questions: Q[]) => Promise<A[]>,
    private readonly keyOf?: (question: Q) => string,
  ) {}

  /** @throws what `askAll` throws, to all that were asked together */
  ask(tx: Tx, question: Q): Promise<A> {
    if (!this.keyOf) return this.look(tx, question);
    let kept = this.kept.get(tx);
    if (kept?.changes !== tx.changes) {
      kept = { changes: tx.changes, answers: new Map() };
      this.kept.set(tx, kept);
    }
    const key = this.keyOf(question);
    const answer = kept.answers.get(key) ?? this.look(tx, question);
    kept.answers.set(key, answer);
    return answer;
  }

  private look(tx: Tx, question: Q): Promise<A> {
    let look = this.looks.get(tx);
    if (!look) {
      look = new Together((questions) => this.askAll(tx, questions));
      this.looks.set(tx, look);
    }
    return look.ask(question);
  }
}
