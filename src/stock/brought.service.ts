// Bottles, batches and boxes that stood on the shelf before there was a book of it: they come in as counted by whoever
// brings them in, several at once. Its methods take the caller's transaction.
import { Injectable } from '@nestjs/common';
import { dayInWords } from '../lib/words.js';
import { Random } from '../platform/clock.js';
import { touchedSince } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { discarded, received } from './acts.calc.js';
import { ActsService, changesOf, endOfLife, failed, type Who } from './acts.service.js';
import { LotsStore } from './lots.store.js';
import type { BroughtBottle } from './brought.schemas.js';
import type { Lot } from './stock.schemas.js';

@Injectable()
export class BroughtBottles {
  private readonly store = new LotsStore();

  constructor(
    private readonly random: Random,
    private readonly acts: ActsService,
  ) {}

  /** @returns their ids, in the order given */
  async enter(tx: Tx, who: Who, bottles: readonly BroughtBottle[]): Promise<string[]> {
    const today = await this.acts.today(tx);
    const changes = bottles.map(({ item, quantity, label, usableUntil, ...rest }) =>
      received(
        this.random.id(),
        {
          ...rest,
          itemId: item.id,
          label: label || `${item.name}, ${dayInWords(today)}`.slice(0, 120),
          usableFrom: today,
          usableUntil: usableUntil ?? endOfLife(item, today),
          receivedOn: today,
        },
        quantity,
        'received',
      ),
    );
    const items = [...new Set(bottles.map(({ item }) => item.id))];
    await this.acts.act(tx, { items, change: () => changes, who: who.name });
    for (const { lot } of changes) await this.acts.record(tx, who, lot.id, 'receive', lot.label);
    return changes.map(({ lot }) => lot.id);
  }

  /** Those of some, as they came in up to a line of history, of which something was used or told since. */
  async touched(tx: Tx, ids: string[], upTo: bigint): Promise<Lot[]> {
    const since = await touchedSince(tx, upTo, ids);
    const used = await this.store.usedOf(tx, ids);
    return (await this.store.byIds(tx, ids)).filter(({ id }) => since.has(id) || used.has(id));
  }

  /** Takes them off the shelf again; the ledger, which is only added to, tells of both. */
  async takeBack(tx: Tx, who: Who, ids: string[]): Promise<void> {
    const lots = await this.store.byIds(tx, ids);
    const change = (standing: Lot[]) =>
      ids.flatMap((id) =>
        changesOf(discarded(standing.find((lot) => lot.id === id) ?? failed(), 'brought in by mistake')),
      );
    await this.acts.act(tx, { items: [...new Set(lots.map((lot) => lot.itemId))], change, who: who.name });
  }
}
