// Orders: noting what was ordered, and that it has come.
import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import { dayInWords } from '../lib/words.js';
import { Clock, Random } from '../platform/clock.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { received } from './acts.calc.js';
import {
  ActsService,
  endOfLife,
  failed,
  type Key,
  type Made,
  made,
  problem,
  readAmount,
  type Who,
} from './acts.service.js';
import { supplyOf } from './plan.calc.js';
import type { Receipt } from './receipts.schemas.js';
import { ReceiptsStore } from './receipts.store.js';
import { arriveForm, orderForm } from './shelf-forms.schemas.js';
import type { Item } from './stock.schemas.js';
import { StockService } from './stock.service.js';
import { SuppliersStore } from './suppliers.store.js';

/** `overMost`: with what is here and on its way it is more than is kept at most. */
const ordered = z.object({ receiptId: z.uuid(), overMost: z.boolean().default(false) });

@Injectable()
export class ReceiptsService {
  private readonly store = new ReceiptsStore();
  private readonly suppliers = new SuppliersStore();

  constructor(
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly acts: ActsService,
    private readonly stock: StockService,
  ) {}

  /** What is on its way, the next first. */
  open(tx: Tx): Promise<Receipt[]> {
    return this.store.open(tx);
  }

  /**
   * Something was ordered: today, and expected after its lead time, unless said otherwise. More than is kept at
   * most is noted all the same, and told.
   * @throws AppError bad_input with a sentence per field
   */
  order(studioId: string, who: Who, input: unknown, key?: Key): Promise<z.output<typeof ordered>> {
    const form = readInput(orderForm, input);
    return this.acts.perform(studioId, { name: 'order', key, request: input }, ordered, async (tx) => {
      const item = await this.item(tx, form.itemId);
      const today = await this.acts.today(tx);
      const orderedOn = form.orderedOn ?? today;
      const lead = supplyOf(item).leadDays;
      const expectedOn = form.expectedOn ?? (lead === null ? null : orderedOn.add({ days: lead }));
      if (expectedOn === null) throw problem('expectedOn', 'Please say when it should come.');
      if (orderedOn.until(expectedOn).days < 0)
        throw problem('expectedOn', 'It cannot come before it was ordered.');
      const supplierId = form.supplierId ?? item.supplierId;
      if (supplierId !== null && !(await this.suppliers.byId(tx, supplierId)))
        throw problem('supplierId', 'This supplier is not known here.');
      const receipt: Receipt = {
        id: this.random.id(),
        itemId: item.id,
        supplierId,
        quantity: readAmount(form.quantity, item),
        orderedOn,
        expectedOn,
        lotId: null,
        cancelled: false,
      };
      const overMost = await this.overMost(tx, item, receipt.quantity);
      await this.store.insert(tx, receipt);
      await this.record(tx, who, item.id, 'order', `expected on ${dayInWords(expectedOn)}`);
      return { receiptId: receipt.id, overMost };
    });
  }

  /** It has come: a new bottle or box on the shelf. @throws AppError not_found, wrong_state, bad_input */
  arrive(studioId: string, who: Who, receiptId: string, input: unknown, key?: Key): Promise<Made> {
    const form = readInput(arriveForm, input);
    const request = { receiptId, input };
    return this.acts.perform(studioId, { name: 'arrive', key, request }, made, async (tx) => {
      const receipt = await this.known(tx, receiptId);
      const item = await this.item(tx, receipt.itemId);
      const today = await this.acts.today(tx);
      const id = this.random.id();
      const lot = {
        itemId: item.id,
        label: form.label || `${item.name}, ${dayInWords(today)}`,
        usableFrom: today,
        usableUntil: form.usableUntil ?? endOfLife(item, today),
        receivedOn: today,
      };
      if (lot.usableUntil && today.until(lot.usableUntil).days < 0)
        throw problem('usableUntil', 'It cannot run out before it can be used.');
      const quantity = form.quantity === null ? receipt.quantity : readAmount(form.quantity, item);
      const change = () => [received(id, lot, quantity, 'received')];
      await this.acts.act(tx, { items: [item.id], change, who: who.name }, today);
      if (!(await this.store.close(tx, receiptId, id))) throw alreadyClosed();
      await this.acts.record(tx, who, id, 'arrive', lot.label);
      return { lotId: id };
    });
  }

  /** It will not come. @throws AppError not_found, wrong_state */
  callOff(studioId: string, who: Who, receiptId: string): Promise<null> {
    const doing = { name: 'call off', key: undefined, request: null };
    return this.acts.perform(studioId, doing, z.null(), async (tx) => {
      const receipt = await this.known(tx, receiptId);
      if (!(await this.store.close(tx, receiptId, null))) throw alreadyClosed();
      await this.record(tx, who, receipt.itemId, 'call off order', '');
      return null;
    });
  }

  private async overMost(tx: Tx, { id, mostOnHand }: Item, quantity: bigint): Promise<boolean> {
    if (mostOnHand === null) return false;
    const here = (await this.stock.lots(tx)).filter(({ itemId }) => itemId === id);
    const coming = (await this.store.open(tx)).filter(({ itemId }) => itemId === id);
    const all = here.reduce((sum, lot) => sum + lot.onHand, 0n);
    return coming.reduce((sum, one) => sum + one.quantity, all + quantity) > mostOnHand;
  }

  private async known(tx: Tx, receiptId: string): Promise<Receipt> {
    const receipt = await this.store.byId(tx, receiptId);
    return receipt ?? failed(new AppError('not_found', 'This order is not known here.'));
  }

  private async item(tx: Tx, itemId: string): Promise<Item> {
    const found = (await this.stock.items(tx)).find((item) => item.id === itemId);
    return found ?? failed(problem('itemId', 'Please choose what was ordered.'));
  }

  private record(tx: Tx, who: Who, itemId: string, event: string, note: string): Promise<void> {
    return recordHistory(tx, this.clock, { who: who.name, aboutKind: 'item', aboutId: itemId, event, note });
  }
}

const alreadyClosed = () => new AppError('wrong_state', 'This order has come already, or was called off.');
