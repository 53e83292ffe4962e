// What stands in the database for one studio, asked as the migrating login: for tests that look behind the services.
import pg from 'pg';
import type { TestHouse } from './house.js';

export async function rowsOf<T extends pg.QueryResultRow>(
  house: TestHouse,
  studioId: string,
  sql: string,
  values: unknown[] = [],
): Promise<T[]> {
  const client = new pg.Client({ connectionString: house.database.url });
  await client.connect();
  try {
    await client.query(`select set_config('app.studio_id', $1, false)`, [studioId]);
    return (await client.query<T>(sql, values)).rows;
  } finally {
    await client.end();
  }
}
