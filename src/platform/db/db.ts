// The pool, and the only way to a studio's rows: db.inStudio. It opens the transaction, names the
// studio to row-level security, retries what PostgreSQL asks to retry, and hands the transaction on.
import { AsyncLocalStorage } from 'node:async_hooks';
import type { Pool, PoolClient } from 'pg';
import { DataSource, QueryFailedError } from 'typeorm';
import type { PostgresDriver } from 'typeorm/driver/postgres/PostgresDriver.js';
import { z } from 'zod';
import type { Random } from '../clock.js';
import { AppError } from '../problems.js';
import { problemOf } from './constraints.js';
import { APP_ROLE } from './migrate.js';
import { typeReaders } from './pg-types.js';
import { Prepared } from './prepared.js';
import { Tx } from './tx.js';

const RETRY = new Set(['40001', '40P01']); // serialization failure, deadlock
const TRIES = 5;
/** Of a database that cannot be reached, or gave up waiting: for a lock as a rule, or for what we ask next. */
const NO_ANSWER = new Set([
  '08000',
  '08003',
  '08006',
  '53300',
  '57P01',
  '57P03',
  '57014', // statement_timeout
  'ECONNREFUSED',
  'ECONNRESET',
]);

const directoryRow = z.object({ studio_id: z.uuid(), slug: z.string(), current_slug: z.string() });

/** A studio as its address names it; `currentSlug` differs when an old address was used. */
export interface StudioAddress {
  studioId: string;
  slug: string;
  currentSlug: string;
}

export class Db {
  private readonly open = new AsyncLocalStorage<true>();
  private readonly prepared = new Prepared();

  /** TypeORM's own pool; a single statement asked here costs half of what it does through TypeORM. */
  private readonly pool: Pick<Pool, 'query'>;

  private constructor(
    private readonly source: DataSource,
    private readonly random: Random,
  ) {
    this.pool = (source.driver as PostgresDriver).master;
  }

  /**
   * Connects as the app's role.
   * @throws Error when the role in force could bypass row-level security.
   */
  static async connect(url: string, random: Random, poolSize = 10): Promise<Db> {
    const source = new DataSource({
      type: 'postgres',
      url,
      poolSize,
      connectTimeoutMS: 5_000,
      installExtensions: false,
      logging: false,
      extra: {
        options: `-c role=${APP_ROLE} -c timezone=UTC -c statement_timeout=20000 -c idle_in_transaction_session_timeout=30000`,
        types: typeReaders,
      },
    });
    await source.initialize();
    try {
      await refuseStrongRole(source);
    } catch (error) {
      await source.destroy();
      throw error;
    }
    return new Db(source, random);
  }

  close(): Promise<void> {
    return this.source.destroy();
  }

  /**
   * Runs `act` in one transaction that sees one studio's rows, and commits it. The whole of `act` runs
   * again after a serialization failure or deadlock, so it must do nothing outside the transaction.
   * @throws AppError `busy` when the database cannot be reached, the problem a broken constraint stands
   * for (see constraints.ts), and otherwise whatever `act` throws.
   */
  inStudio<T>(studioId: string, act: (tx: Tx) => Promise<T>): Promise<T> {
    return this.tried(() => this.once(studioId, 'READ COMMITTED', act));
  }

  /** The same for reading only: all of `act` sees the rows as they stood at one moment. */
  atOneMoment<T>(studioId: string, act: (tx: Tx) => Promise<T>): Promise<T> {
    return this.tried(() => this.once(studioId, 'REPEATABLE READ', act));
  }

  /** Whether the database answers within so many milliseconds; never throws. */
  async answers(within: number): Promise<boolean> {
    let timer: NodeJS.Timeout | undefined;
    const tooLate = new Promise<false>((done) => {
      timer = setTimeout(done, within, false);
    });
    const asked = this.source.query('select 1').then(
      () => true,
      () => false,
    );
    try {
      return await Promise.race([asked, tooLate]);
    } finally {
      clearTimeout(timer);
    }
  }

  /** Looks a studio up by its address, old addresses included; null when there is none. */
  async studioAt(slug: string): Promise<StudioAddress | null> {
    const rows = await this.ask(
      `select d.studio_id, d.slug, c.slug as current_slug from studio_directory d
       join studio_directory c on c.studio_id = d.studio_id and c.is_current where d.slug = $1`,
      [slug],
    );
    if (rows.length === 0) return null;
    const row = directoryRow.parse(rows[0]);
    return { studioId: row.studio_id, slug: row.slug, currentSlug: row.current_slug };
  }

  /** Every studio's id, for work that is done one studio after the other. */
  async studioIds(): Promise<string[]> {
    const rows = await this.ask('select studio_id from studio_directory where is_current');
    return rows.map((row) => z.object({ studio_id: z.uuid() }).parse(row).studio_id);
  }

  /** The address of the one studio there is; null when there is none, or several. */
  async onlySlug(): Promise<string | null> {
    const rows = await this.ask('select slug from studio_directory where is_current limit 2');
    return rows.length === 1 ? z.object({ slug: z.string() }).parse(rows[0]).slug : null;
  }

  /** Whether any studio has its house here. */
  async housesAny(): Promise<boolean> {
    return (await this.ask('select 1 from studio_directory limit 1')).length > 0;
  }

  /**
   * One statement outside any transaction, for doors that carry their own secret (calendar feeds):
   * the function it calls names the studio itself.
   * @param name what each connection keeps it under, prepared: one statement's own
   */
  async callDoors<S extends z.ZodType>(
    row: S,
    name: string,
    sql: string,
    values: unknown[],
  ): Promise<z.output<S>[]> {
    return (await this.ask(sql, values, name)).map((found) => row.parse(found));
  }

  /** One statement outside any transaction. @throws AppError busy when the database cannot be reached */
  private async ask(text: string, values: unknown[] = [], name?: string): Promise<unknown[]> {
    try {
      return (await this.pool.query({ text, values, ...(name !== undefined && { name }) })).rows;
    } catch (error) {
      throw isUnreachable(error) ? new AppError('busy') : new QueryFailedError(text, values, error as Error);
    }
  }

  private async tried<T>(transaction: () => Promise<T>): Promise<T> {
    if (this.open.getStore()) throw new Error('A transaction is open already: hand its tx on.');
    for (let attempt = 1; ; attempt++) {
      try {
        return await this.open.run(true, transaction);
      } catch (error) {
        if (isUnreachable(error)) throw new AppError('busy');
        const code = sqlState(error);
        if (isStalePlan(error)) this.prepared.anew();
        else if (!code || !RETRY.has(code)) throw problemOf(error) ?? error;
        if (attempt === TRIES) throw new AppError('busy');
        await pause(5 + (this.random.bytes(1)[0] ?? 0) * 0.1 * attempt);
      }
    }
  }

  private async once<T>(
    studioId: string,
    isolation: 'READ COMMITTED' | 'REPEATABLE READ',
    act: (tx: Tx) => Promise<T>,
  ): Promise<T> {
    const runner = this.source.createQueryRunner();
    try {
      const line: PoolClient = await runner.connect();
      const tx = new Tx(line, this.prepared, studioId);
      try {
        const studio = line.escapeLiteral(studioId);
        await line.query(
          `begin isolation level ${isolation}; select set_config('app.studio_id', ${studio}, true)`,
        );
        const done = await act(tx);
        await tx.over();
        await line.query('commit');
        return done;
      } catch (error) {
        await tx.over();
        await line.query('rollback').catch(() => {}); // of a line that is broken nothing is left either
        throw error;
      }
    } finally {
      await runner.release();
    }
  }
}

/** The SQLSTATE or system code of a failure that came from the database, else undefined. */
function sqlState(error: unknown): string | undefined {
  const own = error as { code?: unknown; driverError?: { code?: unknown } } | undefined;
  const code = own?.driverError?.code ?? own?.code;
  return typeof code === 'string' ? code : undefined;
}

/** What was kept prepared gives other columns now: another process has changed the table beside this one. */
const isStalePlan = (error: unknown): boolean =>
  sqlState(error) === '0A000' && /cached plan must not change result type/.test((error as Error).message);

/** No connection, one that broke off, or no answer in time; the driver has no code for those below. */
function isUnreachable(error: unknown): boolean {
  const code = sqlState(error);
  if (code !== undefined) return NO_ANSWER.has(code);
  return /^(timeout exceeded when trying to connect|Connection terminated|Client has encountered a connection error)/.test(
    (error as Error | undefined)?.message ?? '',
  );
}

async function refuseStrongRole(source: DataSource): Promise<void> {
  const [found]: unknown[] = await source.query(
    `select rolsuper or rolbypassrls as strong,
            exists (select from pg_class c join pg_namespace n on n.oid = c.relnamespace
                    where n.nspname = 'public' and pg_has_role(r.oid, c.relowner, 'usage')) as owner
     from pg_roles r where rolname = current_user`,
  );
  const role = z.object({ strong: z.boolean(), owner: z.boolean() }).parse(found);
  if (role.strong || role.owner)
    throw new Error(
      'The running database role could pass by row-level security; Plateday will not start with it.',
    );
}

const pause = (milliseconds: number) => new Promise<void>((done) => setTimeout(done, milliseconds));
