// What a day took off the shelf, told after it: what was set aside is given back, and the bottles follow what was really
// used by the difference to what was told before. It does not know who tells it. Methods take the caller's transaction.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Tx } from '../platform/db/tx.js';
import { counted, type LotChange, poured } from './acts.calc.js';
import { ActsService } from './acts.service.js';
import { LotsStore } from './lots.store.js';
import { type OfLot, SettledStore } from './settled.store.js';
import type { Held, Lot } from './stock.schemas.js';
import { StockStore } from './stock.store.js';

/** What is told of one sitting, or of the day's own test plates. */
export interface ToldUse {
  /** What was set aside of these items for it is given back; null: nothing is. */
  heldFor: string | null;
  items: string[];
  /** By how much more (below 0: less) was taken of which lot than was told before. */
  differences: { lotId: string; by: bigint }[];
  reason: string;
  who: string;
}

@Injectable()
export class ToldUseService {
  private readonly store = new StockStore();
  private readonly lots = new LotsStore();
  private readonly settled = new SettledStore();

  constructor(private readonly acts: ActsService) {}

  /** What is set aside for a place on a day. */
  async held(tx: Tx, heldFor: string, day: Temporal.PlainDate): Promise<Held[]> {
    return (await this.store.reservations(tx, heldFor)).filter((one) => one.neededOn.equals(day));
  }

  /** All bottles and boxes of some items that are not gone, and those named. */
  lotsOf(tx: Tx, itemIds: string[], named: string[]): Promise<Lot[]> {
    return this.store.lotsOf(tx, itemIds, named);
  }

  /** Some lots, gone or not. */
  named(tx: Tx, lotIds: string[]): Promise<Lot[]> {
    return this.lots.byIds(tx, lotIds);
  }

  /** What was settled as used for a place on a day, of some items; whoever asks answers for it from now on. */
  async takeOver(
    tx: Tx,
    day: Temporal.PlainDate,
    heldFor: string,
    itemIds: readonly string[],
  ): Promise<OfLot[]> {
    const settled = await this.settled.of(tx, day, heldFor);
    const lots = await this.lots.byIds(
      tx,
      settled.map((one) => one.lotId),
    );
    const wanted = new Set(lots.filter((lot) => itemIds.includes(lot.itemId)).map((lot) => lot.id));
    await this.settled.remove(tx, day, heldFor, [...wanted]);
    return settled.filter((one) => wanted.has(one.lotId));
  }

  /** Gives back what was set aside and moves the bottles by the differences, in one act. */
  async tell(tx: Tx, { heldFor, items, differences, reason, who }: ToldUse): Promise<void> {
    const moved = differences.filter((one) => one.by !== 0n);
    const lots = await this.lots.byIds(
      tx,
      moved.map((one) => one.lotId),
    );
    await this.acts.act(tx, {
      items: [...items, ...lots.map((lot) => lot.itemId)],
      named: lots.map((lot) => lot.id),
      ...(heldFor !== null && { leaves: heldFor }),
      who,
      change: (now) => moved.flatMap(({ lotId, by }) => changeOf(now, lotId, by, reason)),
    });
  }
}

function changeOf(lots: Lot[], lotId: string, by: bigint, reason: string): LotChange[] {
  const lot = lots.find((one) => one.id === lotId);
  if (!lot) throw new Error('A bottle went while its use was told.');
  if (by < 0n) return [counted(lot, lot.onHand - by, reason)];
  const act = poured(lot, by, 'used', reason);
  if (!act.ok) throw new Error('More was told to be used than is in the bottle.');
  return act.changes;
}
