// What days took, written down and corrected, and the studio's own figures learned from it.
import { Injectable } from '@nestjs/common';
import { Clock, Random } from '../platform/clock.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { MOST_TRIES, type RecordedDay, type TellActuals, type WhichDay } from './actuals.schemas.js';
import { ActualsStore } from './actuals.store.js';
import { type OwnFigures, ownFigures } from './learning.calc.js';

/** So many days are learned from and shown: years of Fridays. Older ones tell of other hands and bottles. */
const MOST_DAYS = 300;

@Injectable()
export class ActualsService {
  private readonly store = new ActualsStore();

  constructor(
    private readonly clock: Clock,
    private readonly random: Random,
  ) {}

  /** The latest first. */
  days(tx: Tx): Promise<RecordedDay[]> {
    return this.store.latest(tx, MOST_DAYS);
  }

  /** Figures of use and of keeping, the usual ones moved by what was written down; see learning.calc.ts. */
  async figures(tx: Tx): Promise<OwnFigures> {
    return ownFigures(await this.store.latest(tx, MOST_DAYS));
  }

  /**
   * Writes down, or corrects, what one day took. Saying the same again changes nothing but the history.
   * It moves no stock: what was used is taken off the shelf where it is counted.
   * @throws AppError bad_input where more were kept than tried
   */
  async record(tx: Tx, who: { name: string }, told: TellActuals): Promise<void> {
    const wrong = told.plates?.filter(
      ({ tries, keepers }) => tries < 1 || tries > MOST_TRIES || keepers > tries,
    );
    if (wrong && wrong.length > 0) throw new AppError('bad_input', 'No more plates are kept than are tried.');
    await this.store.insert(tx, told, this.random.id());
    const id = await this.store.locked(tx, told);
    if (!id) throw new Error('A day was taken out while it was being written.');
    if (told.plates) await this.store.setPlates(tx, told, told.plates);
    if (told.used) await this.store.setUse(tx, told, told.used);
    if (told.note !== undefined) await this.store.setNote(tx, told, told.note);
    await this.note(tx, who, id, 'record', inShort(told));
  }

  /** What is written down of one day, which is then locked; or null. */
  async day(tx: Tx, which: WhichDay): Promise<RecordedDay | null> {
    const id = await this.store.locked(tx, which);
    return (id && (await this.store.latest(tx, MOST_DAYS)).find((one) => one.id === id)) || null;
  }

  /** Whether something is written down of a day, which is then locked. */
  async isWritten(tx: Tx, which: WhichDay): Promise<boolean> {
    return (await this.store.locked(tx, which)) !== null;
  }

  /** Takes a day's record out, which was a slip. @throws AppError not_found */
  async remove(tx: Tx, who: { name: string }, which: WhichDay): Promise<void> {
    const id = await this.store.locked(tx, which);
    if (!id) throw new AppError('not_found', 'Nothing is written down for this day any more.');
    await this.store.remove(tx, which);
    await this.note(tx, who, id, 'remove', `${which.day}, ${which.madeBy}`);
  }

  private note(tx: Tx, who: { name: string }, aboutId: string, event: string, note: string): Promise<void> {
    return recordHistory(tx, this.clock, { who: who.name, aboutKind: 'day taken', aboutId, event, note });
  }
}

function inShort({ day, madeBy, plates = [], used = {} }: TellActuals): string {
  const tried = plates.map(({ tries, keepers }) => `${keepers} kept of ${tries}`);
  const poured = Object.entries(used).map(([what, quantity]) => `${what} ${quantity}`);
  return [`${day}, ${madeBy}`, ...tried, ...poured].join('; ');
}
