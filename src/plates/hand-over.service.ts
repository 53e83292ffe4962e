// Plates that go to an archive: lists of those whose sitters all agree to it, printed or as a table, and given on a day.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { csv } from '../lib/csv.js';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { addForm, givenForm, type Handed, type HandOver, handOverForm } from './hand-over.schemas.js';
import { HandOverStore } from './hand-over.store.js';

type Who = { name: string };

export interface OneHandOver {
  list: Omit<HandOver, 'plates'>;
  plates: Handed[];
  /** Kept plates that stand on no list; those whose `missing` is not empty may not be added. */
  free: Handed[];
}

@Injectable()
export class HandOverService {
  private readonly store = new HandOverStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
  ) {}

  all(studioId: string): Promise<HandOver[]> {
    return this.db.inStudio(studioId, (tx) => this.store.all(tx));
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

  /** @throws AppError not_found */
  one(studioId: string, id: string): Promise<OneHandOver> {
    return this.db.inStudio(studioId, async (tx) => ({
      list: await this.locked(tx, id),
      plates: await this.store.plates(tx, id),
      free: await this.store.free(tx),
    }));
  }

  /**
   * Puts plates on a list that was not given yet.
   * @throws AppError not_found, wrong_state, bad_input where somebody on a plate does not agree, or it stands on a list
   */
  async add(studioId: string, who: Who, id: string, sent: unknown): Promise<void> {
    const { plates, what } = readInput(addForm, sent);
    await this.db.inStudio(studioId, async (tx) => {
      await this.open(tx, id);
      const free = new Map((await this.store.free(tx)).map((one) => [one.made_id, one]));
      const wrong = plates.filter((one) => (free.get(one)?.missing.length ?? 1) > 0);
      if (wrong.length > 0) {
        const message =
          'A plate you chose stands on a list already, or somebody on it does not agree any more.';
        throw new AppError('bad_input', undefined, [{ field: 'plates', message }]);
      }
      await this.store.add(tx, id, plates, what);
      await this.note(
        tx,
        who,
        id,
        'add',
        `${plates.map((one) => free.get(one)?.number).join(', ')} (${what})`,
      );
    });
  }

  /** Takes a plate off a list that was not given yet. @throws AppError not_found, wrong_state */
  async takeOff(studioId: string, who: Who, id: string, madeId: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      await this.open(tx, id);
      const plate = (await this.store.plates(tx, id)).find((one) => one.made_id === madeId);
      if (await this.store.takeOff(tx, id, madeId))
        await this.note(tx, who, id, 'take off', `${plate?.number}`);
    });
  }

  /**
   * Notes the day on which all of a list went. @throws AppError not_found; wrong_state where it went before, stands empty, or
   * somebody on it has taken their yes back; bad_input for a day to come
   */
  async give(studioId: string, who: Who, id: string, sent: unknown): Promise<void> {
    const { day } = readInput(givenForm, sent);
    await this.db.inStudio(studioId, async (tx) => {
      await this.open(tx, id);
      const plates = await this.store.plates(tx, id);
      if (plates.length === 0) throw new AppError('wrong_state', 'There is no plate on this list yet.');
      const without = plates.filter((one) => one.missing.length > 0);
      if (without.length > 0)
        throw new AppError(
          'wrong_state',
          `Somebody on plate ${without.map((one) => one.number).join(', ')} has taken their yes back. Please take it off the list first.`,
        );
      if (Temporal.PlainDate.compare(day, this.room.today(await this.studios.load(tx))) > 0)
        throw new AppError('bad_input', undefined, [{ field: 'day', message: 'This day is still to come.' }]);
      await this.store.setGiven(tx, id, day);
      await this.note(tx, who, id, 'give', day.toString());
    });
  }

  /** Takes back that a list went, which was a slip. @throws AppError not_found, wrong_state */
  async notGiven(studioId: string, who: Who, id: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      if ((await this.locked(tx, id)).given_on === null)
        throw new AppError('wrong_state', 'This list has not gone yet.');
      await this.store.setGiven(tx, id, null);
      await this.note(tx, who, id, 'not given', '');
    });
  }

  /** The list as a table for any spreadsheet. @throws AppError not_found */
  async csv(studioId: string, id: string): Promise<string> {
    const { plates } = await this.one(studioId, id);
    return csv(
      ['number', 'day', 'size', 'names', 'series', 'what goes'],
      plates.map((one) => [`${one.number}`, one.day.toString(), one.size, one.names, one.series, one.what]),
    );
  }

  private async locked(tx: Tx, id: string): Promise<Omit<HandOver, 'plates'>> {
    const list = await this.store.lock(tx, id);
    if (!list) throw new AppError('not_found', 'This list is not known here.');
    return list;
  }

  private async open(tx: Tx, id: string): Promise<void> {
    if ((await this.locked(tx, id)).given_on !== null)
      throw new AppError('wrong_state', 'This list has gone; it is changed no more.');
  }

  private note(tx: Tx, who: Who, id: string, event: string, note: string): Promise<void> {
    return recordHistory(tx, this.clock, { who: who.name, aboutKind: 'hand over', aboutId: id, event, note });
  }
}
