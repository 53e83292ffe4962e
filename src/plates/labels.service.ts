// Labels for the back of plates: which are printed, what stands on each, and the owner's sheet.
import { Injectable } from '@nestjs/common';
import { Clock } from '../platform/clock.js';
import { editAlone } from '../platform/db/alone.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { StudiosService } from '../studios/studios.service.js';
import { BookStore } from './book.store.js';
import { BookService } from './book.service.js';
import { fitLabel, type LabelSheet, type LabelText, roomOn, USUAL_SHEET } from './labels.calc.js';
import { type LabelQuery, sheetForm } from './labels.schemas.js';
import { LabelsStore } from './labels.store.js';

export interface Labels {
  sheet: LabelSheet;
  labels: { number: number; text: LabelText }[];
  /** The numbers of plates whose record does not fit on a label of this size. */
  tooLong: number[];
  /** Those with nothing on them: no field of theirs is known. */
  empty: number[];
}

@Injectable()
export class LabelsService {
  private readonly store = new LabelsStore();
  private readonly book = new BookStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly books: BookService,
  ) {}

  labels(studioId: string, query: LabelQuery): Promise<Labels> {
    return this.db.inStudio(studioId, async (tx) => {
      const sheet = (await this.store.sheet(tx)) ?? USUAL_SHEET;
      const plates = await this.book.byIds(tx, await this.store.wanted(tx, query));
      const all = (await this.books.recordsOf(tx, await this.studios.load(tx), plates)).map(
        ({ plate, record }) => ({
          number: plate.number,
          text: fitLabel(record, sheet),
        }),
      );
      return {
        sheet,
        labels: all.flatMap(({ number, text }) => (text && text.lines.length > 0 ? [{ number, text }] : [])),
        tooLong: all.filter((one) => one.text === null).map((one) => one.number),
        empty: all.filter((one) => one.text?.lines.length === 0).map((one) => one.number),
      };
    });
  }

  /** @throws AppError bad_input where the labels do not stand on the paper */
  async saveSheet(
    studioId: string,
    who: { name: string },
    input: unknown,
    check: (stands: LabelSheet) => void = () => {},
  ): Promise<void> {
    const sheet = readInput(sheetForm, input);
    const { down, fitsAcross } = roomOn(sheet);
    if (!fitsAcross)
      throw new AppError('bad_input', undefined, [
        { field: 'across', message: 'So many of this width are wider than the paper.' },
      ]);
    if (down === 0)
      throw new AppError('bad_input', undefined, [
        { field: 'height', message: 'A label of this height is higher than the paper.' },
      ]);
    await this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'label sheet');
      check((await this.store.sheet(tx)) ?? USUAL_SHEET);
      await this.store.saveSheet(tx, sheet);
      const note = `${sheet.width} x ${sheet.height} mm, ${sheet.across} across, ${sheet.paper}`;
      const about = { aboutKind: 'settings', aboutId: studioId, event: 'label_sheet', note };
      await recordHistory(tx, this.clock, { who: who.name, ...about });
    });
  }
}
