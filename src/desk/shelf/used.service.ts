// What days took, as its page needs it: what is written down, the studio's own figures, one act each to write a
// day down, correct it and take it out.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { RecordedDay, TellActuals, WhichDay } from '../../chemistry/actuals.schemas.js';
import { ActualsService } from '../../chemistry/actuals.service.js';
import { type OwnFigures, ownFigures } from '../../chemistry/learning.calc.js';
import { Db } from '../../platform/db/db.js';
import type { Tx } from '../../platform/db/tx.js';
import { AppError } from '../../platform/problems.js';
import { RoomService } from '../../room/room.service.js';
import type { PlateSize } from '../../stock/stock.schemas.js';
import { StockService } from '../../stock/stock.service.js';
import { StudiosService } from '../../studios/studios.service.js';
import { readUsedForm } from './used.schemas.js';

export interface UsedNow {
  today: Temporal.PlainDate;
  sizes: PlateSize[];
  /** The latest first. */
  days: RecordedDay[];
  figures: OwnFigures;
}

@Injectable()
export class UsedService {
  constructor(
    private readonly db: Db,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly actuals: ActualsService,
  ) {}

  show(studioId: string): Promise<UsedNow> {
    return this.db.inStudio(studioId, async (tx) => {
      const days = await this.actuals.days(tx);
      return {
        today: await this.today(tx),
        sizes: await this.stock.plateSizes(tx),
        days,
        figures: ownFigures(days),
      };
    });
  }

  /**
   * Writes a day down. `corrects` is the record that is corrected, which may so come to another day.
   * @throws AppError bad_input with a sentence per field; also where another record stands for the day already
   */
  enter(
    studioId: string,
    who: { name: string },
    sent: Record<string, unknown>,
    corrects: WhichDay | null,
  ): Promise<TellActuals> {
    return this.db.inStudio(studioId, async (tx) => {
      const read = readUsedForm(sent, await this.stock.plateSizes(tx));
      if (!read.ok) throw new AppError('bad_input', undefined, read.problems);
      const { told } = read;
      const refuse = (message: string) => new AppError('bad_input', undefined, [{ field: 'day', message }]);
      if (Temporal.PlainDate.compare(told.day, await this.today(tx)) > 0)
        throw refuse('This day is still to come.');
      const moves = corrects !== null && !isSame(corrects, told);
      if (corrects === null || moves) {
        if (await this.actuals.isWritten(tx, told))
          throw refuse('This day is written down already; please correct it in the list below.');
      }
      if (moves) await this.actuals.remove(tx, who, corrects);
      await this.actuals.record(tx, who, told);
      return told;
    });
  }

  /** Takes a day out that was a slip. @throws AppError not_found */
  remove(studioId: string, who: { name: string }, which: WhichDay): Promise<void> {
    return this.db.inStudio(studioId, (tx) => this.actuals.remove(tx, who, which));
  }

  private async today(tx: Tx): Promise<Temporal.PlainDate> {
    return this.room.today(await this.studios.load(tx));
  }
}

export const isSame = (one: WhichDay, other: WhichDay): boolean =>
  one.madeBy === other.madeBy && one.day.equals(other.day);
