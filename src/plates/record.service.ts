// The owner's fields for the back of a plate, and what is typed of each plate. A studio that has not chosen its own goes
// by the usual ones, which become its own at the first act on them.
import { Injectable } from '@nestjs/common';
import { Clock, Random } from '../platform/clock.js';
import { editAlone } from '../platform/db/alone.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { type RecordField, USUAL_FIELDS } from './record.calc.js';
import { fieldForm, moveForm } from './record.schemas.js';
import { RecordStore } from './record.store.js';

type Who = { name: string };

@Injectable()
export class RecordService {
  private readonly store = new RecordStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
  ) {}

  /** Those that are in use, in the owner's order, and whether they are still the usual ones. */
  fields(studioId: string): Promise<{ fields: RecordField[]; usual: boolean }> {
    return this.db.inStudio(studioId, async (tx) => {
      const own = await this.store.fields(tx);
      return { fields: (own.length > 0 ? own : USUAL_FIELDS).filter(inUse), usual: own.length === 0 };
    });
  }

  /** The fields in use, and what is typed of some plates: by plate, by field. */
  async of(
    tx: Tx,
    madeIds: string[],
  ): Promise<{ fields: RecordField[]; entries: Map<string, Map<string, string>> }> {
    const own = await this.store.fields(tx);
    const entries = new Map<string, Map<string, string>>();
    for (const { madeId, fieldId, value } of await this.store.entries(tx, madeIds)) {
      const plate = entries.get(madeId) ?? new Map<string, string>();
      entries.set(madeId, plate.set(fieldId, value));
    }
    return { fields: (own.length > 0 ? own : USUAL_FIELDS).filter(inUse), entries };
  }

  /** Types something of a plate; '' takes it away. The field is one of those in use. */
  async write(tx: Tx, madeId: string, fieldId: string, value: string): Promise<void> {
    await this.own(tx);
    await this.store.setEntry(tx, madeId, fieldId, value);
  }

  /** Adds a field, or changes one. @param fieldId null for a new one @throws AppError bad_input; not_found */
  async save(
    studioId: string,
    who: Who,
    fieldId: string | null,
    input: unknown,
    check: (field: RecordField) => void = () => {},
  ): Promise<void> {
    const said = readInput(fieldForm, input);
    await this.act(studioId, fieldId, async (tx, fields) => {
      const known = fields.find((one) => one.id === fieldId);
      if (known) check(known);
      const position = known?.position ?? Math.max(0, ...fields.map((one) => one.position)) + 1;
      const field = { ...said, id: fieldId ?? this.random.id(), position, archived: false };
      await this.store.saveField(tx, field);
      await this.note(tx, who, field.id, 'record_field', said.label);
    });
  }

  /** One place up or down; at the end it stays. @throws AppError bad_input; not_found */
  async move(studioId: string, who: Who, fieldId: string, input: unknown): Promise<void> {
    const { by } = readInput(moveForm, input);
    await this.act(studioId, fieldId, async (tx, fields) => {
      const order = fields.filter(inUse);
      const from = order.findIndex((one) => one.id === fieldId);
      const to = from + (by === 'up' ? -1 : 1);
      const [one, other] = [order[from], order[to]];
      if (!one || !other) return;
      order[from] = other;
      order[to] = one;
      for (const [at, field] of order.entries())
        if (field.position !== at + 1) await this.store.saveField(tx, { ...field, position: at + 1 });
      await this.note(tx, who, fieldId, 'record_field', `${one.label}: moved ${by}`);
    });
  }

  /** Puts a field away; what was typed in it stays and is shown no more. @throws AppError not_found */
  async remove(studioId: string, who: Who, fieldId: string): Promise<void> {
    await this.act(studioId, fieldId, async (tx, fields) => {
      const field = fields.find((one) => one.id === fieldId);
      if (!field) return;
      if (fields.filter(inUse).length === 1)
        throw new AppError('wrong_state', 'With no field at all there is nothing to stand on a plate.');
      await this.store.saveField(tx, { ...field, archived: true });
      await this.note(tx, who, fieldId, 'record_field_gone', field.label);
    });
  }

  private act(
    studioId: string,
    fieldId: string | null,
    change: (tx: Tx, fields: RecordField[]) => Promise<void>,
  ): Promise<void> {
    return this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'record fields');
      const fields = await this.own(tx);
      if (fieldId !== null && !fields.some((one) => one.id === fieldId && inUse(one)))
        throw new AppError('not_found', 'This field is not known here any more.');
      await change(tx, fields);
    });
  }

  /** The studio's own fields; the usual ones become its own. */
  private async own(tx: Tx): Promise<RecordField[]> {
    const own = await this.store.fields(tx);
    if (own.length > 0) return own;
    for (const one of USUAL_FIELDS) await this.store.saveField(tx, one);
    return [...USUAL_FIELDS];
  }

  private note(tx: Tx, who: Who, aboutId: string, event: string, note: string): Promise<void> {
    return recordHistory(tx, this.clock, { who: who.name, aboutKind: 'record', aboutId, event, note });
  }
}

const inUse = (field: RecordField) => !field.archived;
