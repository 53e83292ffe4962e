import pg from 'pg';
import { createTestDatabase, type TestDatabase } from '../support/postgres.js';

async function ask<T extends pg.QueryResultRow>(database: TestDatabase, sql: string): Promise<T[]> {
  const client = new pg.Client({ connectionString: database.url });
  await client.connect();
  try {
    return (await client.query<T>(sql)).rows;
  } finally {
    await client.end();
  }
}

describe('databases for tests', () => {
  it('are migrated, and what one holds is not seen in another, even when they are made at once', async () => {
    const [one, two] = await Promise.all([createTestDatabase(), createTestDatabase()]);
    try {
      await ask(one, 'create table only_here ()');
      for (const [database, tables] of [
        [one, 1],
        [two, 0],
      ] as const) {
        expect(await ask(database, `select from pg_class where relname = 'only_here'`)).toHaveLength(tables);
        const [row] = await ask<{ applied: number }>(
          database,
          'select count(*)::int as applied from migration',
        );
        expect(row?.applied).toBeGreaterThan(0);
      }
    } finally {
      await Promise.all([one.drop(), two.drop()]);
    }
  });

  it('belong to a login that is no superuser, and are gone once dropped', async () => {
    const database = await createTestDatabase();
    const [me] = await ask(
      database,
      'select rolsuper, rolbypassrls, rolcreatedb, rolcreaterole from pg_roles where rolname = current_user',
    );
    expect(me).toEqual({ rolsuper: false, rolbypassrls: false, rolcreatedb: false, rolcreaterole: true });
    await database.drop();
    await expect(ask(database, 'select 1')).rejects.toMatchObject({ code: '3D000' });
  });
});
