import { chmodSync, existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { type PostgresServer, type ServerOptions, startServer } from '../../src/platform/server/launcher.js';
import { processesNaming } from '../support/launcher-host.js';

const folder = mkdtempSync(join(tmpdir(), 'plateday-launcher-'));
chmodSync(folder, 0o755);
const home = join(folder, 'home');
const data = join(home, 'postgres', 'data');
const lines: string[] = [];

const started: PostgresServer[] = [];

async function start(o: Partial<ServerOptions> = {}): Promise<PostgresServer> {
  const server = await startServer({ home, fast: true, log: (line) => lines.push(line), ...o });
  started.push(server);
  return server;
}

afterEach(async () => {
  for (const server of started.splice(0)) await server.stop();
});

async function ask<T extends pg.QueryResultRow>(url: string, sql: string): Promise<T | undefined> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return (await client.query<T>(sql)).rows[0];
  } finally {
    await client.end();
  }
}

afterAll(() => {
  const left = processesNaming(folder);
  rmSync(folder, { recursive: true, force: true });
  expect(left).toEqual([]);
});

describe('the database server of an installation', () => {
  it('sets itself up, and comes up again with what was kept', async () => {
    const first = await start();
    await first.ensureDatabase('kept');
    await ask(first.url('kept'), "create table plate as select 'first' as name");
    await first.stop();
    await first.stop();
    const second = await start();
    await second.ensureDatabase('kept');
    expect(await ask(second.url('kept'), 'select name from plate')).toEqual({ name: 'first' });
    await second.ensureDatabase('kept', { fresh: true });
    expect(await ask(second.url('kept'), "select to_regclass('plate') as plate")).toEqual({ plate: null });
    await second.stop();
    expect(existsSync(join(data, 'postmaster.pid'))).toBe(false);
  });

  it('gives a login that owns its database and may do what migrations need, and no more', async () => {
    const server = await start();
    await server.ensureDatabase('work');
    const url = server.url('work');
    await ask(url, 'create extension btree_gist');
    await ask(url, 'create role plateday_try nologin');
    await ask(url, 'grant plateday_try to current_user');
    await ask(url, 'set role plateday_try');
    const me = await ask(
      url,
      'select rolsuper, rolcreaterole, rolcreatedb, rolbypassrls, rolreplication from pg_roles where rolname = current_user',
    );
    expect(me).toEqual({
      rolsuper: false,
      rolcreaterole: true,
      rolcreatedb: false,
      rolbypassrls: false,
      rolreplication: false,
    });
    await expect(ask(url, 'create database more')).rejects.toMatchObject({ code: '42501' });
    await expect(ask(url, 'set role postgres')).rejects.toMatchObject({ code: '42501' });
  });

  it('listens on loopback only, in UTC and UTF-8, and lets nobody in without the password', async () => {
    const server = await start();
    await server.ensureDatabase('work');
    const settings = `select current_setting('listen_addresses') as listen, current_setting('unix_socket_directories') as sockets,
      current_setting('timezone') as zone, pg_encoding_to_char(encoding) as encoding, lower('ÅÉ') as lower
      from pg_database where datname = current_database()`;
    expect(await ask(server.adminUrl('work'), settings)).toEqual({
      listen: '127.0.0.1',
      sockets: '',
      zone: 'UTC',
      encoding: 'UTF8',
      lower: 'åé',
    });
    for (const url of [server.url('work'), server.adminUrl()]) {
      const wrong = new URL(url);
      wrong.password = 'guess';
      await expect(ask(wrong.href, 'select 1')).rejects.toMatchObject({ code: '28P01' });
    }
    expect(
      await ask(
        server.adminUrl(),
        "select count(*)::int as weak from pg_hba_file_rules where auth_method <> 'scram-sha-256'",
      ),
    ).toEqual({ weak: 0 });
    expect(statSync(join(home, 'postgres', 'passwords.json')).mode & 0o777).toBe(0o600);
    expect(statSync(data).mode & 0o077).toBe(0);
  });

  it('keeps what people entered out of its log', async () => {
    const server = await start();
    await server.ensureDatabase('log', { fresh: true });
    await ask(server.url('log'), 'create table who (mail text primary key)');
    const twice = "insert into who values ('ada@example.org'), ('ada@example.org')";
    await expect(ask(server.url('log'), twice)).rejects.toMatchObject({ code: '23505' });
    await server.stop();
    const log = readFileSync(join(home, 'postgres', 'server.log'), 'utf8');
    expect(log).toMatch(/ready to accept connections/);
    expect(log).not.toMatch(/ada@/);
  });

  it('tells when it has ended by itself, and can then be started again', async () => {
    const server = await start();
    process.kill(server.pid, 'SIGTERM');
    while (!lines.some((line) => line.startsWith('PostgreSQL has ended by itself')))
      await new Promise((done) => setTimeout(done, 10));
    const again = await start();
    await server.stop(); // must not take away what the second start noted
    await expect(start()).rejects.toThrow(/already in use/);
    await again.stop();
  });
});

describe('a start is refused in one sentence', () => {
  it('when the port asked for is taken', async () => {
    const other = createServer();
    await new Promise<void>((done) => other.listen(0, '127.0.0.1', done));
    const { port } = other.address() as { port: number };
    await expect(start({ port })).rejects.toMatchObject({
      reason: 'port_taken',
      message: `PostgreSQL cannot use port ${port}: another program has it.`,
    });
    await new Promise((done) => other.close(done));
    const server = await start({ port });
    expect(server.port).toBe(port);
    await server.stop();
  });

  it('when the server is running already, which goes on', async () => {
    const server = await start();
    await expect(start()).rejects.toMatchObject({
      reason: 'in_use',
      message: `The database in ${join(home, 'postgres')} is already in use by the running process ${process.pid}.`,
    });
    expect(await ask(server.adminUrl(), 'select 1 as alive')).toEqual({ alive: 1 });
    await server.stop();
  });

  it('when another major version made the data', async () => {
    const file = join(data, 'PG_VERSION');
    const made = readFileSync(file, 'utf8');
    writeFileSync(file, '15\n');
    await expect(start()).rejects.toMatchObject({
      reason: 'other_version',
      message: expect.stringMatching(
        /^The data in .* were made by PostgreSQL 15, and this is PostgreSQL 1\d: start once more with PG_BIN_DIR .* restore it\.$/,
      ),
    });
    writeFileSync(file, made);
  });

  it('with what PostgreSQL itself said last', async () => {
    chmodSync(data, 0o777);
    await expect(start()).rejects.toThrow(
      /^PostgreSQL did not start in .*data directory ".*" has invalid permissions.*\.$/,
    );
    chmodSync(data, 0o700);
  });

  it('when the passwords are missing', async () => {
    const file = join(home, 'postgres', 'passwords.json');
    const passwords = readFileSync(file);
    rmSync(file);
    await expect(start()).rejects.toThrow(
      /^The passwords of the database are missing: put .*passwords\.json back, or move .*data away/,
    );
    writeFileSync(file, passwords, { mode: 0o600 });
  });

  it('when the programs are not there, or the home folder is a file', async () => {
    await expect(start({ binDir: join(folder, 'none') })).rejects.toThrow(
      /^PostgreSQL in .*none does not run here: .*ENOENT\.$/,
    );
    writeFileSync(join(folder, 'file'), '');
    await expect(start({ home: join(folder, 'file') })).rejects.toThrow(
      /^PostgreSQL cannot be started in .*file: (EEXIST|ENOTDIR).*\.$/,
    );
  });

  it('and the next start finds nothing in its way', async () => {
    const server = await start();
    expect(await ask(server.adminUrl(), 'select 1 as alive')).toEqual({ alive: 1 });
    await server.stop();
  });
});
