// A sum of everything that is kept: to show that looking at something changes nothing, or what did change.
import pg from 'pg';
import type { TestHouse } from './house.js';

/** Table -> its columns that are left out. */
export type Counters = Record<string, string[]>;

/**
 * The sum of all rows of each table, whichever studio's, and of all jobs. Read as the superuser, whom row-level security
 * does not bind. Of the queue's own tables only the jobs: the rest is its bookkeeping.
 */
export async function everyRow(house: TestHouse, counters: Counters = {}): Promise<Map<string, string>> {
  const client = new pg.Client({ connectionString: house.database.adminUrl });
  await client.connect();
  try {
    const { rows: tables } = await client.query<{ name: string }>(
      `select schemaname || '.' || tablename as name from pg_tables
       where schemaname = 'public' or (schemaname, tablename) = ('graphile_worker', '_private_jobs') order by 1`,
    );
    if (tables.length < 50) throw new Error('There are more tables than that.');
    const sums = new Map<string, string>();
    for (const { name } of tables) {
      const { rows } = await client.query<{ sum: string | null }>(
        `select md5(string_agg(row, E'\\n' order by row)) as sum
         from (select (to_jsonb(t) - $1::text[])::text as row from ${name} t) as rows`,
        [counters[name] ?? []],
      );
      sums.set(name, rows[0]?.sum ?? '');
    }
    return sums;
  } finally {
    await client.end();
  }
}

/** The tables that differ between two such sums. */
export const changedTables = (before: Map<string, string>, after: Map<string, string>): string[] =>
  [...after].flatMap(([table, sum]) => (before.get(table) === sum ? [] : [table]));

/** One sum of all of it. */
export const fingerprint = async (house: TestHouse): Promise<string> =>
  JSON.stringify([...(await everyRow(house))]);
