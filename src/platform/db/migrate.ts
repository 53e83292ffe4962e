// Brings a database to the present schema: numbered plain SQL files, forward only, each in one
// transaction, with a checksum kept so that an edited old file is refused.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { runMigrations } from 'graphile-worker';
import pg from 'pg';
import { packageRoot } from '../package-root.js';

/** The role of the web and job handlers: no table is its own, row-level security binds it. */
export const APP_ROLE = 'plateday_app';
/** The role that owns the queue, and nothing else. */
export const JOBS_ROLE = 'plateday_jobs';

const LOCK = 4_180_001; // any constant of our own: two starters migrate one after the other

/**
 * Migrates the database at `url`, whose login must own it and be able to create roles.
 * @param folder where the numbered files are; those of this version, if not given
 * @throws Error in one sentence when an applied file has changed or is missing, or a new one fails or comes
 * before an applied one.
 */
export async function migrate(
  url: string,
  log: (line: string) => void = () => {},
  folder = join(packageRoot, 'migrations'),
): Promise<void> {
  const client = new pg.Client({ connectionString: url, options: '-c timezone=UTC' });
  await client.connect();
  try {
    await client.query('select pg_advisory_lock($1)', [LOCK]);
    await ensureRoles(client);
    await migrateQueue(url);
    await applyFiles(client, log, migrationFiles(folder));
  } finally {
    await client.end();
  }
}

async function ensureRoles(client: pg.Client): Promise<void> {
  for (const role of [APP_ROLE, JOBS_ROLE]) {
    await client.query(`do $$ begin create role ${role} nologin;
      exception when duplicate_object or unique_violation then null; end $$`);
    await grantToSelf(client, role);
  }
  await client.query(
    `do $$ begin execute format('grant create on database %I to ${JOBS_ROLE}', current_database()); end $$`,
  );
}

/** Two migrations of two databases of one server may meet here; the second simply tries again. */
async function grantToSelf(client: pg.Client, role: string): Promise<void> {
  for (let attempt = 1; ; attempt++) {
    try {
      await client.query(`grant ${role} to current_user`);
      return;
    } catch (error) {
      if (attempt === 5 || !/concurrently updated/.test(String(error))) throw error;
    }
  }
}

async function migrateQueue(url: string): Promise<void> {
  const pgPool = new pg.Pool({ connectionString: url, max: 1, options: `-c role=${JOBS_ROLE}` });
  pgPool.on('error', () => {}); // runMigrations reports what matters by rejecting
  pgPool.on('connect', (connection) => connection.on('error', () => {}));
  try {
    await runMigrations({ pgPool });
  } finally {
    await pgPool.end();
  }
}

async function applyFiles(
  client: pg.Client,
  log: (line: string) => void,
  files: MigrationFile[],
): Promise<void> {
  await client.query(`create table if not exists migration (
    name text primary key, checksum text not null, applied_at timestamptz not null default transaction_timestamp())`);
  await client.query(`grant select on migration to ${APP_ROLE}`);
  const { rows } = await client.query<{ name: string; checksum: string }>(
    'select name, checksum from migration',
  );
  const applied = new Map(rows.map((row) => [row.name, row.checksum]));
  for (const name of applied.keys())
    if (!files.some((file) => file.name === name))
      throw new Error(
        `The database has had the migration ${name}, which this version of Plateday does not know.`,
      );
  const last = [...applied.keys()].sort().at(-1) ?? '';
  for (const file of files) {
    const known = applied.get(file.name);
    if (known === file.checksum) continue;
    if (known)
      throw new Error(`The migration ${file.name} was changed after it was applied; add a new one instead.`);
    if (file.name < last)
      throw new Error(`The migration ${file.name} comes too late: ${last} was applied before it.`);
    await applyOne(client, file);
    log(`Applied ${file.name}`);
  }
}

async function applyOne(client: pg.Client, file: MigrationFile): Promise<void> {
  await client.query('begin');
  try {
    await client.query('insert into migration (name, checksum) values ($1, $2)', [file.name, file.checksum]);
    await client.query(file.sql);
    await client.query('commit');
  } catch (error) {
    await client.query('rollback');
    throw new Error(`The migration ${file.name} failed: ${(error as Error).message}`, { cause: error });
  }
}

interface MigrationFile {
  name: string;
  sql: string;
  checksum: string;
}

function migrationFiles(folder: string): MigrationFile[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.sql'))
    .sort()
    .map((name) => {
      const sql = readFileSync(join(folder, name), 'utf8');
      return { name, sql, checksum: createHash('sha256').update(sql).digest('hex') };
    });
}
