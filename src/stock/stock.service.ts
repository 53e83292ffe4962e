// Setting stock aside for a place, giving it back, noting what was used. Its methods take the caller's transaction.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Random } from '../platform/clock.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { counted, type LotChange, poured, received } from './acts.calc.js';
import { ActsService } from './acts.service.js';
import { ItemsStore } from './items.store.js';
import { LotsStore } from './lots.store.js';
import { usableOf, usableOn } from './plan.calc.js';
import { SettledStore } from './settled.store.js';
import {
  type ChosenFrom,
  type Held,
  type Item,
  type Lot,
  type Need,
  type NewItem,
  type NewLot,
  type PlateSize,
  type SetAside,
  withExtras,
} from './stock.schemas.js';
import { StockStore } from './stock.store.js';

@Injectable()
export class StockService {
  private readonly store = new StockStore();
  private readonly lotsStore = new LotsStore();
  private readonly itemsStore = new ItemsStore();
  private readonly settled = new SettledStore();

  constructor(
    private readonly random: Random,
    private readonly acts: ActsService,
  ) {}

  plateSizes(tx: Tx): Promise<PlateSize[]> {
    return this.store.plateSizes(tx);
  }

  items(tx: Tx): Promise<Item[]> {
    return this.store.items(tx);
  }

  /** Some items as they stand, which nobody else changes until the transaction ends; in the order of their ids. */
  lock(tx: Tx, itemIds: readonly string[]): Promise<Item[]> {
    return this.store.lockItems(tx, [...new Set(itemIds)].sort());
  }

  /** Those that are not gone. */
  lots(tx: Tx): Promise<Lot[]> {
    return this.store.lots(tx);
  }

  /**
   * Sets a place's needs aside. All that is set aside of these items for today and later is planned anew with
   * them, so an earlier day may take what a later one had, as long as that can still be mixed or ordered.
   * @throws AppError short_of_stock when less than before can be had for anybody
   */
  async reserve(
    tx: Tx,
    heldFor: string,
    needs: Need[],
    day: Temporal.PlainDate,
    today: Temporal.PlainDate,
  ): Promise<void> {
    const entered = needs
      .filter((need) => need.quantity > 0n)
      .map((need) => ({
        heldFor,
        itemId: need.itemId,
        quantity: need.quantity,
        neededOn: day,
        class: need.class ?? 'any',
        chosenLotId: null,
      }));
    const worse = await this.acts.act(tx, { items: entered.map((need) => need.itemId), entered }, today);
    const own = worse.find((one) => one.heldFor === heldFor) ?? worse[0];
    if (!own) return;
    throw new AppError(
      'short_of_stock',
      own.heldFor === heldFor
        ? `There is not enough ${own.item.name} for that day, and it cannot be had in time.`
        : `What there is of ${own.item.name} is promised to another sitting, and more cannot be had in time.`,
    );
  }

  /** Gives back everything a place had set aside, and plans what was short with it; nothing if it had nothing. */
  async release(tx: Tx, heldFor: string): Promise<void> {
    const held = await this.store.reservations(tx, heldFor);
    if (held.length > 0) await this.acts.act(tx, { items: held.map((one) => one.itemId), leaves: heldFor });
  }

  /** Sets aside anew what is needed of some items, after something about them was changed. */
  async replan(tx: Tx, itemIds: string[]): Promise<void> {
    await this.acts.act(tx, { items: itemIds });
  }

  /**
   * Notes what a place used of which bottle, and gives back all else that it had set aside.
   * @throws AppError bad_input at `used/N/quantity` when more was used than is in the bottle by the book
   */
  async use(tx: Tx, heldFor: string, used: { lotId: string; quantity: bigint }[], who = ''): Promise<void> {
    const held = await this.store.reservations(tx, heldFor);
    const lots = await this.lotsStore.byIds(
      tx,
      used.map((one) => one.lotId),
    );
    await this.acts.act(tx, {
      items: [...held, ...lots].map((one) => one.itemId),
      named: lots.map((lot) => lot.id),
      leaves: heldFor,
      who,
      change: (now) => usedUp(now, used),
    });
  }

  /** What is set aside for a day, with its bottles by name; null where that is still to be mixed or bought. */
  async heldOn(
    tx: Tx,
    day: Temporal.PlainDate,
  ): Promise<{ heldFor: string; item: Item; bottle: string | null }[]> {
    const items = new Map((await this.store.items(tx)).map((item) => [item.id, item]));
    const lots = new Map((await this.store.lots(tx)).map((lot) => [lot.id, lot.label]));
    return (await this.store.heldOn(tx, day)).flatMap(({ heldFor, itemId, lotId }) => {
      const item = items.get(itemId);
      return item ? [{ heldFor, item, bottle: lotId === null ? null : (lots.get(lotId) ?? null) }] : [];
    });
  }

  /** What is still set aside for days before one, the latest day first: nobody has said yet what became of it. */
  unsettled(tx: Tx, day: Temporal.PlainDate): Promise<Held[]> {
    return this.store.unsettled(tx, day);
  }

  /**
   * Says what became of all that is still set aside for a day that is past: it was used as it was reckoned, or it
   * stayed in its bottles. Nothing happens where nothing is set aside for that day any more.
   */
  async settle(
    tx: Tx,
    day: Temporal.PlainDate,
    became: 'used' | 'not used',
    { today, who }: { today: Temporal.PlainDate; who: string },
  ): Promise<void> {
    const ofDay = async () =>
      (await this.store.unsettled(tx, today)).filter((one) => one.neededOn.equals(day));
    // whoever tells otherwise at the same moment what became of it holds the items first, or waits for them
    await this.lock(
      tx,
      (await ofDay()).map((one) => one.itemId),
    );
    const held = await ofDay();
    for (const heldFor of new Set(held.map((one) => one.heldFor))) {
      const own = held.filter((one) => one.heldFor === heldFor);
      const used = own.flatMap(({ lotId, quantity }) => (lotId === null ? [] : [{ lotId, quantity }]));
      if (became === 'not used') await this.release(tx, heldFor);
      else {
        await this.use(tx, heldFor, used, who);
        await this.settled.add(tx, day, heldFor, used);
      }
    }
  }

  /** Puts back into the bottles what `use` took out of them by a slip. */
  async putBack(
    tx: Tx,
    used: { lotId: string; quantity: bigint }[],
    who: string,
    reason = 'an ending was taken back',
  ): Promise<void> {
    const back = new Map<string, bigint>();
    for (const { lotId, quantity } of used) back.set(lotId, (back.get(lotId) ?? 0n) + quantity);
    const lots = await this.lotsStore.byIds(tx, [...back.keys()]);
    await this.acts.act(tx, {
      items: lots.map((one) => one.itemId),
      named: lots.map((lot) => lot.id),
      who,
      change: (now) =>
        now.flatMap((lot) => {
          const quantity = back.get(lot.id);
          return quantity ? [counted(lot, lot.onHand + quantity, reason)] : [];
        }),
    });
  }

  /** What a place has set aside, by item and lot. */
  async setAside(tx: Tx, heldFor: string): Promise<SetAside[]> {
    const items = new Map((await this.store.items(tx)).map((item) => [item.id, item]));
    const lots = await this.store.lots(tx);
    return (await this.store.reservations(tx, heldFor)).flatMap(({ itemId, ...one }) => {
      const item = items.get(itemId);
      const { quantity, lotId, neededOn, class: asked, chosenLotId } = one;
      if (!item) return [];
      const lotLabel = lots.find((lot) => lot.id === lotId)?.label ?? null;
      const couldGive = lots
        .filter((lot) => lot.itemId === itemId && usableOf(lot, item) > 0n && usableOn(lot, neededOn))
        .map((lot) => ({ lotId: lot.id, label: lot.label }));
      return [{ item, quantity, lotId, lotLabel, couldGive, neededOn, class: asked, chosenLotId }];
    });
  }

  /**
   * Sets a need aside from the bottle that the owner chose, as far as it serves; null takes the choice back.
   * @returns how much of the need is now from that bottle; 'by the rule' where the choice was taken back
   * @throws AppError not_found when there is no such need, bad_input when the bottle cannot serve that day,
   * short_of_stock when another's need could not be had any more
   */
  async choose(tx: Tx, need: Omit<Held, 'id' | 'lotId' | 'quantity'>): Promise<ChosenFrom> {
    const { chosenLotId } = need;
    const cannot = new AppError('bad_input', undefined, [
      { field: 'lotId', message: 'This bottle cannot give anything on that day.' },
    ]);
    await this.store.lockItems(tx, [need.itemId]);
    const [lot] = chosenLotId === null ? [] : await this.lotsStore.byIds(tx, [chosenLotId]);
    if (chosenLotId !== null && lot?.itemId !== need.itemId) throw cannot;
    if ((await this.store.choose(tx, need)) === 0)
      throw new AppError('not_found', 'Nothing is set aside of it any more.');
    const worse = await this.acts.act(tx, { items: [need.itemId] });
    if (worse.length > 0) throw new AppError('short_of_stock');
    if (chosenLotId === null) return 'by the rule';
    const held = (await this.store.reservations(tx, need.heldFor)).filter(
      (one) => one.itemId === need.itemId && one.class === need.class && one.neededOn.equals(need.neededOn),
    );
    if (!held.some((one) => one.lotId === chosenLotId)) throw cannot;
    return held.every((one) => one.lotId === chosenLotId) ? 'all of it' : 'part of it';
  }

  async enterPlateSize(tx: Tx, size: Omit<PlateSize, 'id'>): Promise<PlateSize> {
    const entered = { id: this.random.id(), ...size };
    await this.store.insertPlateSize(tx, entered);
    return entered;
  }

  async enterItem(tx: Tx, item: NewItem): Promise<Item> {
    const entered = { id: this.random.id(), ...withExtras(item) };
    await this.itemsStore.insert(tx, entered);
    return entered;
  }

  /** Puts a new lot on the shelf. */
  async receive(
    tx: Tx,
    lot: NewLot,
    quantity: bigint,
    kind: 'received' | 'mixed' = 'received',
    who = '',
  ): Promise<string> {
    const id = this.random.id();
    await this.acts.act(tx, { items: [lot.itemId], who, change: () => [received(id, lot, quantity, kind)] });
    return id;
  }
}

/** The bottles after a place's use. @throws AppError bad_input when there was not so much in one */
function usedUp(lots: Lot[], used: { lotId: string; quantity: bigint }[]): LotChange[] {
  const changes = new Map<string, LotChange>();
  used.forEach(({ lotId, quantity }, at) => {
    if (quantity === 0n) return;
    const before = changes.get(lotId);
    const lot = before?.lot ?? lots.find((one) => one.id === lotId);
    const act = lot && poured(lot, quantity, 'used', '');
    if (!act?.ok)
      throw new AppError('bad_input', undefined, [
        { field: `used/${at}/quantity`, message: 'There was not so much in it; please count it first.' },
      ]);
    for (const change of act.changes)
      changes.set(lotId, { ...change, moves: [...(before?.moves ?? []), ...change.moves] });
  });
  return [...changes.values()];
}
