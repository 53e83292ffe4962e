// The studio's exposure notes, and what they propose. Taking a proposal is a change of the settings and is
// made there, seen first; nothing here moves the reference.
import { Injectable } from '@nestjs/common';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError, type FieldProblem } from '../platform/problems.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { DaylightStore } from './daylight.store.js';
import { altitudeOf, type Group, groupsOf } from './notes.calc.js';
import { noteForm, type WrittenNote } from './notes.schemas.js';
import { wallToInstant } from '../lib/zoned-time.js';

/** So many are read: years of one plate a day; older ones tell of other bottles. */
const MOST_NOTES = 1000;

export interface Notes {
  studio: Studio;
  /** The latest first. */
  notes: WrittenNote[];
  groups: Group[];
}

@Injectable()
export class DaylightService {
  private readonly store = new DaylightStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
  ) {}

  notes(studioId: string): Promise<Notes> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const notes = await this.store.notes(tx, MOST_NOTES);
      return { studio, notes, groups: groupsOf(studio, notes) };
    });
  }

  /**
   * Writes a plate down. The same id twice is one note. Names written before in other letters are taken as
   * they were, so that like stays with like.
   * @throws AppError bad_input with a sentence per field, same_key_other_request where the id is another plate's
   */
  enterNote(studioId: string, who: { name: string }, noteId: string, input: unknown): Promise<void> {
    const answers = readInput(noteForm, input);
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const { date, time, ...said } = answers;
      const asBefore = async (what: 'lens' | 'framing' | 'bottle') =>
        (await this.store.writtenAs(tx, what, said[what])) ?? said[what];
      const note: WrittenNote = {
        ...said,
        id: noteId,
        zone: studio.zone,
        wallAt: date.toPlainDateTime(time),
        lens: await asBefore('lens'),
        framing: await asBefore('framing'),
        bottle: await asBefore('bottle'),
      };
      const problems = this.whenProblems(studio, note);
      if (problems.length > 0) throw new AppError('bad_input', undefined, problems);
      if (!(await this.store.insert(tx, note, this.clock.now()))) {
        if (same(await this.store.byId(tx, noteId), note)) return;
        throw new AppError(
          'same_key_other_request',
          'This form was sent before, about another plate. Please begin a new one.',
        );
      }
      await recordHistory(tx, this.clock, {
        who: who.name,
        aboutKind: 'exposure note',
        aboutId: noteId,
        event: 'note',
        note: noteInShort(note),
      });
    });
  }

  /** What was written last of lens, f-number and framing; null before the first note. */
  async usual(tx: Tx): Promise<Pick<WrittenNote, 'lens' | 'fNumber' | 'framing' | 'magnification'> | null> {
    return (await this.store.notes(tx, 1))[0] ?? null;
  }

  /** Some notes by their ids. */
  notesOf(tx: Tx, ids: string[]): Promise<WrittenNote[]> {
    return this.store.byIds(tx, ids);
  }

  /**
   * Writes down a plate that is noted elsewhere under the same id, in the place of what was written of it; null takes it
   * out. One that is still to come, or was made with the sun down, is left out. Names are taken as written before.
   */
  async follow(tx: Tx, noteId: string, said: Omit<WrittenNote, 'id' | 'zone'> | null): Promise<void> {
    const studio = await this.studios.load(tx);
    const asBefore = async (what: 'lens' | 'framing' | 'bottle', typed: string) =>
      (await this.store.writtenAs(tx, what, typed)) ?? typed;
    await this.store.remove(tx, noteId);
    if (said === null) return;
    const note: WrittenNote = {
      ...said,
      id: noteId,
      zone: studio.zone,
      lens: await asBefore('lens', said.lens),
      framing: await asBefore('framing', said.framing),
      bottle: await asBefore('bottle', said.bottle),
    };
    if (this.whenProblems(studio, note).length === 0) await this.store.insert(tx, note, this.clock.now());
  }

  /** Takes a note out that was mistyped. @throws AppError not_found */
  removeNote(studioId: string, who: { name: string }, noteId: string): Promise<void> {
    return this.db.inStudio(studioId, async (tx) => {
      if (!(await this.store.remove(tx, noteId)))
        throw new AppError('not_found', 'This note is not here any more.');
      await recordHistory(tx, this.clock, {
        who: who.name,
        aboutKind: 'exposure note',
        aboutId: noteId,
        event: 'remove',
      });
    });
  }

  /** A plate was made in the past, with the sun up; anything else is a slip of the pen. */
  private whenProblems(studio: Studio, note: WrittenNote): FieldProblem[] {
    const answer = wallToInstant(note.zone, note.wallAt, 'earlier');
    if (!answer.ok) return [{ field: 'time', message: 'The clocks skipped that hour.' }];
    if (answer.instant.epochMilliseconds > this.clock.now().epochMilliseconds)
      return [{ field: 'date', message: 'This is still to come; a note is about a plate that was made.' }];
    return (altitudeOf(studio, note) ?? -1) < 0
      ? [{ field: 'time', message: 'The sun was not up at that time.' }]
      : [];
  }
}

/** Whether two notes say the same of a plate, whatever the size of their letters. */
function same(one: WrittenNote | null, other: WrittenNote): boolean {
  const words = (note: WrittenNote) =>
    [note.wallAt, noteInShort(note), note.magnification].join(' ').toLowerCase();
  return one !== null && words(one) === words(other);
}

const noteInShort = ({ seconds, weather, lens, fNumber, framing, bottle, verdict }: WrittenNote) =>
  `${seconds} s, ${weather}, ${lens} at f/${fNumber}, ${framing}, ${bottle}: ${verdict}`;
