// Typing in the day: the plates that were made, each with the running number it keeps. What is typed corrects what was
// typed before and never doubles it. Stock, baths and the studio's own figures follow in the same transaction.
import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { dayBounds } from '../lib/zoned-time.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import { EndingsService } from '../sittings/endings.service.js';
import { SittingViews } from '../sittings/views.service.js';
import { DaysService } from '../stock/days.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { inOneText, saysOtherwise } from './made.calc.js';
import { type Made, type MadeDay, type SaidPlate, type TypedDay, typedDay } from './made.schemas.js';
import { MadeStore } from './made.store.js';
import { MadeChoices } from './made-choices.service.js';
import { MadeFeeds } from './made-feeds.service.js';
import { MadeLight } from './made-light.service.js';
import { MadeStockService } from './made-stock.service.js';

type Day = Temporal.PlainDate;

/** What a save did. */
export interface Typed {
  numbers: number[];
  corrected: number;
  struck: number;
  /** Something is not as it was: a plate, or how the light was. */
  changed: boolean;
}

@Injectable()
export class MadeService {
  private readonly store = new MadeStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly views: SittingViews,
    private readonly endings: EndingsService,
    private readonly days: DaysService,
    private readonly choices: MadeChoices,
    private readonly shelf: MadeStockService,
    private readonly feeds: MadeFeeds,
    private readonly light: MadeLight,
  ) {}

  day(studioId: string, day: Day): Promise<MadeDay> {
    return this.db.inStudio(studioId, async (tx) => this.of(tx, await this.studios.load(tx), day));
  }

  /** The plates of a day that count, in the order of their numbers. */
  async plates(tx: Tx, day: Day): Promise<Made[]> {
    return (await this.store.ofDay(tx, day)).filter((one) => one.struckAt === null);
  }

  /** Of some days, as "2027-04-02", those of which plates of sitters were typed in. */
  async typedOf(tx: Tx, days: readonly Day[]): Promise<Set<string>> {
    return new Set((await this.store.typedOf(tx, days.map(String))).map(String));
  }

  /**
   * Types plates in, corrects and strikes some. A new id is a new plate with the next number, in the order given; a known
   * one is corrected. Saying the same again changes nothing.
   * @throws AppError bad_input at `plates/N/...` or `first`, with a sentence each; not_found for another day's plate;
   * wrong_state for a day to come, or where others changed the day's plates since they were `seen`
   */
  save(studioId: string, who: { name: string }, day: Day, input: unknown): Promise<Typed> {
    const said = readInput(typedDay, input);
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      if (Temporal.PlainDate.compare(day, this.room.today(studio)) > 0)
        throw new AppError('wrong_state', 'This day is still to come.');
      const known = await this.store.ofDay(tx, day);
      await this.endings.lockAll(tx, [
        ...new Set([...known, ...said.plates].flatMap(({ sittingId }) => sittingId ?? [])),
      ]);
      const { id: dayId } = await this.days.lock(tx, day);
      const now = await this.of(tx, studio, day);
      const is = await this.typed(tx, who, now, said);
      const done = doneOf(now.plates, is);
      const otherLight = said.light !== undefined && JSON.stringify(said.light) !== JSON.stringify(now.light);
      const changed = done.numbers.length + done.corrected + done.struck > 0 || otherLight;
      if (changed) {
        const light = said.light === undefined ? now.light : said.light;
        await this.light.follow(tx, { ...now, plates: is }, light);
        await this.shelf.follow(tx, { day, dayId, was: now.plates, is, who: who.name });
        await this.feeds.follow(tx, who, { day, plates: is, sizes: now.sizes });
        await this.note(tx, who, dayId, day, done);
        await this.studios.raiseCalendarCounter(tx);
      }
      return { ...done, changed };
    });
  }

  private async of(tx: Tx, studio: Studio, day: Day): Promise<MadeDay> {
    const plates = await this.store.ofDay(tx, day);
    const { start, end } = dayBounds(studio.zone, day);
    const places = (await this.room.between(tx, start, end, this.clock.now()))
      .filter(
        (one) =>
          one.holds && !one.tentative && one.kind === 'sitting' && one.wallStart.toPlainDate().equals(day),
      )
      .sort((one, other) => one.startsAt.epochMilliseconds - other.startsAt.epochMilliseconds);
    const order = new Set([
      ...places.map((one) => one.heldFor),
      ...plates.flatMap(({ sittingId }) => sittingId ?? []),
    ]);
    const views = new Map(
      (await this.views.byIds(tx, studio, [...order])).map((view) => [view.sitting.id, view]),
    );
    const sittings = [...order].flatMap((id) => {
      const view = views.get(id);
      return view ? [{ view, place: places.find((one) => one.heldFor === id) ?? null }] : [];
    });
    const version = createHash('sha256').update(inOneText(plates)).digest('base64url').slice(0, 27);
    const next = await this.store.next(tx);
    const today = this.room.today(studio);
    return {
      ...{ day, today, next, sittings, plates, version },
      ...(await this.choices.of(tx, day, plates)),
      ...(await this.light.of(tx, plates)),
    };
  }

  /** Writes what was said, and gives the day's plates as they are then. */
  private async typed(tx: Tx, who: { name: string }, now: MadeDay, said: TypedDay): Promise<Made[]> {
    const known = new Map(now.plates.map((one) => [one.id, one]));
    const isNew = said.plates.filter((one) => !known.has(one.id));
    const others = said.plates.filter(({ id }) => known.has(id));
    const corrects = others.filter((one) => saysOtherwise(known.get(one.id) as Made, one));
    const strikes = said.strike.filter((id) => known.get(id)?.struckAt === null);
    if (
      said.strike.some((id) => !known.has(id)) ||
      (
        await this.store.byIds(
          tx,
          isNew.map(({ id }) => id),
        )
      ).length > 0
    )
      throw new AppError('not_found', 'This plate is not among those of the day.');
    if (isNew.length + corrects.length + strikes.length === 0) return now.plates;
    if (said.seen !== undefined && said.seen !== now.version)
      throw new AppError('wrong_state', 'Somebody changed the plates of this day in the meantime.');
    this.choices.check(said, now);
    const next = await this.numbers(tx, said, isNew.length > 0);
    let number = next;
    const is = new Map(known);
    for (const one of said.plates) {
      const was = known.get(one.id);
      if (was && !corrects.includes(one)) continue;
      const plate = await this.plate(tx, who, now.day, one, was ?? null, was ? was.number : number++);
      if (was) await this.store.correct(tx, plate);
      else await this.store.insert(tx, plate, this.clock.now());
      is.set(one.id, plate);
    }
    if (number > next) await this.store.setNext(tx, number);
    for (const id of strikes) {
      const at = this.clock.now();
      await this.store.strike(tx, id, at);
      is.set(id, { ...(is.get(id) as Made), struckAt: at });
    }
    return [...is.values()];
  }

  /** The next number, held until the transaction ends: so numbers have no gap, and no number is given twice. */
  private async numbers(tx: Tx, { first }: TypedDay, needed: boolean): Promise<number> {
    const next = await this.store.lockNext(tx);
    if (next !== null || !needed) return next ?? 1;
    if (first === undefined)
      throw new AppError('bad_input', undefined, [
        { field: 'first', message: 'Please say which number the first plate gets.' },
      ]);
    await this.store.begin(tx, first);
    return (await this.store.lockNext(tx)) ?? first;
  }

  private async plate(
    tx: Tx,
    who: { name: string },
    day: Day,
    said: SaidPlate,
    was: Made | null,
    number: number,
  ): Promise<Made> {
    const stays = said.seriesId === (was?.seriesId ?? null);
    const seriesNumber = stays
      ? (was?.seriesNumber ?? null)
      : said.seriesId === null
        ? null
        : (await this.store.lastOfSeries(tx, said.seriesId)) + 1;
    const { struckAt = null } = was ?? {};
    return { ...said, number, day, seriesNumber, who: was?.who ?? who.name, struckAt };
  }

  private note(
    tx: Tx,
    who: { name: string },
    aboutId: string,
    day: Day,
    done: Omit<Typed, 'changed'>,
  ): Promise<void> {
    const { numbers, corrected, struck } = done;
    const note = [
      day.toString(),
      numbers.length > 0 ? `new: ${numbers.join(', ')}` : '',
      corrected > 0 ? `corrected: ${corrected}` : '',
      struck > 0 ? `struck: ${struck}` : '',
    ];
    const about = { aboutKind: 'day', aboutId, event: 'plates_typed' };
    return recordHistory(tx, this.clock, {
      who: who.name,
      ...about,
      note: note.filter((one) => one !== '').join('; '),
    });
  }
}

function doneOf(was: readonly Made[], is: readonly Made[]): Omit<Typed, 'changed'> {
  const known = new Map(was.map((one) => [one.id, one]));
  const numbers = is.filter((one) => !known.has(one.id)).map((one) => one.number);
  const both = is.flatMap((one) => {
    const before = known.get(one.id);
    return before ? [{ before, one }] : [];
  });
  return {
    numbers,
    corrected: both.filter(({ before, one }) => saysOtherwise(before, one)).length,
    struck: both.filter(({ before, one }) => before.struckAt === null && one.struckAt !== null).length,
  };
}
