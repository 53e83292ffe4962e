// Plates that go to an archive: lists of those whose sitters all agree to it, as a page and as a table, and given on a
// day. With it the plates of a sitting have left, once all that were kept of it are given.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { csv } from '../lib/csv.js';
import { instantToWall } from '../lib/zoned-time.js';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import type { BookQuery, SeenPlate } from './book.schemas.js';
import { BookService } from './book.service.js';
import { BookStore } from './book.store.js';
import { type HandedAs, LIST_HEADS, listCells, type MayGo, mayGo } from './hand-over.calc.js';
import {
  addForm,
  givenForm,
  type Handed,
  type HandOver,
  handOverForm,
  offForm,
} from './hand-over.schemas.js';
import { HandOverStore } from './hand-over.store.js';
import { OwedService } from './owed.service.js';

type Who = { name: string };

/** So many are offered at once for a list; further ones are looked for. */
export const MOST_OFFERED = 100;

export interface Listed extends SeenPlate {
  as: HandedAs;
  /** Whether it may still go, as those on it agree today. */
  may: MayGo;
}

export interface Offered extends SeenPlate {
  may: MayGo;
  /** The list on which it stands as a plate: it goes once only. Its scan may still go. */
  plateOn: Handed | null;
}

export interface OneHandOver {
  list: HandOver;
  plates: Listed[];
  /** Kept plates that stand not on this list, the newest first; none once it is given. */
  offered: Offered[];
  /** More were found than are offered. */
  more: boolean;
  /** The day on which it was noted is not over: it can be taken back. */
  canTakeBack: boolean;
  today: Temporal.PlainDate;
}

@Injectable()
export class HandOverService {
  private readonly store = new HandOverStore();
  private readonly book = new BookStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly books: BookService,
    private readonly owed: OwedService,
  ) {}

  all(studioId: string): Promise<{ list: HandOver; plates: number }[]> {
    return this.db.inStudio(studioId, async (tx) => {
      const counts = await this.store.counts(tx);
      return (await this.store.all(tx)).map((list) => ({ list, plates: counts.get(list.hand_over_id) ?? 0 }));
    });
  }

  /** The lists on which a plate stands, the oldest first. */
  ofPlate(studioId: string, madeId: string): Promise<Handed[]> {
    return this.db.inStudio(studioId, (tx) => this.store.ofPlates(tx, [madeId]));
  }

  /** Begins a list. @returns its id @throws AppError bad_input */
  begin(studioId: string, who: Who, sent: unknown): Promise<string> {
    const { takenBy, note } = readInput(handOverForm, sent);
    return this.db.inStudio(studioId, async (tx) => {
      const id = this.random.id();
      await this.store.insert(tx, { hand_over_id: id, taken_by: takenBy, note, made_at: this.clock.now() });
      await this.note(tx, who, id, 'begin', takenBy);
      return id;
    });
  }

  /** A list with all on it, and which of what is looked for could be added. @throws AppError not_found */
  one(studioId: string, id: string, query: Omit<BookQuery, 'page' | 'keeper'>): Promise<OneHandOver> {
    return this.db.inStudio(studioId, async (tx) => {
      const list = known(await this.store.byId(tx, id));
      const studio = await this.studios.load(tx);
      const plates = await this.listed(tx, id);
      const found = list.given_on
        ? []
        : await this.book.find(tx, { ...query, keeper: 'yes' }, { most: MOST_OFFERED + 1, from: 0 });
      const here = new Set(plates.map(({ plate }) => plate.id));
      const free = found.slice(0, MOST_OFFERED).filter((one) => !here.has(one.id));
      const ids = free.map((one) => one.id);
      const lists = (await this.store.ofPlates(tx, ids)).filter((one) => one.what === 'plate');
      const offered = (await this.books.seen(tx, free)).map((one) => ({
        ...one,
        may: mayGo(one),
        plateOn: lists.find(({ made_id }) => made_id === one.plate.id) ?? null,
      }));
      return {
        list,
        plates,
        offered,
        more: found.length > MOST_OFFERED,
        canTakeBack: this.isToday(studio, list),
        today: this.room.today(studio),
      };
    });
  }

  /**
   * Puts plates on a list that was not given yet.
   * @throws AppError not_found; wrong_state; bad_input at `plates` where one may not go, or goes elsewhere already
   */
  async add(studioId: string, who: Who, id: string, sent: unknown): Promise<void> {
    const { plates, what } = readInput(addForm, sent);
    const ids = [...new Set(plates)];
    await this.db.inStudio(studioId, async (tx) => {
      await this.open(tx, id);
      if ((await this.book.lock(tx, ids)) < ids.length) throw new AppError('not_found');
      const seen = await this.books.seen(tx, await this.book.byIds(tx, ids));
      const on = await this.store.ofPlates(tx, ids);
      const taken = on.filter((one) => one.hand_over_id === id || (what === 'plate' && one.what === 'plate'));
      const wrong = seen.filter(
        (one) => !mayGo(one).ok || taken.some(({ made_id }) => made_id === one.plate.id),
      );
      const numbers = (all: SeenPlate[]) => all.map((one) => one.plate.number).join(', ');
      if (wrong.length > 0) {
        const message = `Plate ${numbers(wrong)}: somebody on it does not agree, or it stands on a list already.`;
        throw new AppError('bad_input', undefined, [{ field: 'plates', message }]);
      }
      await this.store.add(tx, id, ids, what);
      await this.note(tx, who, id, 'add', `${numbers(seen)} (${what})`);
    });
  }

  /** Takes a plate off a list that was not given yet. @throws AppError not_found; wrong_state */
  async takeOff(studioId: string, who: Who, id: string, sent: unknown): Promise<void> {
    const { plate } = readInput(offForm, sent);
    await this.db.inStudio(studioId, async (tx) => {
      await this.open(tx, id);
      const [one] = await this.book.byIds(tx, [plate]);
      if (await this.store.takeOff(tx, id, plate)) await this.note(tx, who, id, 'off', `${one?.number}`);
    });
  }

  /**
   * Notes the day on which all of a list went.
   * @throws AppError not_found; wrong_state where it is given or empty, or somebody on it agrees no more; bad_input for a
   * day to come
   */
  async give(studioId: string, who: Who, id: string, sent: unknown): Promise<void> {
    const { day } = readInput(givenForm, sent);
    await this.db.inStudio(studioId, async (tx) => {
      await this.open(tx, id);
      const studio = await this.studios.load(tx);
      if (Temporal.PlainDate.compare(day, this.room.today(studio)) > 0)
        throw new AppError('bad_input', undefined, [{ field: 'day', message: 'This day is still to come.' }]);
      const plates = await this.listed(tx, id);
      if (plates.length === 0) throw new AppError('wrong_state', 'There is no plate on this list yet.');
      const not = plates.filter((one) => !one.may.ok).map((one) => one.plate.number);
      if (not.length > 0)
        throw new AppError(
          'wrong_state',
          `Plate ${not.join(', ')} may not go any more. Please take it off the list first.`,
        );
      const notedAt = this.clock.now();
      await this.store.setGiven(tx, id, { on: day, notedAt });
      await this.owed.leave(tx, studio, who, await this.leftWith(tx, plates), notedAt);
      await this.note(tx, who, id, 'given', day.toString());
    });
  }

  /** Takes back that a list was given, on the day it was noted. @throws AppError not_found; wrong_state */
  async takeBack(studioId: string, who: Who, id: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const list = known(await this.store.locked(tx, id));
      if (!list.noted_at) throw new AppError('wrong_state', 'This list was not given yet.');
      if (!this.isToday(await this.studios.load(tx), list))
        throw new AppError('wrong_state', 'This can be taken back on the same day only.');
      const sittings = (await this.listed(tx, id)).flatMap(({ plate }) => plate.sittingId ?? []);
      await this.owed.comeBack(tx, [...new Set(sittings)], list.noted_at);
      await this.store.setGiven(tx, id, null);
      await this.note(tx, who, id, 'not given', '');
    });
  }

  /** The list as a table, in UTF-8 with a mark at the front. @throws AppError not_found */
  csv(studioId: string, id: string): Promise<string> {
    return this.db.inStudio(studioId, async (tx) => {
      known(await this.store.byId(tx, id));
      return csv(
        LIST_HEADS,
        (await this.listed(tx, id)).map((one) => listCells(one, one.as)),
      );
    });
  }

  private async listed(tx: Tx, id: string): Promise<Listed[]> {
    const on = await this.store.onList(tx, id);
    const plates = await this.book.byIds(
      tx,
      on.map((one) => one.made_id),
    );
    return (await this.books.seen(tx, plates)).map((one) => ({
      ...one,
      as: on.find(({ made_id }) => made_id === one.plate.id)?.what ?? 'plate',
      may: mayGo(one),
    }));
  }

  /** The sittings of a list of which every kept plate is given, on whatever list. */
  private async leftWith(tx: Tx, plates: readonly Listed[]): Promise<string[]> {
    const here = plates.filter((one) => one.as === 'plate').flatMap((one) => one.plate.sittingId ?? []);
    const kept = (await this.book.ofSittings(tx, [...new Set(here)])).filter(
      (one) => one.keeper && !one.struckAt,
    );
    const ids = kept.map((one) => one.id);
    const given = (await this.store.ofPlates(tx, ids)).filter((one) => one.given_on && one.what === 'plate');
    const gone = new Set(given.map((one) => one.made_id));
    return [...new Set(here)].filter((id) => kept.every((one) => one.sittingId !== id || gone.has(one.id)));
  }

  private isToday(studio: Studio, { noted_at: at }: HandOver): boolean {
    return at !== null && instantToWall(studio.zone, at).toPlainDate().equals(this.room.today(studio));
  }

  private async open(tx: Tx, id: string): Promise<void> {
    if (known(await this.store.locked(tx, id)).given_on !== null)
      throw new AppError('wrong_state', 'This list is given; it is changed no more.');
  }

  private note(tx: Tx, who: Who, aboutId: string, event: string, note: string): Promise<void> {
    return recordHistory(tx, this.clock, { who: who.name, aboutKind: 'hand over', aboutId, event, note });
  }
}

function known(list: HandOver | null): HandOver {
  if (!list) throw new AppError('not_found', 'This list is not known here.');
  return list;
}
