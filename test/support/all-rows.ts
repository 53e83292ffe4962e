// One fingerprint of everything that is kept: to show that looking at something changes nothing.
import { createHash } from 'node:crypto';
import pg from 'pg';
import { z } from 'zod';
import { JOBS_ROLE } from '../../src/platform/db/migrate.js';
import type { TestHouse } from './house.js';

/** All rows of all tables of these studios, and all jobs. */
export async function fingerprint(house: TestHouse, studios: { id: string }[]): Promise<string> {
  const sum = createHash('sha256');
  for (const { id } of studios)
    await house.db.inStudio(id, async (tx) => {
      const tables = await tx.many(
        z.object({ name: z.string() }),
        `select distinct table_name as name from information_schema.columns
         where table_schema = 'public' and column_name = 'studio_id' order by 1`,
      );
      if (tables.length < 10) throw new Error('There are more tables than that.');
      for (const { name } of tables) {
        const rows = z.object({ rows: z.string().nullable() });
        const all = await tx.one(
          rows,
          `select string_agg(t::text, E'\\n' order by t::text) as rows from "${name}" t`,
        );
        sum.update(`${name}\n${all.rows ?? ''}\n`);
      }
    });
  sum.update(await jobs(house.database.url));
  return sum.digest('hex');
}

async function jobs(url: string): Promise<string> {
  const client = new pg.Client({ connectionString: url, options: `-c role=${JOBS_ROLE}` });
  await client.connect();
  try {
    const { rows } = await client.query<{ rows: string | null }>(
      `select string_agg(j::text, E'\\n' order by j::text) as rows from graphile_worker._private_jobs j`,
    );
    return rows[0]?.rows ?? '';
  } finally {
    await client.end();
  }
}
