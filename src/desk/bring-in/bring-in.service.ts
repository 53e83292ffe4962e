// Bringing in what somebody has elsewhere: kept as a draft, looked at as often as they like, brought in all or nothing,
// and undone as a whole. What lines mean is for each kind to say.
import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { Clock, Random } from '../../platform/clock.js';
import { Db } from '../../platform/db/db.js';
import { historyUpTo, recordHistory } from '../../platform/db/history.js';
import type { Tx } from '../../platform/db/tx.js';
import { AppError } from '../../platform/problems.js';
import type { Studio } from '../../studios/studios.schemas.js';
import { StudiosService } from '../../studios/studios.service.js';
import { Gazetteer } from '../../travel/gazetteer.service.js';
import type { BringIn, Draft, WaitingDraft } from './bring-in.schemas.js';
import { BringInStore } from './bring-in.store.js';
import { orderIn } from './cells.calc.js';
import type { What } from './columns.calc.js';
import { BringInDiary } from './diary.service.js';
import { BringInPlates } from './plates.service.js';
import { BringInShelf } from './shelf.service.js';
import type { Entered, Kind } from './kinds.schemas.js';
import { type Choices, firstChoices, type ReadLine, reading, type Reading } from './reading.calc.js';

type Who = { name: string };
type Line = ReadLine<unknown>;

/** A draft with all that is known of it before it comes in. */
export interface Checked {
  draft: Draft;
  reading: Reading;
  /** Those that come in, or would but for their problems. */
  lines: (Line & { tells: string | undefined })[];
  left: Line[];
  /** The same text was brought in before. */
  before: BringIn | null;
  /** Of all that is shown: it comes in only like this. */
  seen: string;
}

/** Something done since stands in the way of an undo: which lines, and what they became. */
export interface Touched {
  line: number;
  id: string;
  name: string;
}

const TAKEN_BACK = new Error('A trial is always taken back.');

@Injectable()
export class BringInService {
  private readonly store = new BringInStore();
  private readonly kinds: Record<What, Kind<unknown>>;

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly studios: StudiosService,
    private readonly gazetteer: Gazetteer,
    diary: BringInDiary,
    shelf: BringInShelf,
    plates: BringInPlates,
  ) {
    this.kinds = { diary, shelf, plates };
  }

  /** Keeps what was pasted or read. @returns the draft's id */
  async begin(studioId: string, what: What, source: string, guessed: boolean): Promise<string> {
    const id = this.random.id();
    await this.db.inStudio(studioId, async (tx) => {
      const usual = orderIn(this.gazetteer.nearest(await this.studios.load(tx))?.countryCode);
      const choices = firstChoices(what, source, usual);
      await this.store.keepDraft(tx, { draft_id: id, what, source, choices, guessed }, this.clock.now());
    });
    return id;
  }

  /** @throws AppError not_found when it was brought in, or forgotten */
  async choose(studioId: string, id: string, change: (draft: Draft) => Choices): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const draft = await this.draft(tx, id);
      await this.store.saveChoices(tx, id, change(draft), this.clock.now());
    });
  }

  async drop(studioId: string, id: string): Promise<void> {
    await this.db.inStudio(studioId, (tx) => this.store.dropDraft(tx, id));
  }

  /** What would come in, by doing it and taking it back. @throws AppError not_found */
  check(studioId: string, who: Who, id: string): Promise<Checked> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const read = await this.read(tx, studio, await this.draft(tx, id));
      const entered = await this.tried(tx, studio, who, read);
      return this.with(read, entered);
    });
  }

  /**
   * Brings a draft in as it was seen, whole or not at all; null where it stands otherwise by now.
   * @returns what was brought in @throws AppError not_found
   */
  async confirm(studioId: string, who: Who, id: string, seen: string): Promise<string | null> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const read = await this.read(tx, studio, await this.draft(tx, id));
      if (isOpen(read)) return null;
      const done = await orNull(() =>
        tx.part(async () => {
          const entered = await this.enter(tx, studio, who, read, false);
          if (this.with(read, entered).seen !== seen) throw TAKEN_BACK;
          return entered;
        }),
      );
      if (done === null) return null;
      const bringIn = { id: this.random.id(), what: read.draft.what, at: this.clock.now(), who: who.name };
      const whole = { ...bringIn, sum: sumOf(read.draft), upTo: await historyUpTo(tx) };
      await this.store.insert(tx, whole, done.came);
      await this.store.dropDraft(tx, id);
      await this.note(tx, who, bringIn.id, 'bring_in', `${bringIn.what}: ${done.came.length} lines`);
      await this.studios.raiseCalendarCounter(tx);
      return bringIn.id;
    });
  }

  /** What was brought in, and the drafts that wait, the newest first. */
  all(studioId: string): Promise<{ before: BringIn[]; drafts: WaitingDraft[] }> {
    return this.db.inStudio(studioId, async (tx) => ({
      before: await this.store.all(tx),
      drafts: await this.store.drafts(tx),
    }));
  }

  /**
   * Undoes what was brought in, as a whole, as if it had never been.
   * @returns with what something was done since: then nothing is undone
   * @throws AppError not_found; wrong_state when it was undone before
   */
  undo(studioId: string, who: Who, id: string): Promise<Touched[]> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const one = await this.store.locked(tx, id);
      if (!one) throw new AppError('not_found');
      if (one.undone_at) throw new AppError('wrong_state', 'This was undone already.');
      const came = await this.store.lines(tx, id);
      const ids = came.map(({ became_id }) => became_id);
      const kind = this.kinds[one.what];
      const touched = await kind.touched(tx, studio, ids, one.up_to);
      if (touched.size > 0)
        return came.flatMap(({ line, became_id }) => {
          const name = touched.get(became_id);
          return name === undefined ? [] : [{ line, id: became_id, name }];
        });
      await kind.remove(tx, studio, who, ids);
      await this.store.undo(tx, id, this.clock.now(), who.name);
      await this.note(tx, who, id, 'undo', `${one.what}: ${ids.length} lines`);
      await this.studios.raiseCalendarCounter(tx);
      return [];
    });
  }

  private async read(tx: Tx, studio: Studio, draft: Draft) {
    const table = reading(draft.what, draft.source, draft.choices);
    const leaves = new Set(draft.choices.leave);
    const kind = this.kinds[draft.what];
    const wanted = table.refused === null ? table.lines : [];
    const lines = await kind.read(
      tx,
      studio,
      wanted.filter(({ line }) => !leaves.has(line)),
      draft.choices,
    );
    const left = await kind.read(
      tx,
      studio,
      wanted.filter(({ line }) => leaves.has(line)),
      draft.choices,
    );
    return { draft, reading: table, lines, left, before: await this.store.bySum(tx, sumOf(draft)) };
  }

  /** Enters all, and takes it back. */
  private async tried(tx: Tx, studio: Studio, who: Who, read: Read): Promise<Entered> {
    let entered: Entered = { came: [], tells: new Map(), refused: new Map() };
    await orNull(() =>
      tx.part(async () => {
        entered = await this.enter(tx, studio, who, read, true);
        throw TAKEN_BACK;
      }),
    );
    return entered;
  }

  private enter(tx: Tx, studio: Studio, who: Who, { draft, lines }: Read, trial: boolean): Promise<Entered> {
    const good = lines.filter(({ problems }) => problems.length === 0);
    return this.kinds[draft.what].enter(tx, studio, who, good, trial);
  }

  private with(read: Read, { tells, refused }: Entered): Checked {
    const lines = read.lines.map((one) => {
      const no = refused.get(one.line);
      return { ...one, problems: [...one.problems, ...(no ? [no] : [])], tells: tells.get(one.line) };
    });
    const told = [
      read.before?.bring_in_id,
      lines.map(({ line, name, tells, problems }) => [line, name, tells, problems]),
    ];
    const seen = createHash('sha256').update(JSON.stringify(told)).digest('base64url').slice(0, 22);
    return { ...read, lines, seen };
  }

  private async draft(tx: Tx, id: string): Promise<Draft> {
    const draft = await this.store.draft(tx, id, true);
    if (!draft) throw new AppError('not_found', 'This was brought in already, or forgotten.');
    return draft;
  }

  private note(tx: Tx, who: Who, aboutId: string, event: string, note: string): Promise<void> {
    return recordHistory(tx, this.clock, { who: who.name, aboutKind: 'bring in', aboutId, event, note });
  }
}

type Read = Omit<Checked, 'lines' | 'seen'> & { lines: Line[] };

/** Whether something has to be put right first. */
const isOpen = ({ reading: { refused }, lines }: Read) =>
  refused !== null || lines.length === 0 || lines.some(({ problems }) => problems.length > 0);

const sumOf = ({ what, source }: Draft): Buffer =>
  createHash('sha256')
    .update(`${what}\n${source.replace(/\r\n?/g, '\n').trim()}`)
    .digest();

async function orNull<T>(act: () => Promise<T>): Promise<T | null> {
  try {
    return await act();
  } catch (error) {
    if (error === TAKEN_BACK) return null;
    throw error;
  }
}
