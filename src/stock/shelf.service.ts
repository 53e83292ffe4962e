// What people do at the shelf with one bottle, batch or box: each method is one act, with who did it and why.
// With a key the same act sent twice is done once. Pouring one into another stands in pouring.service.ts.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { formatQuantity } from '../lib/quantity-text.js';
import { dayInWords } from '../lib/words.js';
import { Clock, Random } from '../platform/clock.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import {
  type Acted,
  counted,
  discarded,
  foundGood,
  type LotChange,
  opened,
  poured,
  received,
  still,
  suspected,
  wantsReason,
} from './acts.calc.js';
import {
  ActsService,
  changesOf,
  endOfLife,
  failed,
  type Key,
  type Made,
  made,
  problem,
  readAmount,
  unknownBottle,
  type Who,
} from './acts.service.js';
import {
  chooseForm,
  correctForm,
  countForm,
  reasonForm,
  receiveForm,
  suspectForm,
  takeForm,
} from './shelf-forms.schemas.js';
import { type ChosenFrom, chosenFrom, type Item, type Lot } from './stock.schemas.js';
import { StockService } from './stock.service.js';

/** What an act on one bottle is given. */
interface On {
  tx: Tx;
  lot: Lot;
  item: Item;
  today: Temporal.PlainDate;
}

@Injectable()
export class ShelfService {
  constructor(
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly acts: ActsService,
    private readonly stock: StockService,
  ) {}

  /** A bottle, batch or box comes onto the shelf. @throws AppError bad_input, not_found */
  receive(studioId: string, who: Who, input: unknown, key?: Key): Promise<Made> {
    const form = readInput(receiveForm, input);
    return this.acts.perform(studioId, { name: 'receive', key, request: input }, made, async (tx) => {
      const item = await this.item(tx, form.itemId);
      const quantity = readAmount(form.quantity, item);
      const today = await this.acts.today(tx);
      const lot = {
        ...form,
        label: form.label || `${item.name}, ${dayInWords(today)}`,
        usableFrom: form.usableFrom ?? today,
        usableUntil: form.usableUntil ?? endOfLife(item, today),
        receivedOn: today,
      };
      if (lot.usableUntil && lot.usableFrom.until(lot.usableUntil).days < 0)
        throw problem('usableUntil', 'It cannot run out before it can be used.');
      const { quantity: _, itemId, ...rest } = lot;
      const id = this.random.id();
      const change = received(id, { itemId, ...rest }, quantity, 'received');
      await this.acts.act(tx, { items: [itemId], change: () => [change], who: who.name });
      await this.acts.record(tx, who, id, 'receive', lot.label);
      return { lotId: id };
    });
  }

  /**
   * Counted or weighed: that much is in it.
   * @throws AppError bad_input, also where it is far from what the book says and no reason is given; not_found
   */
  count(studioId: string, who: Who, lotId: string, input: unknown, key?: Key): Promise<null> {
    const { quantity, reason } = readInput(countForm, input);
    const act = ({ lot, item }: On) => {
      const much = readAmount(quantity, item, { nothing: true });
      if (reason === '' && wantsReason(lot, much)) throw problem('reason', whyOther(lot, item));
      return done(counted(lot, much, reason));
    };
    return this.onLot(studioId, who, lotId, { name: 'count', key, note: reason, request: input }, act);
  }

  /** Some of it was used outside a sitting. @throws AppError bad_input, not_found */
  take(studioId: string, who: Who, lotId: string, input: unknown, key?: Key): Promise<null> {
    const { quantity, reason } = readInput(takeForm, input);
    const act = ({ lot, item }: On) => poured(lot, readAmount(quantity, item), 'used', reason);
    return this.onLot(studioId, who, lotId, { name: 'take', key, note: reason, request: input }, act);
  }

  /** All of it is thrown away. @throws AppError wrong_state, not_found */
  discard(studioId: string, who: Who, lotId: string, input: unknown, key?: Key): Promise<null> {
    const { reason } = readInput(reasonForm, input);
    const doing = { name: 'discard', key, note: reason, request: input };
    return this.onLot(studioId, who, lotId, doing, ({ lot }) => discarded(lot, reason));
  }

  /** Opened today; it keeps shorter from now on. @throws AppError wrong_state, not_found */
  open(studioId: string, who: Who, lotId: string, key?: Key): Promise<null> {
    const act = ({ lot, item, today }: On) => opened(lot, item, today);
    return this.onLot(studioId, who, lotId, { name: 'open', key, note: '', request: null }, act);
  }

  /** Put aside: it gives nothing until it is found good. @throws AppError bad_input, wrong_state, not_found */
  suspect(studioId: string, who: Who, lotId: string, input: unknown, key?: Key): Promise<null> {
    const { note } = readInput(suspectForm, input);
    const doing = { name: 'suspect', key, note, request: input };
    return this.onLot(studioId, who, lotId, doing, ({ lot }) => suspected(lot, note));
  }

  foundGood(studioId: string, who: Who, lotId: string, key?: Key): Promise<null> {
    const doing = { name: 'found good', key, note: '', request: null };
    return this.onLot(studioId, who, lotId, doing, ({ lot }) => foundGood(lot));
  }

  /** What is told of it was wrong or has changed: name, class, colour, speed, end. @throws AppError bad_input */
  correct(studioId: string, who: Who, lotId: string, input: unknown, key?: Key): Promise<null> {
    const { reason, ...said } = readInput(correctForm, input);
    const act = ({ lot }: On) => {
      if (said.usableUntil && lot.usableFrom.until(said.usableUntil).days < 0)
        throw problem('usableUntil', 'It cannot run out before it can be used.');
      return done(still({ ...lot, ...said }));
    };
    return this.onLot(studioId, who, lotId, { name: 'correct', key, note: reason, request: input }, act);
  }

  /** The owner's choice of the bottle for a place's need; without one the rule chooses. @throws AppError */
  async choose(studioId: string, who: Who, input: unknown): Promise<ChosenFrom> {
    const { lotId, ...need } = readInput(chooseForm, input);
    return this.acts.perform(
      studioId,
      { name: 'choose', key: undefined, request: null },
      chosenFrom,
      async (tx) => {
        const from = await this.stock.choose(tx, { ...need, chosenLotId: lotId });
        const [lot] = lotId === null ? [] : await this.acts.lotsOf(tx, [lotId]);
        const about = { aboutKind: 'sitting', aboutId: need.heldFor, event: 'bottle' };
        await recordHistory(tx, this.clock, { who: who.name, ...about, note: lot?.label ?? '' });
        return from;
      },
    );
  }

  /** One act on one bottle. */
  private onLot(
    studioId: string,
    who: Who,
    lotId: string,
    doing: { name: string; key: Key; note: string; request: unknown },
    act: (on: On) => Acted,
  ): Promise<null> {
    const request = { lotId, input: doing.request };
    return this.acts.perform(studioId, { ...doing, request }, z.null(), async (tx) => {
      const [known] = await this.acts.lotsOf(tx, [lotId]);
      if (!known) throw unknownBottle();
      const today = await this.acts.today(tx);
      const change = (lots: Lot[], items: Item[]) => {
        const lot = lots.find((one) => one.id === lotId) ?? failed();
        return changesOf(act({ tx, lot, item: items[0] ?? failed(), today }));
      };
      await this.acts.act(tx, { items: [known.itemId], named: [lotId], change, who: who.name }, today);
      await this.acts.record(tx, who, lotId, doing.name, doing.note);
      return null;
    });
  }

  private async item(tx: Tx, itemId: string): Promise<Item> {
    const found = (await this.stock.items(tx)).find((item) => item.id === itemId);
    return found ?? failed(problem('itemId', 'Please choose what it is.'));
  }
}

const whyOther = ({ onHand }: Lot, { unit }: Item) =>
  `By the book ${formatQuantity(onHand, unit)} should be in it. Please say in a word why it is other, or count again.`;

const done = (change: LotChange): Acted => ({ ok: true, changes: [change] });
