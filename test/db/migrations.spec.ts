// Bringing a database to the present schema: each numbered file once, whole or not at all, never changed after.
// What the files make is held against test/golden/schema.sql; `UPDATE_GOLDEN=1` writes it, to be read before it
// is committed.
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { migrate } from '../../src/platform/db/migrate.js';
import { createTestDatabase, type TestDatabase } from '../support/postgres.js';
import { schemaText } from '../support/schema-text.js';

const PRESENT = join(import.meta.dirname, '../../migrations');
const FILES = readdirSync(PRESENT).sort();
const STUDIO = '00000000-0000-4000-8000-000000000001';
const GOLDEN = join(import.meta.dirname, '../golden/schema.sql');

let database: TestDatabase;
let client: pg.Client;
/** A copy of the files, for a test to change. */
let folder: string;

async function openDatabase(migrated: boolean): Promise<void> {
  database = await createTestDatabase({ migrated });
  client = new pg.Client({ connectionString: database.url });
  await client.connect();
  folder = mkdtempSync(join(tmpdir(), 'plateday-migrations-'));
  cpSync(PRESENT, folder, { recursive: true });
}

async function closeDatabase(): Promise<void> {
  await client.end();
  await database.drop();
  rmSync(folder, { recursive: true });
}

async function applied(): Promise<string[]> {
  const { rows } = await client.query<{ name: string }>('select name from migration order by name');
  return rows.map(({ name }) => name);
}

async function migrateAndTell(from = folder): Promise<string[]> {
  const told: string[] = [];
  await migrate(database.url, (line) => told.push(line), from);
  return told;
}

describe('the schema of a migrated database', () => {
  beforeAll(() => openDatabase(true));
  afterAll(closeDatabase);

  it('is that of test/golden/schema.sql', async () => {
    const text = await schemaText(client);
    if (process.env.UPDATE_GOLDEN) writeFileSync(GOLDEN, text);
    expect(text).toBe(readFileSync(GOLDEN, 'utf8'));
  });

  it.each([
    'alter table lot drop constraint lot_never_oversold',
    'alter table occupancy drop constraint occupancy_no_overlap',
    'drop policy own_studio on sitter',
    'alter table mail no force row level security',
    'grant update on movement to plateday_app',
    'alter table studio alter column welcome drop default',
    'alter table contact alter column name drop not null',
    'drop index link_subject',
    'create view everyone as select * from contact',
    'create function strong() returns int security definer language sql return 1',
  ])('is told from the schema after: %s', async (change) => {
    const before = await schemaText(client);
    await client.query('begin');
    await client.query(change);
    const after = await schemaText(client);
    await client.query('rollback');
    expect(after).not.toBe(before);
  });
});

describe('a migrated database', () => {
  beforeEach(() => openDatabase(true));
  afterEach(closeDatabase);

  it('is left as it is by a second run', async () => {
    const before = await client.query('select * from migration');
    expect(await migrateAndTell()).toEqual([]);
    expect((await client.query('select * from migration')).rows).toEqual(before.rows);
  });

  it.each([
    [
      'rhythm_has_starts',
      `insert into rhythm (studio_id, rhythm_id, weekday, starts, first_plate_minutes, further_plate_minutes,
         changeover_minutes, most_sittings, effective_from) values ($1, $1, 5, '{}', 75, 25, 30, 4, '2026-01-01')`,
    ],
    [
      'sitting_suits_some_day',
      `insert into sitting (studio_id, sitting_id, contact_id, state, asked_at)
       values ($1, $1, $1, 'requested', now())`,
    ],
  ])('refuses an empty list of what there must be: %s', async (constraint, insert) => {
    await client.query(`select set_config('app.studio_id', $1, false)`, [STUDIO]);
    await expect(client.query(insert, [STUDIO])).rejects.toMatchObject({ constraint });
  });

  it('takes a new file, and only that', async () => {
    writeFileSync(join(folder, '9000_new.sql'), 'create table tenth (studio_id uuid primary key)');
    expect(await migrateAndTell()).toEqual(['Applied 9000_new.sql']);
    expect(await applied()).toEqual([...FILES, '9000_new.sql']);
  });

  it('refuses a file that was edited after it was applied', async () => {
    const file = join(folder, FILES[1] ?? '');
    writeFileSync(file, `${readFileSync(file, 'utf8')}\n`);
    await expect(migrateAndTell()).rejects.toThrow(
      `The migration ${FILES[1]} was changed after it was applied; add a new one instead.`,
    );
  });

  it('refuses a version that does not know a file it has had', async () => {
    rmSync(join(folder, FILES.at(-1) ?? ''));
    await expect(migrateAndTell()).rejects.toThrow(
      `The database has had the migration ${FILES.at(-1)}, which this version of Plateday does not know.`,
    );
  });

  it('refuses a new file that comes before those it has had', async () => {
    writeFileSync(join(folder, '0000_late.sql'), 'select 1');
    await expect(migrateAndTell()).rejects.toThrow(
      `The migration 0000_late.sql comes too late: ${FILES.at(-1)} was applied before it.`,
    );
  });

  it('keeps nothing of a file that fails, and takes it once it is mended', async () => {
    const file = join(folder, '9000_half.sql');
    writeFileSync(file, 'create table half (id int); create table half ()');
    await expect(migrateAndTell()).rejects.toThrow(
      'The migration 9000_half.sql failed: relation "half" already exists',
    );
    expect(await applied()).toEqual(FILES);
    expect((await client.query(`select to_regclass('half') as half`)).rows).toEqual([{ half: null }]);

    writeFileSync(file, 'create table half (id int)');
    expect(await migrateAndTell()).toEqual(['Applied 9000_half.sql']);
  });
});

describe('an empty database', () => {
  beforeEach(() => openDatabase(false));
  afterEach(closeDatabase);

  it('is migrated once by three that start at the same moment', async () => {
    const told = await Promise.all([migrateAndTell(), migrateAndTell(), migrateAndTell()]);
    expect(told.flat()).toEqual(FILES.map((name) => `Applied ${name}`));
    expect(await applied()).toEqual(FILES);
  });

  it('that had several links of one kind for somebody keeps the one that is shown', async () => {
    for (const file of FILES.filter((name) => name >= '0008')) rmSync(join(folder, file));
    await migrateAndTell();
    await client.query(`select set_config('app.studio_id', $1, false)`, [STUDIO]);
    await client.query(
      `insert into studio (studio_id, name, email, zone, latitude, longitude, window_kind, light_floor_degrees,
         reference_seconds, reference_altitude_degrees, exposure_cap_seconds, horizon_months, least_notice_days,
         reserve_quantity, created_at)
       values ($1, 'Dunlin Shed', 'd@dunlin.example', 'UTC', 50, 0, 'north window', 10, 6, 45, 20, 12, 3, 'likely', now())`,
      [STUDIO],
    );
    await client.query(`insert into studio_directory values ('dunlin-shed', $1, true)`, [STUDIO]);
    const links = `insert into link (studio_id, link_id, purpose, subject_id, kind, token_hash, created_at, expires_at)
      select $1, gen_random_uuid(), 'feed', $1, 'owner', sha256(n::text::bytea), date '2026-01-01' + n, ends
      from unnest('{1, 2, 3}'::int[], array[null, null, date '2026-02-01']) as l (n, ends)`;
    await client.query(links, [STUDIO]);
    await migrateAndTell(PRESENT);
    const { rows } = await client.query('select revoked_at is null as stays from link order by created_at');
    expect(rows.map(({ stays }) => stays)).toEqual([false, true, true]);
  });

  it('is not touched while somebody else is migrating it', async () => {
    await client.query('select pg_advisory_lock(4180001)');
    const migrating = migrateAndTell();
    const waiting = `select from pg_stat_activity where datname = current_database() and wait_event = 'advisory'`;
    while ((await client.query(waiting)).rows.length === 0) await new Promise((done) => setTimeout(done, 10));
    expect((await client.query(`select to_regclass('migration') as made`)).rows).toEqual([{ made: null }]);

    await client.query('select pg_advisory_unlock(4180001)');
    expect(await migrating).toHaveLength(FILES.length);
  });
});
