// The old diary: people who wait, and people who were promised a day. Nobody is written to; reminders follow by the rules.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { dayInWords, timeInWords } from '../../lib/words.js';
import { dayBounds, instantToWall } from '../../lib/zoned-time.js';
import type { Tx } from '../../platform/db/tx.js';
import { AppError } from '../../platform/problems.js';
import { Reminding } from '../../reminders/reminding.service.js';
import type { Slot } from '../../room/openings.calc.js';
import { RoomService } from '../../room/room.service.js';
import type { DiaryLine } from '../../sittings/diary.schemas.js';
import { DiaryService } from '../../sittings/diary.service.js';
import { SittingViews } from '../../sittings/views.service.js';
import { StockService } from '../../stock/stock.service.js';
import type { Studio } from '../../studios/studios.schemas.js';
import { Gazetteer } from '../../travel/gazetteer.service.js';
import { placeLabel } from '../../travel/place-label.calc.js';
import { COLUMNS } from './columns.calc.js';
import { diaryLines, personKeys } from './diary.calc.js';
import type { Entered, Kind } from './kinds.schemas.js';
import { type Holder, whyNotPromised } from './promised.calc.js';
import type { Choices, NamedLine, ReadLine } from './reading.calc.js';

interface Line {
  line: number;
  value: DiaryLine;
}

@Injectable()
export class BringInDiary implements Kind<DiaryLine> {
  constructor(
    private readonly diary: DiaryService,
    private readonly views: SittingViews,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly reminding: Reminding,
    private readonly gazetteer: Gazetteer,
  ) {}

  async read(tx: Tx, studio: Studio, lines: NamedLine[], { order }: Choices): Promise<ReadLine<DiaryLine>[]> {
    const sizes = (await this.stock.plateSizes(tx)).filter(({ offered }) => offered);
    const known = new Set((await this.diary.asking(tx)).flatMap(personKeys));
    const today = this.room.today(studio);
    return diaryLines(lines, { today, order, sizes, known, home: this.homes(studio) });
  }

  async enter(
    tx: Tx,
    studio: Studio,
    who: { name: string },
    lines: Line[],
    trial: boolean,
  ): Promise<Entered> {
    const entered: Entered = { came: [], tells: new Map(), refused: new Map() };
    for (const { line, value } of inOrder(lines)) {
      if (trial && value.promised === null) continue;
      try {
        const done = await tx.part(() => this.diary.enter(tx, studio, who, value));
        entered.came.push({ line, became_id: done.sittingId });
        if (done.wallStart === null) continue;
        entered.tells.set(line, `${dayInWords(done.wallStart)}, ${timeInWords(done.wallStart)}`);
        if (!trial) await this.reminding.replan(tx, done.sittingId);
      } catch (error) {
        if (!(error instanceof AppError)) throw error;
        const column = COLUMNS.diary.promised?.label ?? '';
        const day = value.promised ? dayInWords(value.promised.day) : '';
        const why = (await this.whyNot(tx, studio, value, error)) ?? { why: error.detail };
        entered.refused.set(line, { column, cell: day, ...why });
      }
    }
    return entered;
  }

  async touched(tx: Tx, studio: Studio, ids: string[], upTo: bigint): Promise<Map<string, string>> {
    const touched = await this.diary.touched(tx, studio, ids, upTo);
    const told = await this.reminding.toldOf(tx, ids);
    const kept = ids.filter((id) => touched.has(id) || told.has(id));
    const views = await this.views.byIds(tx, studio, kept);
    return new Map(views.map(({ sitting, contact }) => [sitting.id, contact.name]));
  }

  async remove(tx: Tx, studio: Studio, _who: { name: string }, ids: string[]): Promise<void> {
    await this.reminding.forget(tx, ids); // waits for a letter that is being written
    if ((await this.reminding.toldOf(tx, ids)).size > 0)
      throw new AppError('wrong_state', 'A letter went to one of them just now, so nothing was undone.');
    await this.diary.remove(tx, studio, ids);
  }

  /** With the day before one's eyes; null where the refusal says all. Beyond the horizon no day has places. */
  private async whyNot(tx: Tx, studio: Studio, line: DiaryLine, { code }: AppError) {
    const { promised } = line;
    if (!promised || !['not_an_opening', 'place_taken'].includes(code)) return null;
    if (Temporal.PlainDate.compare(promised.day, this.room.bookable(studio).until) > 0) return null;
    const day = await this.diary.dayOf(tx, studio, line);
    const { time } = promised;
    const start = day?.openings.find(({ wallStart }) => time && wallStart.toPlainTime().equals(time));
    const holder = start?.closed === 'room taken' ? await this.holder(tx, studio, start) : null;
    return whyNotPromised(day, time, holder);
  }

  private async holder(tx: Tx, studio: Studio, { startsAt, busyUntil }: Slot): Promise<Holder | null> {
    if (!startsAt || !busyUntil) return null;
    const { start, end } = dayBounds(studio.zone, instantToWall(studio.zone, startsAt).toPlainDate());
    const all = await this.room.between(tx, start, end, end);
    const place = all.find(
      (one) =>
        one.holds &&
        one.resource === 'room' &&
        one.kind !== 'closure' &&
        Temporal.Instant.compare(one.startsAt, busyUntil) < 0 &&
        Temporal.Instant.compare(startsAt, one.busyUntil) < 0,
    );
    if (!place) return null;
    const view = (await this.views.byOccupancies(tx, studio, [place.id])).get(place.id);
    return { place, name: view?.contact.name ?? '' };
  }

  /** The place that a name means; of several of one name that in the studio's own country, if there is just one. */
  private homes(studio: Studio) {
    const country = this.gazetteer.nearest(studio)?.country;
    return (typed: string) => {
      const meant = this.gazetteer.meant(typed, null, 8).place;
      const place = meant ?? (country ? this.gazetteer.meant(`${typed}, ${country}`, null, 8).place : null);
      return place && { id: place.id, label: placeLabel(place), guessed: meant === null };
    };
  }
}

/** By their days, so that days are always locked in one order; of one day those with an hour first. */
function inOrder(lines: Line[]): Line[] {
  const key = ({ value: { promised } }: Line) =>
    promised ? `${promised.day.toString()} ${promised.time?.toString() ?? 'z'}` : '';
  return [...lines].sort((one, other) => {
    const [a, b] = [key(one), key(other)];
    return a < b ? -1 : a > b ? 1 : one.line - other.line;
  });
}
