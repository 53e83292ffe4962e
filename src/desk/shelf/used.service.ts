// What days took, as its page needs it: what is written down, the studio's own figures, one act each to write a
// day down, correct it and take it out.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { RecordedDay, TellActuals, WhichDay } from '../../chemistry/actuals.schemas.js';
import { ActualsService } from '../../chemistry/actuals.service.js';
import { type OwnFigures, ownFigures } from '../../chemistry/learning.calc.js';
import { Clock } from '../../platform/clock.js';
import { editAlone } from '../../platform/db/alone.js';
import { Db } from '../../platform/db/db.js';
import { recordHistory } from '../../platform/db/history.js';
import type { Tx } from '../../platform/db/tx.js';
import { AppError } from '../../platform/problems.js';
import { MadeService } from '../../plates/made.service.js';
import { RoomService } from '../../room/room.service.js';
import type { Item, PlateSize } from '../../stock/stock.schemas.js';
import { StockService } from '../../stock/stock.service.js';
import { StudiosService } from '../../studios/studios.service.js';
import { readUsedForm } from './used.schemas.js';

export interface UsedNow {
  today: Temporal.PlainDate;
  sizes: PlateSize[];
  /** The latest first. */
  days: RecordedDay[];
  figures: OwnFigures;
  /** Days, as "2026-11-20", whose plates of sitters were typed in one by one. */
  typed: Set<string>;
  /** Days past for which something is still set aside, the latest first, with what of which item. */
  unsettled: { day: Temporal.PlainDate; parts: { item: Item; quantity: bigint }[] }[];
}

@Injectable()
export class UsedService {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly actuals: ActualsService,
    private readonly made: MadeService,
  ) {}

  show(studioId: string): Promise<UsedNow> {
    return this.db.inStudio(studioId, async (tx) => {
      const days = await this.actuals.days(tx);
      return {
        today: await this.today(tx),
        sizes: await this.stock.plateSizes(tx),
        days,
        figures: ownFigures(days),
        typed: await this.made.typedOf(
          tx,
          days.map((one) => one.day),
        ),
        unsettled: await this.unsettled(tx),
      };
    });
  }

  /**
   * Writes a day down. `corrects` is the record that is corrected, which may so come to another day.
   * @param check is asked about that record as it stands before it is overwritten
   * @throws AppError bad_input with a sentence per field; also where another record stands for the day already;
   * changed_meanwhile where that record is gone
   */
  enter(
    studioId: string,
    who: { name: string },
    sent: Record<string, unknown>,
    corrects: WhichDay | null,
    check: (stands: RecordedDay) => void = () => {},
  ): Promise<TellActuals> {
    return this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'what days took');
      const read = readUsedForm(sent, await this.stock.plateSizes(tx));
      if (!read.ok) throw new AppError('bad_input', undefined, read.problems);
      const told = await this.withoutTyped(tx, read.told);
      const refuse = (message: string) => new AppError('bad_input', undefined, [{ field: 'day', message }]);
      if (Temporal.PlainDate.compare(told.day, await this.today(tx)) > 0)
        throw refuse('This day is still to come.');
      const stands = corrects && (await this.actuals.day(tx, corrects));
      if (corrects && !stands)
        throw new AppError('changed_meanwhile', undefined, [
          {
            field: 'day',
            message: 'Meanwhile somebody took this day out. Sending again writes it down anew.',
          },
        ]);
      if (stands) check(stands);
      const moves = corrects !== null && !isSame(corrects, told);
      if (corrects === null || moves) {
        if (await this.actuals.isWritten(tx, told))
          throw refuse('This day is written down already; please correct it in the list below.');
      }
      if (moves) await this.takeOut(tx, who, corrects);
      await this.actuals.record(tx, who, told);
      return told;
    });
  }

  /** Takes a day out that was a slip. @throws AppError not_found; wrong_state where its plates were typed in one by one */
  remove(studioId: string, who: { name: string }, which: WhichDay): Promise<void> {
    return this.db.inStudio(studioId, (tx) => this.takeOut(tx, who, which));
  }

  /** Takes what is set aside for a day past off the shelf, or puts it back. */
  settle(
    studioId: string,
    who: { name: string },
    day: Temporal.PlainDate,
    became: 'used' | 'not used',
  ): Promise<void> {
    return this.db.inStudio(studioId, async (tx) => {
      const today = await this.today(tx);
      await this.stock.settle(tx, day, became, { today, who: who.name });
      const about = { aboutKind: 'day', aboutId: (await this.studios.load(tx)).id, event: 'settle' };
      await recordHistory(tx, this.clock, { who: who.name, ...about, note: `${day}: ${became}` });
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  /** Plates that were typed in one by one are told by them: what is told here of the day is the rest. */
  private async withoutTyped(tx: Tx, told: TellActuals): Promise<TellActuals> {
    const { plates: _, ...rest } = told;
    return (await this.isTyped(tx, told)) ? rest : told;
  }

  private async takeOut(tx: Tx, who: { name: string }, which: WhichDay): Promise<void> {
    if (await this.isTyped(tx, which))
      throw new AppError(
        'wrong_state',
        'The plates of this day were typed in; what is wrong is corrected there.',
      );
    await this.actuals.remove(tx, who, which);
  }

  private async isTyped(tx: Tx, { day, madeBy }: WhichDay): Promise<boolean> {
    return madeBy === 'sittings' && (await this.made.typedOf(tx, [day])).size > 0;
  }

  private async unsettled(tx: Tx): Promise<UsedNow['unsettled']> {
    const items = new Map((await this.stock.items(tx)).map((item) => [item.id, item]));
    const days = new Map<string, UsedNow['unsettled'][number]>();
    for (const { neededOn: day, itemId, quantity, lotId } of await this.stock.unsettled(
      tx,
      await this.today(tx),
    )) {
      const item = items.get(itemId);
      if (!item || lotId === null) continue;
      const known = days.get(day.toString()) ?? { day, parts: [] };
      const part = known.parts.find((one) => one.item.id === itemId);
      if (part) part.quantity += quantity;
      else known.parts.push({ item, quantity });
      days.set(day.toString(), known);
    }
    return [...days.values()];
  }

  private async today(tx: Tx): Promise<Temporal.PlainDate> {
    return this.room.today(await this.studios.load(tx));
  }
}

export const isSame = (one: WhichDay, other: WhichDay): boolean =>
  one.madeBy === other.madeBy && one.day.equals(other.day);
