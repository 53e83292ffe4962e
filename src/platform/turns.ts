// Lets so many at once; the others wait for their turn, in the order they came.

/** Its turn did not come in time: nothing was done. */
export class TurnTooLate extends Error {}

export class Turns {
  private readonly waiting: (() => void)[] = [];

  constructor(private free: number) {}

  /** @throws TurnTooLate when its turn does not come within so many milliseconds; otherwise what the act throws */
  async do<T>(act: () => Promise<T>, within: number): Promise<T> {
    if (this.free > 0) this.free--;
    else await this.turn(within);
    try {
      return await act();
    } finally {
      const next = this.waiting.shift();
      if (next) next();
      else this.free++;
    }
  }

  private turn(within: number): Promise<void> {
    return new Promise((resolve, reject) => {
      const go = () => {
        clearTimeout(timer);
        resolve();
      };
      const timer = setTimeout(() => {
        this.waiting.splice(this.waiting.indexOf(go), 1);
        reject(new TurnTooLate('Its turn did not come in time.'));
      }, within);
      this.waiting.push(go);
    });
  }
}
