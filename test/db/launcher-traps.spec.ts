// What earlier runs leave behind when they are killed, provoked for real.
import { type ChildProcess, spawn } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import pg from 'pg';
import { type PostgresServer, startServer } from '../../src/platform/server/launcher.js';
import { exists, hasArgument, startOf } from '../../src/platform/server/processes.js';
import {
  type HostedServer,
  installHost,
  killHost,
  processesNaming,
  startHost,
} from '../support/launcher-host.js';

const asRoot = process.geteuid?.() === 0 ? it : it.skip;
const folder = mkdtempSync(join(tmpdir(), 'plateday-traps-'));
chmodSync(folder, 0o755);
const home = join(folder, 'home');
const data = join(home, 'postgres', 'data');
const pidFile = join(data, 'postmaster.pid');
const lines: string[] = [];
const strays: ChildProcess[] = [];

const start = (): Promise<PostgresServer> =>
  startServer({ home, fast: true, log: (line) => lines.push(line) });

async function count(url: string, sql: string): Promise<number> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  const { rows } = await client.query<{ n: number }>(sql);
  await client.end();
  return rows[0]?.n ?? Number.NaN;
}

/** A row goes in through a host, both its processes are killed as told, and a new start must have the row. */
async function hostWithRow(): Promise<HostedServer> {
  const host = await startHost(folder, { home });
  const table = 'create table if not exists kept (n int); insert into kept values (1)';
  const client = new pg.Client({ connectionString: host.url });
  await client.connect();
  await client.query(table);
  await client.end();
  return host;
}

async function expectRowsKept(rows: number): Promise<void> {
  const server = await start();
  try {
    expect(await count(server.url('plateday'), 'select count(*)::int as n from kept')).toBe(rows);
  } finally {
    await server.stop();
  }
}

const kill = (pid: number): void => void process.kill(pid, 'SIGKILL');
const writePid = (pid: number): void =>
  writeFileSync(pidFile, readFileSync(pidFile, 'utf8').replace(/^\d+/, String(pid)));

/** As the user the server runs as: PostgreSQL passes over processes of others. */
async function strayProcess(script: string): Promise<ChildProcess> {
  const { uid, gid } = statSync(data);
  const stray = spawn('/bin/sh', ['-c', script], { cwd: '/', uid, gid, stdio: ['ignore', 'pipe', 'ignore'] });
  strays.push(stray);
  return stray;
}

beforeAll(() => installHost(folder));

afterAll(() => {
  for (const stray of strays) stray.kill('SIGKILL');
  const left = processesNaming(folder);
  rmSync(folder, { recursive: true, force: true });
  expect(left).toEqual([]);
});

describe('after a hard end', () => {
  it('a set-up that was cut short is begun again', async () => {
    const starting = startHost(folder, { home }).catch((error: Error) => error.message);
    const base = join(home, 'postgres');
    const underWay = () =>
      existsSync(base) &&
      readdirSync(base).some(
        (name) => name.startsWith('setup-') && existsSync(join(base, name, 'data', 'global')),
      );
    while (!underWay()) await sleep(1);
    kill(Number(readFileSync(join(base, 'owner'), 'utf8').split(' ')[0]));
    expect(await starting).toBe('the host ended and said nothing');
    expect(existsSync(data)).toBe(false);
    const server = await start();
    await server.ensureDatabase('plateday');
    await server.stop();
    while (processesNaming(join(base, 'setup-')).length > 0) await sleep(20);
    const again = await start(); // its set-up has finished, so it is not begun again
    expect(await count(again.url('plateday'), 'select 1 as n')).toBe(1);
    await again.stop();
    expect(readdirSync(base).filter((name) => name.startsWith('setup-'))).toEqual([]);
  });

  it('a server that outlived its killed program is stopped, and another started', async () => {
    const host = await hostWithRow();
    await killHost(host);
    expect(hasArgument(host.pid, data)).toBe(true);
    await expectRowsKept(1);
    expect(hasArgument(host.pid, data)).toBe(false);
    expect(lines).toContain(
      `Stopping the PostgreSQL server (process ${host.pid}) that an earlier run left behind`,
    );
  });

  it('a server is not touched while its program lives', async () => {
    const host = await hostWithRow();
    await expect(start()).rejects.toThrow(
      `The database in ${join(home, 'postgres')} is already in use by the running process ${host.node.pid}.`,
    );
    expect(await count(host.url, 'select count(*)::int as n from kept')).toBe(2);
    host.node.kill('SIGTERM');
    await new Promise((done) => host.node.once('exit', done));
    expect(existsSync(pidFile)).toBe(false);
  });

  it('the pid file of a killed server is no hindrance, even while a session of it works on', async () => {
    const host = await hostWithRow();
    const client = new pg.Client({ connectionString: host.url });
    client.on('error', () => {});
    await client.connect();
    const { rows } = await client.query<{ pid: number }>('select pg_backend_pid() as pid');
    const backend = rows[0]?.pid ?? 0;
    const working = client.query('select sum(x) from generate_series(1, 6000000) x').catch(() => {});
    await sleep(100);
    kill(host.pid);
    await killHost(host);
    expect(startOf(backend)).not.toBeNull();
    expect(existsSync(pidFile)).toBe(true);
    await expectRowsKept(3);
    await working;
    await client.end().catch(() => {});
  });

  it('a pid file whose number now belongs to a zombie or a stranger is no hindrance', async () => {
    const stranger = await strayProcess('exec sleep 60');
    const parent = await strayProcess('sleep 0.1 & echo $!; exec sleep 60');
    const zombie = Number(
      await new Promise((done) => parent.stdout?.once('data', (text) => done(String(text)))),
    );
    while (startOf(zombie) !== null) await sleep(5);
    expect(exists(zombie)).toBe(true);
    let rows = 3;
    for (const pid of [stranger.pid ?? 0, zombie]) {
      const host = await hostWithRow();
      kill(host.pid);
      await killHost(host);
      while (startOf(host.pid) !== null) await sleep(5);
      writePid(pid);
      await expectRowsKept(++rows);
    }
    expect(startOf(stranger.pid ?? 0)).not.toBeNull();
  });

  it('an empty pid file is no hindrance', async () => {
    writeFileSync(pidFile, '');
    await expectRowsKept(5);
  });

  it('a note of an owner whose number another process has now is no hindrance', async () => {
    writeFileSync(join(home, 'postgres', 'owner'), `${process.pid} 12345`);
    await expectRowsKept(5);
  });
});

describe('where the machine does not give what is needed', () => {
  it('a full disk is told with the last words of the set-up, and nothing is left of it', async () => {
    const full = join(folder, 'full');
    await expect(startHost(folder, { home: full }, 'ulimit -f 2000')).rejects.toThrow(
      /^PostgreSQL could not set up its data in .*full.*: .+\.$/,
    );
    expect(readdirSync(join(full, 'postgres'))).toEqual(['passwords.json']);
  });

  asRoot(
    "under root's private home, programs without links and the data go where PostgreSQL's user can reach them",
    async () => {
      const secret = mkdtempSync(join(folder, 'private-')); // mkdtemp makes it 0700
      installHost(secret, true);
      const privateHome = join(secret, '.plateday');
      let away = '';
      try {
        const host = await startHost(secret, { home: privateHome, fast: true });
        away = readFileSync(join(privateHome, 'postgres', 'data-is-in.txt'), 'utf8').trim();
        expect(away).toMatch(/^\/var\/lib\/plateday-[0-9a-f]{12}$/);
        expect(statSync(join(away, 'data')).uid).not.toBe(0);
        await killHost(host);
        const again = await startHost(secret, { home: privateHome, fast: true });
        expect(await count(again.url, 'select 1 as n')).toBe(1);
        again.node.kill('SIGTERM');
        await new Promise((done) => again.node.once('exit', done));
        expect(processesNaming(away)).toEqual([]);
      } finally {
        if (away !== '') rmSync(away, { recursive: true, force: true });
      }
    },
  );
});
