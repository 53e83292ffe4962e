// A transaction in hand. Stores take it as their first argument and speak SQL through it;
// rows are checked by a zod schema, so a column that changed its type is found at once.
import { setImmediate as othersTurn } from 'node:timers/promises';
import type { PoolClient, QueryResult } from 'pg';
import { QueryFailedError } from 'typeorm';
import type { z } from 'zod';
import { toDriver } from './pg-types.js';
import type { Prepared } from './prepared.js';

/** Rows fetched at once: some milliseconds. */
const PORTION = 200;

export class Tx {
  private asked: Promise<unknown> = Promise.resolve();
  private isOver = false;
  /** How many statements were asked that may change rows, or wait for those who do. */
  changes = 0;

  constructor(
    private readonly line: PoolClient,
    private readonly prepared: Prepared,
    /** The studio whose rows this transaction sees. */
    readonly studioId: string,
  ) {}

  /** All rows of a query, each checked by `row`. */
  async many<S extends z.ZodType>(row: S, sql: string, values: unknown[] = []): Promise<z.output<S>[]> {
    return (await this.query(sql, values)).map((found) => row.parse(found));
  }

  /** The same where there may be thousands: fetched a portion at a time, between which other requests have their turn. */
  async thousands<S extends z.ZodType>(row: S, sql: string, values: unknown[] = []): Promise<z.output<S>[]> {
    await this.query(`declare thousands no scroll cursor for ${sql}`, values);
    const found: z.output<S>[] = [];
    let portion: z.output<S>[];
    do {
      portion = await this.many(row, `fetch ${PORTION} from thousands`);
      found.push(...portion);
      await othersTurn();
    } while (portion.length === PORTION);
    await this.query('close thousands', []);
    return found;
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
    return (await this.ask(sql, values)).rowCount ?? 0;
  }

  /** A part of an act that may be refused: what it has written until then is taken back, and the refusal thrown on. */
  async part<T>(act: () => Promise<T>): Promise<T> {
    await this.query('savepoint part', []);
    try {
      const done = await act();
      await this.query('release savepoint part', []);
      return done;
    } catch (error) {
      await this.query('rollback to savepoint part', []);
      await this.query('release savepoint part', []); // else a part around this one would go back to here only
      throw error;
    }
  }

  private async query(sql: string, values: unknown[]): Promise<unknown[]> {
    return (await this.ask(sql, values)).rows;
  }

  /** Waits for what was asked and not awaited, as after a failure beside it; nothing may be asked afterwards. */
  async over(): Promise<void> {
    this.isOver = true;
    await this.asked;
  }

  /** One statement after the other, also where several acts ask at once. */
  private async ask(text: string, values: unknown[]): Promise<QueryResult> {
    if (this.isOver) throw new Error(`The transaction is over: ${text}`);
    if (!isRead(text)) this.changes++;
    const name = this.prepared.nameOf(text);
    const query = { text, values: values.map(toDriver), ...(name !== null && { name }) };
    const answer = this.asked.then(() => this.line.query(query));
    this.asked = answer.catch(() => {});
    try {
      return await answer;
    } catch (error) {
      throw new QueryFailedError(text, values, error as Error);
    }
  }
}

/** A statement that only reads; our own functions may do more. */
const isRead = (sql: string): boolean =>
  /^\s*select\b/.test(sql) &&
  !/\bfor (no key update|update|key share|share)\b|plateday_|pg_advisory_|set_config/.test(sql);
