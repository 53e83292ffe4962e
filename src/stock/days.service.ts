// What a studio day takes beside its sittings and classes is set aside with the first and given back with the last.
// Whoever sets aside or gives back for a place does it through here; methods take the caller's transaction.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { ActualsService } from '../chemistry/actuals.service.js';
import { parseQuantity } from '../lib/quantity-text.js';
import { dayBounds } from '../lib/zoned-time.js';
import { Clock, Random } from '../platform/clock.js';
import { editAlone } from '../platform/db/alone.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError, type FieldProblem } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { dayNeeds } from './day-needs.calc.js';
import { takesForm } from './preparation-forms.schemas.js';
import type { DayTakes, StudioDay } from './preparation.schemas.js';
import { PreparationStore } from './preparation.store.js';
import type { Item, Need, PlateSize } from './stock.schemas.js';
import { StockService } from './stock.service.js';
import { StockStore } from './stock.store.js';
import { amountProblem } from './words.calc.js';

export interface TakesOfDays {
  takes: DayTakes;
  items: Item[];
  sizes: PlateSize[];
}

@Injectable()
export class DaysService {
  private readonly store = new PreparationStore();
  private readonly stockStore = new StockStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly actuals: ActualsService,
  ) {}

  /**
   * Sets aside what a place needs, and what its day takes besides if that is not there yet. To be called once the
   * place holds the room.
   * @throws AppError short_of_stock
   */
  async reserve(
    tx: Tx,
    studio: Studio,
    heldFor: string,
    needs: Need[],
    day: Temporal.PlainDate,
  ): Promise<void> {
    await this.reserveAll(tx, studio, [{ heldFor, needs }], day);
  }

  /** The same for several on one day, such as the students of a class. @throws AppError short_of_stock */
  async reserveAll(
    tx: Tx,
    studio: Studio,
    all: { heldFor: string; needs: Need[] }[],
    day: Temporal.PlainDate,
  ): Promise<void> {
    const { id, testsTyped } = await this.lockDay(tx, day);
    const there = await this.stock.setAside(tx, id);
    // what a day that is past took itself was told, or is still asked: it is never set aside anew
    const past = Temporal.PlainDate.compare(day, this.room.today(studio)) < 0;
    const own = there.length > 0 || past || testsTyped ? [] : await this.needsOfDay(tx);
    // all at once, in the order in which items are locked, so that two days never wait for each other in a ring
    await this.lockItems(tx, [...all.flatMap(({ needs }) => needs), ...own]);
    const today = this.room.today(studio);
    for (const { heldFor, needs } of all) await this.stock.reserve(tx, heldFor, needs, day, today);
    if (own.length > 0) await this.stock.reserve(tx, id, own, day, today);
  }

  /**
   * Gives back what a place had set aside, and what its day takes besides if nothing stands on it any more. To be
   * called once the place has given the room back. Without a day it is the place's alone.
   */
  async release(tx: Tx, studio: Studio, heldFor: string, day: Temporal.PlainDate | null): Promise<void> {
    if (day === null) return this.stock.release(tx, heldFor);
    await this.releaseAll(tx, studio, [heldFor], day);
  }

  /** The same for several on one day. */
  async releaseAll(tx: Tx, studio: Studio, all: string[], day: Temporal.PlainDate): Promise<void> {
    const { id } = await this.lockDay(tx, day);
    const last = !(await this.stands(tx, studio, day));
    const leaving = [...all, ...(last ? [id] : [])];
    const held: { itemId: string }[] = [];
    for (const one of leaving)
      held.push(...(await this.stock.setAside(tx, one)).map(({ item }) => ({ itemId: item.id })));
    await this.lockItems(tx, held);
    for (const one of leaving) await this.stock.release(tx, one);
  }

  /** The day's row, locked, for whoever types in its test plates. */
  lock(tx: Tx, day: Temporal.PlainDate): Promise<StudioDay> {
    return this.lockDay(tx, day);
  }

  /** Notes whether a day's test plates were typed in, so that they are not set aside again. The day must be locked. */
  async setTestsTyped(tx: Tx, day: Temporal.PlainDate, typed: boolean): Promise<void> {
    await this.store.setTestsTyped(tx, day, typed);
  }

  /** What the first place of a day brings with it: nothing for a day from today on that has it set aside already. */
  async besides(tx: Tx, today: Temporal.PlainDate): Promise<(day: Temporal.PlainDate) => Need[]> {
    const needs = await this.needsOfDay(tx);
    const provided = new Set((await this.store.provided(tx, today)).map(String));
    return (day) => (provided.has(day.toString()) ? [] : needs);
  }

  takes(studioId: string): Promise<TakesOfDays> {
    return this.db.inStudio(studioId, async (tx) => ({
      takes: await this.store.takes(tx),
      items: (await this.stock.items(tx)).filter((one) => !one.archived),
      sizes: await this.stock.plateSizes(tx),
    }));
  }

  /**
   * Changes what every day takes; the days to come are set aside anew.
   * @param input test plates, and an amount for each item as `item-<id>`, with its unit
   * @throws AppError bad_input, short_of_stock when a day to come cannot have it any more
   */
  saveTakes(
    studioId: string,
    who: { name: string },
    input: Record<string, unknown>,
    check: (stands: Pick<TakesOfDays, 'takes' | 'items'>) => void = () => {},
  ): Promise<void> {
    const said = readInput(takesForm, input);
    return this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'takes');
      const items = await this.stock.items(tx);
      check({ takes: await this.store.takes(tx), items: items.filter((one) => !one.archived) });
      const sizes = await this.stock.plateSizes(tx);
      const problems: FieldProblem[] = [];
      if (said.testPlates > 0 && !sizes.some((one) => one.id === said.testSizeId))
        problems.push({ field: 'testSizeId', message: 'Please choose a plate size.' });
      const materials = items.flatMap((item) => {
        const typed = input[`item-${item.id}`];
        if (typeof typed !== 'string' || typed.trim() === '') return [];
        const read = parseQuantity(typed, item.unit);
        if (read.ok) return read.amount > 0n ? [{ itemId: item.id, quantity: read.amount }] : [];
        problems.push({ field: `item-${item.id}`, message: amountProblem(read.reason, item.unit) });
        return [];
      });
      if (problems.length > 0) throw new AppError('bad_input', undefined, problems);
      await this.store.saveTakes(tx, { ...said, materials });
      await this.setAsideAnew(tx);
      const about = { aboutKind: 'studio day', aboutId: studioId, event: 'takes' };
      await recordHistory(tx, this.clock, { who: who.name, ...about });
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  private async setAsideAnew(tx: Tx): Promise<void> {
    const studio = await this.studios.load(tx);
    const today = this.room.today(studio);
    const until = today.add({ months: 36 });
    const end = dayBounds(studio.zone, until).end;
    const taking = await this.room.between(tx, dayBounds(studio.zone, today).start, end, end);
    const days = new Map(
      taking
        .filter((one) => one.holds && one.kind !== 'closure')
        .map((one) => [one.wallStart.toPlainDate().toString(), one.wallStart.toPlainDate()]),
    );
    const needs = await this.needsOfDay(tx);
    const locked: { id: string; day: Temporal.PlainDate }[] = [];
    for (const [, day] of [...days].sort()) {
      const { id, testsTyped } = await this.lockDay(tx, day);
      if (!testsTyped) locked.push({ id, day });
    }
    const held: { itemId: string }[] = [];
    for (const { id } of locked)
      held.push(...(await this.stock.setAside(tx, id)).map((one) => ({ itemId: one.item.id })));
    // all items of all days at once, in the order in which everybody locks them
    await this.lockItems(tx, [...held, ...needs]);
    for (const { id, day } of locked) {
      await this.stock.release(tx, id);
      if (needs.length > 0) await this.stock.reserve(tx, id, needs, day, today);
    }
  }

  private async lockDay(tx: Tx, day: Temporal.PlainDate) {
    await this.store.makeDay(tx, day, this.random.id());
    return this.store.lockDay(tx, day);
  }

  private async needsOfDay(tx: Tx): Promise<Need[]> {
    const takes = await this.store.takes(tx);
    if (takes.testPlates === 0 && takes.materials.length === 0) return [];
    const { use } = await this.actuals.figures(tx);
    return dayNeeds(takes, await this.stock.plateSizes(tx), await this.stock.items(tx), use);
  }

  private async lockItems(tx: Tx, needs: { itemId: string }[]): Promise<void> {
    await this.stockStore.lockItems(tx, [...new Set(needs.map((one) => one.itemId))].sort());
  }

  /** Whether anybody sits or is taught on a day. */
  private async stands(tx: Tx, studio: Studio, day: Temporal.PlainDate): Promise<boolean> {
    const { start, end } = dayBounds(studio.zone, day);
    const taking = await this.room.between(tx, start, end, end);
    return taking.some(
      (one) => one.holds && one.kind !== 'closure' && one.wallStart.toPlainDate().equals(day),
    );
  }
}
