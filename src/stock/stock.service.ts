// Setting stock aside for a place and giving it back. Its methods take the caller's transaction.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Clock, Random } from '../platform/clock.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { coverOn, type ItemCover } from './cover.calc.js';
import {
  type Item,
  type Lot,
  type Need,
  type NewItem,
  type NewLot,
  type PlateSize,
  type SetAside,
  withExtras,
  withLotExtras,
} from './stock.schemas.js';
import { StockStore } from './stock.store.js';
import type { Planned } from './wants.calc.js';

@Injectable()
export class StockService {
  private readonly store = new StockStore();

  constructor(
    private readonly clock: Clock,
    private readonly random: Random,
  ) {}

  plateSizes(tx: Tx): Promise<PlateSize[]> {
    return this.store.plateSizes(tx);
  }

  items(tx: Tx): Promise<Item[]> {
    return this.store.items(tx);
  }

  lots(tx: Tx): Promise<Lot[]> {
    return this.store.lots(tx);
  }

  /** What no lot has given yet to the places of a day and later. */
  planned(tx: Tx, from: Temporal.PlainDate): Promise<Planned[]> {
    return this.store.planned(tx, from);
  }

  /**
   * Sets a place's needs aside, first expiring first; what no lot can give is noted as to be mixed or bought.
   * @throws AppError short_of_stock when something can no longer be had by that day
   */
  async reserve(
    tx: Tx,
    heldFor: string,
    needs: Need[],
    day: Temporal.PlainDate,
    today: Temporal.PlainDate,
  ): Promise<void> {
    for (const part of await this.lockedCover(tx, needs, day, today)) {
      if (part.state === 'cannot be had')
        throw new AppError(
          'short_of_stock',
          `There is not enough ${part.item.name} for that day, and it cannot be had in time.`,
        );
      for (const { lotId, quantity } of part.fromLots) {
        const take = {
          id: this.random.id(),
          movementId: this.random.id(),
          heldFor,
          lotId,
          quantity,
          neededOn: day,
        };
        if (!(await this.store.takeFromLot(tx, take, this.clock.now())))
          throw new AppError(
            'short_of_stock',
            `The ${part.item.name} was set aside for someone else a moment ago.`,
          );
      }
      if (part.missing > 0n) {
        const planned = {
          id: this.random.id(),
          heldFor,
          itemId: part.item.id,
          quantity: part.missing,
          neededOn: day,
        };
        await this.store.insertPlanned(tx, planned);
      }
    }
  }

  /** Gives back everything a place had set aside; nothing happens when it had nothing. */
  async release(tx: Tx, heldFor: string): Promise<void> {
    for (const one of await this.store.reservations(tx, heldFor))
      if (one.lot_id !== null)
        await this.store.giveBackToLot(tx, one.reservation_id, this.random.id(), this.clock.now());
    await this.store.deletePlanned(tx, heldFor);
  }

  /** What a place has set aside, by item and lot. */
  async setAside(tx: Tx, heldFor: string): Promise<SetAside[]> {
    const items = new Map((await this.store.items(tx)).map((item) => [item.id, item]));
    const labels = new Map((await this.store.lots(tx)).map((lot) => [lot.id, lot.label]));
    return (await this.store.reservations(tx, heldFor)).flatMap((one) => {
      const item = items.get(one.item_id);
      return item
        ? [{ item, quantity: one.quantity, lotLabel: one.lot_id && (labels.get(one.lot_id) ?? null) }]
        : [];
    });
  }

  async enterPlateSize(tx: Tx, size: Omit<PlateSize, 'id'>): Promise<PlateSize> {
    const entered = { id: this.random.id(), ...size };
    await this.store.insertPlateSize(tx, entered);
    return entered;
  }

  async enterItem(tx: Tx, item: NewItem): Promise<Item> {
    const entered = { id: this.random.id(), ...withExtras(item) };
    await this.store.insertItem(tx, entered);
    return entered;
  }

  /** Puts a new lot on the shelf. */
  async receive(
    tx: Tx,
    lot: NewLot,
    quantity: bigint,
    kind: 'received' | 'mixed' = 'received',
  ): Promise<string> {
    const id = this.random.id();
    await this.store.insertLot(tx, { id, ...withLotExtras(lot) });
    await this.store.addToLot(tx, id, quantity);
    const movement = { id: this.random.id(), lotId: id, kind, quantity, reason: '' };
    await this.store.insertMovement(tx, movement, this.clock.now());
    return id;
  }

  private async lockedCover(
    tx: Tx,
    needs: Need[],
    day: Temporal.PlainDate,
    today: Temporal.PlainDate,
  ): Promise<ItemCover[]> {
    const items = await this.store.items(tx);
    const ids = needs.map((need) => need.itemId).sort();
    return coverOn(needs, { items, lots: await this.store.lockUsableLots(tx, ids, day) }, day, today);
  }
}
