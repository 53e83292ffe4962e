// SQL of formulas. Versions and their lines are only ever added; what is current is said by the formula.
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import {
  type Formula,
  type FormulaLine,
  type FormulaVersion,
  formulaRow,
  lineRow,
  toFormula,
  toLine,
  toVersion,
  versionRow,
} from './formulas.schemas.js';

const substanceRow = z.object({ formula_id: z.uuid(), substance: z.string() });

export class FormulasStore {
  async all(tx: Tx): Promise<Formula[]> {
    const sql = 'select * from formula where studio_id = $1 order by archived, name, formula_id';
    return (await tx.many(formulaRow, sql, [tx.studioId])).map(toFormula);
  }

  /** Locked against a second change at the same moment. */
  async locked(tx: Tx, formulaId: string): Promise<Formula | null> {
    const sql = 'select * from formula where studio_id = $1 and formula_id = $2 for update';
    const row = await tx.maybe(formulaRow, sql, [tx.studioId, formulaId]);
    return row && toFormula(row);
  }

  /** The latest first. */
  async versions(tx: Tx, formulaId: string): Promise<FormulaVersion[]> {
    const rows = await tx.many(
      versionRow,
      'select * from formula_version where studio_id = $1 and formula_id = $2 order by version desc',
      [tx.studioId, formulaId],
    );
    const lines = await tx.many(
      lineRow,
      'select * from formula_line where studio_id = $1 and formula_id = $2 order by version, position',
      [tx.studioId, formulaId],
    );
    return rows.map((row) =>
      toVersion(row, lines.filter((line) => line.version === row.version).map(toLine)),
    );
  }

  /** What goes into each formula as it is mixed now: substances, and the statements on its ingredients' labels. */
  async substances(tx: Tx): Promise<Map<string, string[]>> {
    const rows = await tx.many(
      substanceRow,
      `select distinct formula.formula_id, brings.substance from formula
       join formula_line l using (studio_id, formula_id)
       left join item i on i.studio_id = l.studio_id and i.item_id = l.item_id
       cross join unnest(array[l.substance, i.substance] || coalesce(i.h_codes, '{}')) as brings (substance)
       where formula.studio_id = $1 and l.version = current_version and brings.substance is not null
       order by formula.formula_id, brings.substance`,
      [tx.studioId],
    );
    const found = new Map<string, string[]>();
    for (const row of rows) found.set(row.formula_id, [...(found.get(row.formula_id) ?? []), row.substance]);
    return found;
  }

  async insert(tx: Tx, formula: Formula): Promise<void> {
    await tx.run(
      `insert into formula (studio_id, formula_id, item_kind, name, own, starter_key, current_version, archived)
       values ($1, $2, $3, $4, $5, $6, $7, $8)`,
      [
        tx.studioId,
        formula.id,
        formula.kind,
        formula.name,
        formula.own,
        formula.starterKey,
        formula.currentVersion,
        formula.archived,
      ],
    );
  }

  async update(tx: Tx, formula: Formula): Promise<void> {
    await tx.run(
      `update formula set name = $3, current_version = $4, archived = $5
       where studio_id = $1 and formula_id = $2`,
      [tx.studioId, formula.id, formula.name, formula.currentVersion, formula.archived],
    );
  }

  async insertVersion(tx: Tx, formulaId: string, one: FormulaVersion): Promise<void> {
    await tx.run(
      `insert into formula_version (studio_id, formula_id, version, created_at, who, batch_quantity,
         batch_as_written, ripen_days, life_days, source, method, note)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)`,
      [
        tx.studioId,
        formulaId,
        one.version,
        one.createdAt,
        one.who,
        one.batch,
        one.batchAsWritten,
        one.ripenDays,
        one.lifeDays,
        one.source,
        one.method.join('\n'),
        one.note,
      ],
    );
    for (const [position, line] of one.lines.entries())
      await this.insertLine(tx, { formulaId, version: one.version, position }, line);
  }

  private async insertLine(
    tx: Tx,
    at: { formulaId: string; version: number; position: number },
    line: FormulaLine,
  ): Promise<void> {
    await tx.run(
      `insert into formula_line (studio_id, formula_id, version, position, ingredient, substance, item_id,
         quantity, unit, as_written, note)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)`,
      [
        tx.studioId,
        at.formulaId,
        at.version,
        at.position,
        line.ingredient,
        line.substance,
        line.itemId,
        line.quantity,
        line.unit,
        line.asWritten,
        line.note,
      ],
    );
  }
}
