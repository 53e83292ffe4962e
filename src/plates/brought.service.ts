// Plates made before: into the book with the numbers they have, below the one it goes on from. They move no stock, no
// bath and no figure of the studio's. Methods take the caller's transaction.
import { Injectable } from '@nestjs/common';
import { Clock, Random } from '../platform/clock.js';
import { touchedSince } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import type { BroughtPlate } from './brought.schemas.js';
import { BroughtStore } from './brought.store.js';
import { MadeStore } from './made.store.js';

@Injectable()
export class BroughtPlates {
  private readonly store = new BroughtStore();
  private readonly made = new MadeStore();

  constructor(
    private readonly clock: Clock,
    private readonly random: Random,
  ) {}

  /** From which number the book goes on (null: nobody said), and which of some numbers it has already. */
  async numbers(tx: Tx, asked: number[]): Promise<{ next: number | null; taken: Set<number> }> {
    return { next: await this.made.next(tx), taken: await this.store.taken(tx, asked) };
  }

  /** @returns their ids, in the order given @throws AppError wrong_state where a number was given in the meantime */
  async enter(tx: Tx, who: { name: string }, plates: readonly BroughtPlate[]): Promise<string[]> {
    const numbers = plates.map(({ number }) => number);
    const highest = numbers.reduce((most, one) => Math.max(most, one), 0);
    if ((await this.made.lockNext(tx)) === null) await this.made.begin(tx, highest + 1);
    const next = (await this.made.lockNext(tx)) ?? 0;
    if (next <= highest || (await this.store.taken(tx, numbers)).size > 0)
      throw new AppError('wrong_state', 'One of these numbers was given to another plate in the meantime.');
    const ids: string[] = [];
    for (const plate of plates) {
      const id = this.random.id();
      ids.push(id);
      const nobody = { sittingId: null, plateId: null, lotId: null, bathId: null, sky: null };
      const none = { seriesId: null, seriesNumber: null, struckAt: null };
      await this.made.insert(tx, { id, ...plate, ...nobody, ...none, who: who.name }, this.clock.now());
    }
    return ids;
  }

  /** The numbers of those of some, by id, with which something was done since they came in up to a line of history. */
  async touched(tx: Tx, ids: string[], upTo: bigint): Promise<Map<string, number>> {
    const since = await touchedSince(tx, upTo, ids);
    const used = await this.store.usedOf(tx, ids, upTo);
    const plates = await this.made.byIds(tx, ids);
    return new Map(
      plates
        .filter(
          (one) => since.has(one.id) || used.has(one.id) || one.struckAt !== null || one.seriesId !== null,
        )
        .map((one) => [one.id, one.number]),
    );
  }

  /** Takes plates out of the book as if they had never been in it; the number it goes on from stays. */
  async remove(tx: Tx, ids: string[]): Promise<void> {
    await this.store.remove(tx, ids);
  }
}
