// Databases for tests: each a copy of one that was migrated once for the whole run of jest.
// The worker that asks first starts the server; a watcher stops it and removes the run's folder when
// jest has ended, in whatever way. TEST_PG_BIN_DIR starts other programs than the npm package's;
// TEST_DATABASE_ADMIN_URL (a superuser's) uses a server that is kept for tests, and leaves it running.
import { spawn } from 'node:child_process';
import { createHash, randomBytes } from 'node:crypto';
import { chmodSync, existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { migrate } from '../../src/platform/db/migrate.js';
import { asAdmin, ensureDatabase, ensureLogin, LOGIN } from '../../src/platform/server/databases.js';
import { startServer } from '../../src/platform/server/launcher.js';
import { exists } from '../../src/platform/server/processes.js';

interface TestServer {
  adminUrl: string;
  /** Of the migrating login. */
  password: string;
  template: string;
}

export interface TestDatabase {
  /** For the migrating login, as DATABASE_URL. */
  url: string;
  /** For the server's superuser, whom row-level security does not bind. */
  adminUrl: string;
  drop(): Promise<void>;
}

/** A database of its own without rows; `migrated` false leaves it without tables too. */
export async function createTestDatabase({ migrated = true } = {}): Promise<TestDatabase> {
  const server = await testServer();
  const name = `plateday_test_${jestPid()}_${randomBytes(6).toString('hex')}`;
  await ensureDatabase(server.adminUrl, name, migrated ? { template: server.template } : {});
  const adminUrl = new URL(server.adminUrl);
  adminUrl.pathname = `/${name}`;
  return {
    url: urlOf(server, name),
    adminUrl: adminUrl.href,
    drop: () =>
      asAdmin(
        server.adminUrl,
        async (admin) => void (await admin.query(`drop database "${name}" with (force)`)),
      ),
  };
}

/** The run's server: started by whoever comes first, awaited by the others. */
async function testServer(): Promise<TestServer> {
  const run = runFolder();
  const answer = join(run, 'server.json');
  if (!existsSync(answer) && mkdirSync(join(run, 'starting'), { recursive: true }) !== undefined) {
    const outcome = await begin(run).catch((error: Error) => ({ failure: error.message }));
    writeFileSync(`${answer}.new`, JSON.stringify(outcome), { mode: 0o600 });
    renameSync(`${answer}.new`, answer);
  }
  for (let waited = 0; !existsSync(answer); waited++) {
    if (waited === 2000) throw new Error(`The test server did not come up: see ${run}.`);
    await sleep(20);
  }
  const outcome = JSON.parse(readFileSync(answer, 'utf8')) as TestServer | { failure: string };
  if ('failure' in outcome) throw new Error(`There is no test server: ${outcome.failure}`);
  return outcome;
}

async function begin(run: string): Promise<TestServer> {
  watch(run);
  const given = process.env.TEST_DATABASE_ADMIN_URL;
  const server = given ? await useServer(given) : await ownServer(run);
  await ensureDatabase(server.adminUrl, server.template, { fresh: true });
  await migrate(urlOf(server, server.template));
  await asAdmin(server.adminUrl, (admin) =>
    admin.query(`alter database ${server.template} allow_connections false`),
  );
  return server;
}

async function ownServer(run: string): Promise<TestServer> {
  const binDir = process.env.TEST_PG_BIN_DIR;
  const server = await startServer({
    home: run,
    fast: true,
    ownerPid: jestPid(),
    log: () => {},
    ...(binDir ? { binDir } : {}),
  });
  const password = new URL(server.url('any')).password;
  return { adminUrl: server.adminUrl(), password, template: 'plateday_template' };
}

/** Also clears what earlier runs, ended by force, have left on that server. */
async function useServer(adminUrl: string): Promise<TestServer> {
  const password = createHash('sha256').update(adminUrl).digest('hex');
  await ensureLogin(adminUrl, password);
  await asAdmin(adminUrl, async (admin) => {
    const { rows } = await admin.query<{ datname: string }>(
      `select datname from pg_database where datname ~ '^plateday_test_\\d+_'`,
    );
    for (const { datname } of rows)
      if (!exists(Number(datname.split('_')[2])))
        await admin.query(`drop database "${datname}" with (force)`);
  });
  return { adminUrl, password, template: `plateday_test_${jestPid()}_template` };
}

/** A shell that waits for the end of jest, then stops the run's server, if any, and removes the folders. */
function watch(run: string): void {
  const script = `while kill -0 "$0"; do sleep 0.2; done
    base="$1/postgres"
    if [ -f "$base/data-is-in.txt" ]; then base="$(cat "$base/data-is-in.txt")"; fi
    file="$base/data/postmaster.pid"; n=0
    if [ -f "$file" ]; then kill -INT "$(head -n 1 "$file")"; fi
    while [ -f "$file" ] && [ $((n += 1)) -lt 100 ]; do sleep 0.1; done
    rm -rf "$base" "$1"`;
  spawn('/bin/sh', ['-c', script, String(jestPid()), run], {
    cwd: '/',
    detached: true,
    stdio: 'ignore',
  }).unref();
}

function runFolder(): string {
  const run = process.env.PLATEDAY_TEST_RUN;
  if (!run)
    throw new Error('PLATEDAY_TEST_RUN is not set: jest must run test/support/global-setup.mjs first.');
  mkdirSync(run, { recursive: true });
  chmodSync(run, 0o755); // PostgreSQL's user must get through, whatever the umask
  return run;
}

/** The main process of jest: its number stands in the run folder's name. */
function jestPid(): number {
  return Number(/plateday-test-(\d+)-/.exec(process.env.PLATEDAY_TEST_RUN ?? '')?.[1]);
}

function urlOf({ adminUrl, password }: TestServer, database: string): string {
  const url = new URL(adminUrl);
  url.username = LOGIN;
  url.password = password;
  url.pathname = `/${database}`;
  return url.href;
}
