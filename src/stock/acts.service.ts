// The one way in which an act changes what stands on the shelf: it locks the items, writes what changes of their
// bottles, and plans what is set aside of them anew. It does not know which act it is.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { parseQuantity } from '../lib/quantity-text.js';
import { instantToWall } from '../lib/zoned-time.js';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { once } from '../platform/idempotency.js';
import { AppError } from '../platform/problems.js';
import { StudiosService } from '../studios/studios.service.js';
import type { Acted, LotChange } from './acts.calc.js';
import { type Act, LotsStore, type Movement } from './lots.store.js';
import { type Change, type Entered, replanItem } from './replan.calc.js';
import type { Amount } from './shelf-forms.schemas.js';
import type { Item, Lot } from './stock.schemas.js';
import { StockStore } from './stock.store.js';
import { ACT_PROBLEMS, amountProblem } from './words.calc.js';

export interface Who {
  name: string;
}
/** Of a form or request; the same act sent twice with it is done once. */
export type Key = string | undefined;

/** The bottle that an act made. */
export const made = z.object({ lotId: z.uuid() });
export type Made = z.output<typeof made>;

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
  /** Under which all its movements stand, where what they were for has an id; else they have one of their own. */
  batchId?: string;
}

@Injectable()
export class ActsService {
  private readonly store = new StockStore();
  private readonly lotsStore = new LotsStore();

  constructor(
    private readonly db: Db,
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
    const noted: Act = {
      who: doing.who ?? '',
      at: this.clock.now(),
      batchId: doing.batchId ?? this.random.id(),
    };
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
      .filter((one) => one.neededOn.until(today).days > 0 && doing.items.includes(one.itemId))
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

  /** One act of a person in its own transaction; sent again with the same key, its first answer is given. */
  perform<T>(
    studioId: string,
    doing: { name: string; key: Key; request: unknown },
    answer: z.ZodType<T>,
    act: (tx: Tx) => Promise<T>,
  ): Promise<T> {
    const { name, key, request } = doing;
    return this.db.inStudio(studioId, (tx) => {
      const acting = async () => {
        const done = await act(tx);
        await this.studios.raiseCalendarCounter(tx); // what must be mixed or ordered may be other tasks now
        return done;
      };
      const sent = { name: `shelf ${name}`, request: plain(request) };
      return key === undefined ? acting() : once(tx, this.clock, { ...sent, key }, answer, acting);
    });
  }

  record(tx: Tx, who: Who, lotId: string, event: string, note: string): Promise<void> {
    return recordHistory(tx, this.clock, { who: who.name, aboutKind: 'bottle', aboutId: lotId, event, note });
  }

  /** In the order of the ids; undefined where there is none. */
  async lotsOf(tx: Tx, ids: string[]): Promise<(Lot | undefined)[]> {
    const found = await this.lotsStore.byIds(tx, ids);
    return ids.map((id) => found.find((lot) => lot.id === id));
  }
}

/**
 * An amount as it was typed, or exactly as a calculation gave it.
 * @throws AppError bad_input at the field when it cannot be read, or is nothing where something is asked for
 */
export function readAmount(
  typed: Amount,
  { unit }: Pick<Item, 'unit'>,
  { field = 'quantity', nothing = false }: { field?: string; nothing?: boolean } = {},
): bigint {
  const read = typeof typed === 'bigint' ? { ok: true as const, amount: typed } : parseQuantity(typed, unit);
  if (!read.ok) throw problem(field, amountProblem(read.reason, unit));
  if (read.amount < 0n || (read.amount === 0n && !nothing)) throw problem(field, 'Please say how much.');
  return read.amount;
}

export const problem = (field: string, message: string) =>
  new AppError('bad_input', undefined, [{ field, message }]);
export const unknownBottle = () => new AppError('not_found', 'This bottle is not known here.');

export function failed(error: Error = new Error('What was locked is not there.')): never {
  throw error;
}

/** How whoever asks names what was said of a part, counted from 0: its bottle, or how much of it; '' for by no field. */
export type PartField = (part: number, said: 'lotId' | 'quantity') => string;

/** @throws AppError bad_input at the field that is at fault, wrong_state where none is */
export function changesOf(acted: Acted, fieldOf?: PartField): LotChange[] {
  if (acted.ok) return acted.changes;
  const told = ACT_PROBLEMS[acted.reason];
  const { message } = told;
  const field =
    fieldOf === undefined || acted.part === undefined
      ? told.field
      : fieldOf(acted.part, told.field === 'quantity' ? 'quantity' : 'lotId');
  throw field === '' ? new AppError('wrong_state', message) : problem(field, message);
}

/** The last day of what is made or bought on a day; null when it does not run out. */
export const endOfLife = ({ lifeDays }: Item, from: Temporal.PlainDate) =>
  lifeDays === null ? null : from.add({ days: lifeDays });

/** Exact amounts as text, and nothing as null, so that a request can be told from another. */
const plain = (request: unknown): unknown =>
  JSON.parse(JSON.stringify(request, (_, value) => (typeof value === 'bigint' ? String(value) : value)));
