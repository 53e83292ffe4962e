// A transaction in hand. Stores take it as their first argument and speak SQL through it;
// rows are checked by a zod schema, so a column that changed its type is found at once.
import { setImmediate as othersTurn } from 'node:timers/promises';
import type { EntityManager } from 'typeorm';
import type { z } from 'zod';
import { toDriver } from './pg-types.js';

/** Rows checked at once: some milliseconds. */
const PORTION = 200;

export class Tx {
  constructor(
    private readonly manager: EntityManager,
    /** The studio whose rows this transaction sees. */
    readonly studioId: string,
  ) {}

  /** All rows of a query, each checked by `row`; of many rows a portion at a time, between which others have their turn. */
  async many<S extends z.ZodType>(row: S, sql: string, values: unknown[] = []): Promise<z.output<S>[]> {
    const found = await this.query(sql, values);
    const checked: z.output<S>[] = [];
    for (const one of found) {
      if (checked.length > 0 && checked.length % PORTION === 0) await othersTurn();
      checked.push(row.parse(one));
    }
    return checked;
  }

  /** The one row, or null. More than one is a programming error. */
  async maybe<S extends z.ZodType>(row: S, sql: string, values: unknown[] = []): Promise<z.output<S> | null> {
    const rows = await this.many(row, sql, values);
    if (rows.length > 1) throw new Error(`One row expected, ${rows.length} found: ${sql}`);
    return rows[0] ?? null;
  }

  /** The one row; none is a programming error. */
  async one<S extends z.ZodType>(row: S, sql: string, values: unknown[] = []): Promise<z.output<S>> {
    const found = await this.maybe(row, sql, values);
    if (found === null) throw new Error(`A row was expected: ${sql}`);
    return found;
  }

  /** Runs a statement and says how many rows it touched. */
  async run(sql: string, values: unknown[] = []): Promise<number> {
    const result: unknown = await this.manager.queryRunner?.query(sql, values.map(toDriver), true);
    return (result as { affected?: number }).affected ?? 0;
  }

  private async query(sql: string, values: unknown[]): Promise<unknown[]> {
    const result: unknown = await this.manager.queryRunner?.query(sql, values.map(toDriver), true);
    return (result as { records: unknown[] }).records;
  }
}
