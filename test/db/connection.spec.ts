// When the database is away people are told that the studio is busy, and once it is back all goes on.
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { z } from 'zod';
import { SystemRandom } from '../../src/platform/clock.js';
import { Db } from '../../src/platform/db/db.js';
import { type CutLine, cutLine } from '../support/cut-line.js';
import { createTestDatabase, type TestDatabase } from '../support/postgres.js';

const STUDIO = '00000000-0000-4000-8000-00000000000a';

let database: TestDatabase;
let line: CutLine;
let db: Db;

beforeAll(async () => {
  database = await createTestDatabase();
  line = await cutLine(database.url);
  db = await Db.connect(line.url, new SystemRandom(), 2);
  await db.inStudio(STUDIO, (tx) =>
    tx.run(`insert into studio_directory values ('curlew-shed', $1, true)`, [STUDIO]),
  );
});
afterAll(async () => {
  await db.close();
  await line.cut();
  await database.drop();
});

const WAYS: [string, () => Promise<unknown>][] = [
  ['a transaction', () => db.inStudio(STUDIO, (tx) => tx.run('select 1'))],
  ['looking an address up', () => db.studioAt('curlew-shed')],
  ['looking for the only studio', () => db.onlySlug()],
  ['listing the studios', () => db.studioIds()],
  ['a calendar’s door', () => db.callDoors(z.object({}), 'one', 'select 1', [])],
];

describe('a database that is away', () => {
  it.each(WAYS)('is told as busy by %s, which works again afterwards', async (_name, way) => {
    await way();
    await line.cut();
    const refusals = await Promise.allSettled([way(), way(), way()]);
    await line.restore();
    for (const one of refusals) expect(one).toMatchObject({ status: 'rejected', reason: { code: 'busy' } });
    await way();
  });

  it('is told as busy also when it goes in the middle of a transaction, of which nothing is left', async () => {
    const cutOff = db.inStudio(STUDIO, async (tx) => {
      await tx.run(`insert into studio_directory values ('curlew-barn', $1, false)`, [STUDIO]);
      await line.cut();
      await tx.run('select 1');
    });
    await expect(cutOff).rejects.toMatchObject({ code: 'busy' });
    await line.restore();
    expect(await db.studioAt('curlew-barn')).toBeNull();
  });

  it('is told as busy when it ends a running statement', async () => {
    const admin = new pg.Client({ connectionString: database.adminUrl });
    await admin.connect();
    const slow = db.inStudio(STUDIO, (tx) => tx.run('select pg_sleep(60)'));
    slow.catch(() => {}); // looked at below
    const end = `select pg_terminate_backend(pid) from pg_stat_activity where query = 'select pg_sleep(60)'`;
    while ((await admin.query(end)).rows.length === 0) await new Promise((done) => setTimeout(done, 10));
    await expect(slow).rejects.toMatchObject({ code: 'busy' });
    await admin.end();
    expect(await db.onlySlug()).toBe('curlew-shed');
  });
});

describe('a database that takes too long', () => {
  it('is told as busy where it waits for others', async () => {
    const slow = db.inStudio(STUDIO, async (tx) => {
      await tx.run(`set local statement_timeout = '20ms'`);
      await tx.run('select pg_sleep(5)');
    });
    await expect(slow).rejects.toMatchObject({ code: 'busy' });
    expect(await db.onlySlug()).toBe('curlew-shed');
  });

  it('is told as busy where it is we who take too long', async () => {
    const idle = db.inStudio(STUDIO, async (tx) => {
      await tx.run(`set local idle_in_transaction_session_timeout = '20ms'`);
      await new Promise((done) => setTimeout(done, 200));
      await tx.run('select 1');
    });
    await expect(idle).rejects.toMatchObject({ code: 'busy' });
    expect(await db.onlySlug()).toBe('curlew-shed');
  });
});

describe('a pool that is used up', () => {
  it('is told as busy after five seconds', async () => {
    const gates = [gate(), gate()];
    const holding = gates.map(({ opened }) => db.inStudio(STUDIO, () => opened));
    await expect(db.inStudio(STUDIO, (tx) => tx.run('select 1'))).rejects.toMatchObject({ code: 'busy' });
    for (const { open } of gates) open();
    await Promise.all(holding);
  });
});

function gate(): { opened: Promise<void>; open: () => void } {
  let open = () => {};
  const opened = new Promise<void>((done) => {
    open = done;
  });
  return { opened, open };
}
