// The list of plates, the record of one, the owner's fields for the back, and the labels with it. Plates themselves are
// written where a day is typed in.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { type HistoryLine, historyOf, recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { StudiosService } from '../studios/studios.service.js';
import { type BackLine, backOf, type FittedLabel, fitLabel } from './record.calc.js';
import {
  fieldForm,
  labelForm,
  type LabelSize,
  MOST_FIELDS,
  type PlateFilter,
  type PlateRecord,
  type RecordField,
  USUAL_FIELDS,
  USUAL_LABEL,
} from './records.schemas.js';
import { RecordsStore } from './records.store.js';

type Who = { name: string };
export const PAGE_OF_PLATES = 50;
const MOST_LETTERS = 300;

export interface OneRecord {
  plate: PlateRecord;
  fields: RecordField[];
  entries: Map<string, string>;
  back: BackLine[];
  history: HistoryLine[];
}

export interface Labels {
  size: LabelSize;
  /** What is printed, and what is too much for a label of this size. */
  labels: { plate: PlateRecord; label: FittedLabel }[];
  tooLong: PlateRecord[];
}

@Injectable()
export class RecordsService {
  private readonly store = new RecordsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly studios: StudiosService,
  ) {}

  /** A page of plates from the highest number down; `next` is where the following page begins, null on the last. */
  list(
    studioId: string,
    filter: PlateFilter,
    before: number | null,
  ): Promise<{ plates: PlateRecord[]; next: number | null }> {
    return this.db.inStudio(studioId, async (tx) => {
      const found = await this.store.list(tx, filter, { most: PAGE_OF_PLATES + 1, before });
      const plates = found.slice(0, PAGE_OF_PLATES);
      return { plates, next: found.length > PAGE_OF_PLATES ? (plates.at(-1)?.number ?? null) : null };
    });
  }

  /** @throws AppError not_found */
  one(studioId: string, number: number): Promise<OneRecord> {
    return this.db.inStudio(studioId, async (tx) => {
      const plate = await this.byNumber(tx, number);
      const fields = (await this.fieldsIn(tx)).filter((field) => !field.archived);
      const entries = await this.entriesOf(tx, [plate.made_id]);
      const own = entries.get(plate.made_id) ?? new Map<string, string>();
      const back = backOf(plate, fields, own, await this.studios.load(tx));
      return { plate, fields, entries: own, back, history: await historyOf(tx, plate.made_id) };
    });
  }

  /**
   * Corrects the names on a plate, and what is typed for its back as `field-ID`.
   * @throws AppError not_found, bad_input with a sentence per field
   */
  async correct(studioId: string, who: Who, number: number, sent: Record<string, unknown>): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const { made_id: id } = await this.byNumber(tx, number);
      await this.store.lock(tx, id);
      const before = await this.byNumber(tx, number);
      const typed = (await this.fieldsIn(tx)).filter((one) => !one.archived && one.what === 'typed');
      const names = textIn(sent.names);
      const values = new Map(typed.map((field) => [field.id, textIn(sent[`field-${field.id}`])]));
      const problems = [
        ['names', names] as const,
        ...[...values].map(([key, text]) => [`field-${key}`, text] as const),
      ]
        .filter(([, text]) => text.length > MOST_LETTERS)
        .map(([field]) => ({ field, message: `Please keep this under ${MOST_LETTERS} characters.` }));
      if (problems.length > 0) throw new AppError('bad_input', undefined, problems);
      const had = (await this.entriesOf(tx, [id])).get(id) ?? new Map<string, string>();
      const changes = [
        ...(names === before.names ? [] : [`names: ${before.names || 'none'} -> ${names || 'none'}`]),
        ...typed
          .filter((field) => (had.get(field.id) ?? '') !== values.get(field.id))
          .map(
            (field) => `${field.label}: ${had.get(field.id) || 'none'} -> ${values.get(field.id) || 'none'}`,
          ),
      ];
      if (changes.length === 0) return;
      await this.store.setNames(tx, id, names);
      await this.store.setEntries(tx, id, values);
      const about = { aboutKind: 'plate made', aboutId: id, event: 'correct', note: changes.join('; ') };
      await recordHistory(tx, this.clock, { who: who.name, ...about });
    });
  }

  fields(studioId: string): Promise<RecordField[]> {
    return this.db.inStudio(studioId, (tx) => this.fieldsIn(tx));
  }

  /** Adds a field, or changes one; what was typed for one that is put away stays. @throws AppError bad_input, not_found */
  async saveField(studioId: string, who: Who, id: string | null, sent: unknown): Promise<void> {
    const said = readInput(fieldForm, sent);
    await this.db.inStudio(studioId, async (tx) => {
      const fields = await this.fieldsIn(tx);
      if (id !== null && !fields.some((one) => one.id === id)) throw new AppError('not_found');
      if (id === null && fields.filter((one) => !one.archived).length >= MOST_FIELDS)
        throw new AppError('bad_input', undefined, [
          { field: 'label', message: `A label has ${MOST_FIELDS} lines at most. Please put one away first.` },
        ]);
      if ((await this.store.fields(tx)).length === 0)
        for (const one of fields) await this.store.saveField(tx, one);
      const field = { id: id ?? this.random.id(), ...said };
      await this.store.saveField(tx, field);
      const about = { aboutKind: 'record field', aboutId: field.id, event: 'change', note: field.label };
      await recordHistory(tx, this.clock, { who: who.name, ...about });
    });
  }

  /** Labels of the kept plates of a day or of a series, or of some by id. */
  labels(
    studioId: string,
    which: { ids?: string[]; day?: Temporal.PlainDate; seriesId?: string },
  ): Promise<Labels> {
    return this.db.inStudio(studioId, async (tx) => {
      const plates = await this.store.some(tx, which);
      const [fields, studio] = [await this.fieldsIn(tx), await this.studios.load(tx)];
      const entries = await this.entriesOf(
        tx,
        plates.map((one) => one.made_id),
      );
      const size = (await this.store.labelSize(tx)) ?? USUAL_LABEL;
      const fitted = plates.map((plate) => ({
        plate,
        label: fitLabel(backOf(plate, fields, entries.get(plate.made_id) ?? new Map(), studio), size),
      }));
      return {
        size,
        labels: fitted.flatMap(({ plate, label }) => (label ? [{ plate, label }] : [])),
        tooLong: fitted.filter(({ label }) => !label).map(({ plate }) => plate),
      };
    });
  }

  /** @throws AppError bad_input */
  async saveLabelSize(studioId: string, sent: unknown): Promise<void> {
    const size = readInput(labelForm, sent);
    await this.db.inStudio(studioId, (tx) => this.store.saveLabelSize(tx, size));
  }

  private async byNumber(tx: Tx, number: number): Promise<PlateRecord> {
    const plate = await this.store.byNumber(tx, number);
    if (!plate) throw new AppError('not_found', 'There is no plate with this number.');
    return plate;
  }

  private async fieldsIn(tx: Tx): Promise<RecordField[]> {
    const own = await this.store.fields(tx);
    return own.length > 0 ? own : [...USUAL_FIELDS];
  }

  private async entriesOf(tx: Tx, ids: string[]): Promise<Map<string, Map<string, string>>> {
    const all = new Map<string, Map<string, string>>();
    for (const { made_id, field_id, value } of await this.store.entries(tx, ids))
      all.set(made_id, (all.get(made_id) ?? new Map<string, string>()).set(field_id, value));
    return all;
  }
}

const textIn = (value: unknown): string =>
  typeof value === 'string' ? value.replace(/[^\P{Cc}\n]/gu, '').trim() : '';
