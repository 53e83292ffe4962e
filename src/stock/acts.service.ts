// The one way in which an act changes what stands on the shelf: it locks the items, writes what changes of their
// bottles, and plans what is set aside of them anew. It does not know which act it is.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { instantToWall } from '../lib/zoned-time.js';
import { Clock, Random } from '../platform/clock.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { StudiosService } from '../studios/studios.service.js';
import type { LotChange } from './acts.calc.js';
import { type Act, LotsStore, type Movement } from './lots.store.js';
import { type Change, type Entered, replanItem } from './replan.calc.js';
import type { Item, Lot } from './stock.schemas.js';
import { StockStore } from './stock.store.js';

/** What an act does to the shelf beside planning it anew. */
interface Doing {
  items: string[];
  /** Bottles that are gone already and are meant all the same. */
  named?: string[];
  /** Needs that come. */
  entered?: Entered[];
  /** Whose needs go: all they have set aside of these items, of days past too. */
  leaves?: string;
  /** What the act does to the bottles, as they stand once the items are locked. */
  change?: (lots: Lot[], items: Item[]) => LotChange[];
  who?: string;
}

@Injectable()
export class ActsService {
  private readonly store = new StockStore();
  private readonly lotsStore = new LotsStore();

  constructor(
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly studios: StudiosService,
  ) {}

  /** The day it is at the studio. */
  async today(tx: Tx): Promise<Temporal.PlainDate> {
    return instantToWall((await this.studios.load(tx)).zone, this.clock.now()).toPlainDate();
  }

  /**
   * One act at the shelf: locks the items in id order, which holds off every other act on them, changes their
   * bottles, and plans what is set aside of them anew. Only what differs is written; what is given back before
   * a level sinks, what is set aside anew after.
   * @returns the needs of which less can be had than before
   */
  async act(
    tx: Tx,
    doing: Doing,
    day?: Temporal.PlainDate,
  ): Promise<{ heldFor: string; neededOn: Temporal.PlainDate; item: Item }[]> {
    const today = day ?? (await this.today(tx));
    const items = await this.store.lockItems(tx, [...new Set(doing.items)].sort());
    const ids = items.map((item) => item.id);
    const lots = await this.store.lotsOf(tx, ids, doing.named);
    const live = await this.store.heldFrom(tx, ids, today);
    const past = await this.store.heldBefore(tx, ids, today);
    const expected = await this.store.expected(tx, ids);
    const changes = doing.change?.(lots, items) ?? [];
    const after = new Map([...lots, ...changes.map((change) => change.lot)].map((lot) => [lot.id, lot]));

    const gone = await this.goneFromPast(tx, { doing, changes, past, today });
    for (const one of gone)
      if (one.lotId) past.set(one.lotId, (past.get(one.lotId) ?? 0n) - (one.from - one.to));
    const replanned = items.map((item) => {
      const own = live.filter((one) => one.itemId === item.id);
      const entered = doing.entered?.filter((one) => one.itemId === item.id);
      const facts = {
        item,
        lots: [...after.values()].filter((lot) => lot.itemId === item.id),
        held: own,
        leaves: doing.leaves,
        past,
        expected: expected.filter((one) => one.itemId === item.id),
        today,
      };
      return { item, ...replanItem(facts, entered) };
    });
    const written = [...gone, ...replanned.flatMap((one) => one.changes)];
    const noted: Act = { who: doing.who ?? '', at: this.clock.now(), batchId: this.random.id() };
    await this.writeHeld(
      tx,
      written.filter(({ from, to }) => to < from),
      noted,
    );
    for (const change of changes) await this.writeLot(tx, change, noted);
    await this.writeHeld(
      tx,
      written.filter(({ from, to }) => to > from),
      noted,
    );
    return replanned.flatMap(({ item, worse }) => worse.map((one) => ({ ...one, item })));
  }

  /** What of days past is not set aside any more: its holder has gone, or the bottle has not that much in it. */
  private async goneFromPast(
    tx: Tx,
    {
      doing,
      changes,
      past,
      today,
    }: { doing: Doing; changes: LotChange[]; past: Map<string, bigint>; today: Temporal.PlainDate },
  ): Promise<Change[]> {
    const left = doing.leaves === undefined ? [] : await this.store.reservations(tx, doing.leaves);
    const gone: Change[] = left
      .filter((one) => one.neededOn.until(today).days > 0)
      .map(({ quantity, ...one }) => ({ ...one, from: quantity, to: 0n }));
    const ids = new Set(gone.map((one) => one.id));
    const short = changes.map(({ lot }) => lot).filter((lot) => (past.get(lot.id) ?? 0n) > lot.onHand);
    if (short.length === 0) return gone;
    const held = await this.store.pastOfLots(
      tx,
      short.map((lot) => lot.id),
      today,
    );
    for (const lot of short) {
      const kept = held.filter((one) => one.lotId === lot.id && !ids.has(one.id));
      let over = kept.reduce((sum, one) => sum + one.quantity, 0n) - lot.onHand;
      for (const { quantity, ...one } of kept) {
        if (over <= 0n) break;
        const to = quantity > over ? quantity - over : 0n;
        gone.push({ ...one, from: quantity, to });
        over -= quantity - to;
      }
    }
    return gone;
  }

  /** Changes what is set aside: its rows, the levels of their lots, and the movements that tell of it. */
  private async writeHeld(tx: Tx, changes: Change[], noted: Act): Promise<void> {
    if (changes.length === 0) return;
    await this.store.writeHeld(
      tx,
      changes.map((one) => ({ ...one, id: one.id ?? this.random.id() })),
    );
    const moves: Movement[] = [];
    const levels = new Map<string, bigint>();
    for (const { lotId, heldFor, from, to } of changes) {
      if (lotId === null) continue;
      const [kind, quantity] =
        to > from ? (['reserved', to - from] as const) : (['released', from - to] as const);
      moves.push({ id: this.random.id(), lotId, kind, quantity, heldFor, reason: '' });
      levels.set(lotId, (levels.get(lotId) ?? 0n) + to - from);
    }
    const lots = [...levels].map(([lotId, by]) => ({ lotId, by }));
    if (lots.length > 0 && (await this.store.moveReserved(tx, lots)) !== lots.length)
      throw new AppError('short_of_stock', 'It was set aside for someone else a moment ago.');
    await this.lotsStore.insertMovements(tx, moves, noted);
  }

  private async writeLot(tx: Tx, change: LotChange, noted: Act): Promise<void> {
    if (change.isNew) await this.lotsStore.insert(tx, change.lot);
    else if (!(await this.lotsStore.change(tx, change))) throw new AppError('short_of_stock');
    const moves = change.moves.map((move) => ({
      ...move,
      id: this.random.id(),
      lotId: change.lot.id,
      heldFor: null,
    }));
    await this.lotsStore.insertMovements(tx, moves, noted);
    await this.lotsStore.insertParents(tx, change.lot.id, change.parents);
  }
}
