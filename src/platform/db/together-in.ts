// Several acts of one transaction that run at once ask much alike: for the studio, for a sitting each. What they ask in
// the same turn of the loop is one statement; see together.ts.
import { Together } from '../together.js';
import type { Tx } from './tx.js';

export class TogetherIn<Q, A> {
  private readonly looks = new WeakMap<Tx, Together<Q, A>>();

  /** @param askAll gives as many answers as there are questions, in their order */
  constructor(private readonly askAll: (tx: Tx, questions: Q[]) => Promise<A[]>) {}

  /** @throws what `askAll` throws, to all that were asked together */
  ask(tx: Tx, question: Q): Promise<A> {
    let look = this.looks.get(tx);
    if (!look) {
      look = new Together((questions) => this.askAll(tx, questions));
      this.looks.set(tx, look);
    }
    return look.ask(question);
  }
}
