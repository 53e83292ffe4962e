// The book of all plates: looking plates up, all that is known of one, and correcting what stands on its back.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { type HistoryLine, historyOf, recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError, type FieldProblem } from '../platform/problems.js';
import { ConsentsService } from '../sittings/consents.service.js';
import type { Purpose } from '../sittings/consents.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { type BookPlate, type BookQuery, PLATES_A_PAGE, type Said, type SeenPlate } from './book.schemas.js';
import { BookStore } from './book.store.js';
import type { Owed } from './owed.calc.js';
import { OwedService } from './owed.service.js';
import { type RecordField, type RecordLine, recordOf } from './record.calc.js';
import { entryText, recordForm } from './record.schemas.js';
import { RecordService } from './record.service.js';

type Who = { name: string };

/** So many days are offered to choose from. */
const MOST_DAYS = 100;

export interface BookPage {
  plates: SeenPlate[];
  /** All that are found, on whatever page. */
  found: number;
  /** The last page; 1 where nothing is found. */
  last: number;
  /** The latest days of which plates stand in the book. */
  days: Temporal.PlainDate[];
}

/** All that is known of a plate. */
export interface WholePlate extends SeenPlate {
  fields: RecordField[];
  entries: ReadonlyMap<string, string>;
  record: RecordLine[];
  /** Null: nothing is owed for its sitting. */
  owed: Owed | null;
  history: HistoryLine[];
}

@Injectable()
export class BookService {
  private readonly store = new BookStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly consents: ConsentsService,
    private readonly records: RecordService,
    private readonly owed: OwedService,
  ) {}

  /** A page of what is looked for, the newest first; with the same number of statements however many. */
  find(studioId: string, query: BookQuery): Promise<BookPage> {
    return this.db.inStudio(studioId, async (tx) => {
      const found = await this.store.count(tx, query);
      const from = (query.page - 1) * PLATES_A_PAGE;
      const plates = await this.store.find(tx, query, { most: PLATES_A_PAGE, from });
      const last = Math.max(1, Math.ceil(found / PLATES_A_PAGE));
      const days = await this.store.days(tx, MOST_DAYS);
      return { plates: await this.seen(tx, plates), found, last, days };
    });
  }

  /** @throws AppError not_found */
  byNumber(studioId: string, number: number): Promise<WholePlate> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const [seen] = await this.seen(tx, [await this.plateAt(tx, number)]);
      if (!seen) throw new AppError('not_found', 'No plate has this number.');
      const { plate } = seen;
      const { fields, entries } = await this.records.of(tx, [plate.id]);
      const own = entries.get(plate.id) ?? new Map();
      return {
        ...seen,
        fields,
        entries: own,
        record: recordOf(fields, { ...seen, entries: own, studio }),
        owed: plate.sittingId === null ? null : await this.owed.ofSitting(tx, studio, plate.sittingId),
        history: await historyOf(tx, plate.id),
      };
    });
  }

  /** The record of each of some plates, in the order given. */
  async recordsOf(
    tx: Tx,
    studio: Studio,
    plates: readonly BookPlate[],
  ): Promise<(SeenPlate & { record: RecordLine[] })[]> {
    const { fields, entries } = await this.records.of(
      tx,
      plates.map((one) => one.id),
    );
    return (await this.seen(tx, plates)).map((seen) => {
      const own = entries.get(seen.plate.id) ?? new Map();
      return { ...seen, record: recordOf(fields, { ...seen, entries: own, studio }) };
    });
  }

  /** Plates with who is on them and what each agreed to, in two statements. */
  async seen(tx: Tx, plates: readonly BookPlate[]): Promise<SeenPlate[]> {
    const people = await this.store.people(
      tx,
      plates.map((one) => one.id),
    );
    const said = await this.consents.said(tx, [...new Set(people.map((one) => one.sitterId))]);
    const of = (sitterId: string, purpose: Purpose): Said => {
      const latest = said.find((one) => one.sitterId === sitterId && one.purpose === purpose);
      if (!latest) return { state: 'asked' };
      return latest.withdrawnAt ? { state: 'taken back', at: latest.withdrawnAt } : { state: 'agreed' };
    };
    return plates.map((plate) => ({
      plate,
      on: people
        .filter((one) => one.madeId === plate.id)
        .map(({ sitterId, name }) => ({
          sitterId,
          name,
          archive: of(sitterId, 'archive'),
          record: of(sitterId, 'record'),
        })),
    }));
  }

  /**
   * Corrects the names and the typed fields of a plate; what was there before stands in its history.
   * @throws AppError bad_input at `names` or `field-ID`; not_found; wrong_state for a struck plate
   */
  async correct(
    studioId: string,
    who: Who,
    number: number,
    input: Record<string, unknown>,
    check: (stands: Pick<WholePlate, 'plate' | 'fields' | 'entries'>) => void = () => {},
  ): Promise<void> {
    const { names } = readInput(recordForm, input);
    await this.db.inStudio(studioId, async (tx) => {
      const { id } = await this.plateAt(tx, number);
      await this.store.lock(tx, [id]);
      const plate = await this.plateAt(tx, number);
      if (plate.struckAt) throw new AppError('wrong_state', 'This plate was typed in by mistake.');
      const { fields, entries } = await this.records.of(tx, [id]);
      check({ plate, fields, entries: entries.get(id) ?? new Map() });
      const changes: string[] = [];
      if (await this.store.rename(tx, id, names)) changes.push(changed('Names', plate.names, names));
      const typed = fields.filter((one) => one.what === 'typed' && `field-${one.id}` in input);
      const said = readEntries(typed, input);
      const own = entries.get(id);
      for (const field of typed) {
        const before = own?.get(field.id) ?? '';
        const value = said.get(field.id) ?? '';
        if (value === before) continue;
        await this.records.write(tx, id, field.id, value);
        changes.push(changed(field.label, before, value));
      }
      if (changes.length === 0) return;
      const about = { aboutKind: 'plate', aboutId: id, event: 'record' };
      await recordHistory(tx, this.clock, { who: who.name, ...about, note: changes.join(' ') });
    });
  }

  private async plateAt(tx: Tx, number: number): Promise<BookPlate> {
    const plate = await this.store.byNumber(tx, number);
    if (!plate) throw new AppError('not_found', 'No plate has this number.');
    return plate;
  }
}

const quoted = (text: string) => (text === '' ? 'nothing' : `“${text}”`);
const changed = (label: string, before: string, now: string) =>
  `${label}: ${quoted(now)}, before ${quoted(before)}.`;

/** @throws AppError bad_input */
function readEntries(fields: readonly RecordField[], input: Record<string, unknown>): Map<string, string> {
  const problems: FieldProblem[] = [];
  const said = new Map<string, string>();
  for (const { id } of fields) {
    const read = entryText.safeParse(input[`field-${id}`]);
    if (read.success) said.set(id, read.data);
    else
      problems.push({
        field: `field-${id}`,
        message: read.error.issues[0]?.message ?? 'Please check this answer.',
      });
  }
  if (problems.length > 0) throw new AppError('bad_input', undefined, problems);
  return said;
}
