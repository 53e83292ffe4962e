// No studio sees or touches another's rows, whatever the code asks for: PostgreSQL itself says no. Each way in
// is tried as a second studio, and each guard is also taken away once to see that the same checks find the hole.
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { z } from 'zod';
import { SystemRandom } from '../../src/platform/clock.js';
import { Db } from '../../src/platform/db/db.js';
import { Tx } from '../../src/platform/db/tx.js';
import { tenantTables, unguarded } from '../support/guarded-tables.js';
import { fillStudio } from '../support/full-studio.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { readingMethods } from '../support/reading-methods.js';
import { type Belongings, CALLS } from '../support/store-calls.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let ours: TestStudio;
let theirs: TestStudio;
let their: Belongings;
let owner: pg.Client;
let superuser: pg.Client;
let tables: string[];

beforeAll(async () => {
  house = await openTestHouse();
  theirs = await foundTestStudio(house, { shelf: { collodion: 1n } });
  ours = await foundTestStudio(house, { slug: 'curlew-shed', name: 'Curlew Shed' });
  their = await fillStudio(house, theirs);
  await fillStudio(house, ours);
  owner = await connect(house.database.url);
  superuser = await connect(house.database.adminUrl);
  tables = await tenantTables(owner);
}, 60_000);

afterAll(async () => {
  await owner.end();
  await superuser.end();
  await house.close();
});

async function connect(connectionString: string, options?: string): Promise<pg.Client> {
  const client = new pg.Client({ connectionString, ...(options ? { options } : {}) });
  await client.connect();
  return client;
}

/** The stores' own `where studio_id` names the other studio; the transaction stays ours. */
const forged = (tx: Tx): Tx => Object.create(tx, { studioId: { value: theirs.id } }) as Tx;

const isNothing = (found: unknown): boolean =>
  found === null ||
  found === 0 ||
  (Array.isArray(found) && found.length === 0) ||
  (found instanceof Map && [...found.values()].every((one) => Array.isArray(one) && one.length === 0));

/** The calls that gave something, each undone. */
async function giving(tx: Tx): Promise<string[]> {
  const gave: string[] = [];
  for (const [name, call] of Object.entries(CALLS)) {
    await tx.run('savepoint before');
    try {
      if (!isNothing(await call(tx, their))) gave.push(name);
    } catch (error) {
      if (!/^A row was expected|has an owner/.test((error as Error).message)) throw error;
    }
    await tx.run('rollback to before');
  }
  return gave;
}

/** Of which tables, and through which calls, our studio sees rows of the other. */
async function leaks(): Promise<{ tables: string[]; calls: string[] }> {
  return house.db.inStudio(ours.id, async (tx) => {
    const seen: string[] = [];
    for (const table of tables)
      if ((await tx.run(`select from ${table} where studio_id = $1`, [theirs.id])) > 0) seen.push(table);
    return { tables: seen, calls: await giving(forged(tx)) };
  });
}

describe('the catalogue', () => {
  it('has every table of the app guarded', async () => {
    expect(await unguarded(owner)).toEqual([]);
    expect(tables.length).toBeGreaterThanOrEqual(19);
  });

  it.each([
    ['alter table sitter disable row level security', ['sitter has no row security']],
    ['alter table sitter no force row level security', ['sitter does not force row security']],
    ['drop policy own_studio on sitter', ['sitter has other policies']],
    ['create policy more on sitter using (true)', ['sitter has other policies']],
    ['alter policy own_studio on sitter with check (true)', ['sitter has other policies']],
    ['alter table sitter owner to plateday_app', ['sitter belongs to the app']],
    [
      'alter table plate_sitter drop constraint plate_sitter_pkey, add primary key (plate_id, sitter_id, studio_id)',
      ['plate_sitter has another key first'],
    ],
    [
      'create table notes (id int)',
      [
        'has no row security',
        'does not force row security',
        'has another key first',
        'has other policies',
      ].map((fault) => `notes ${fault}`),
    ],
    ['create view everyone as select * from contact', ['everyone is no plain table']],
    [
      'create function all_names() returns text security definer return null',
      [`all_names() runs with its owner's rights`],
    ],
  ])('is found wanting after: %s', async (change, faults) => {
    await superuser.query('begin');
    await superuser.query(change);
    const found = await unguarded(superuser);
    await superuser.query('rollback');
    expect(found).toEqual(faults);
  });

  it('gives the app neither rights of its own nor a place to make tables', async () => {
    const { rows } = await owner.query(
      `select rolsuper, rolbypassrls, rolcreaterole, rolcanlogin, has_schema_privilege(oid, 'public', 'create') as makes,
         exists (select from pg_auth_members where member = r.oid) as belongs
       from pg_roles r where rolname = 'plateday_app'`,
    );
    expect(rows).toEqual([
      {
        rolsuper: false,
        rolbypassrls: false,
        rolcreaterole: false,
        rolcanlogin: false,
        makes: false,
        belongs: false,
      },
    ]);
  });
});

describe('a studio', () => {
  it('has a line in this test for every store method that reads', async () => {
    const listed = new Set(Object.keys(CALLS).map((name) => name.replace(/,.*/, '')));
    expect((await readingMethods()).filter((name) => !listed.has(name))).toEqual([]);
  });

  it('is told something of its own by every one of them', async () => {
    const gave = await house.db.inStudio(theirs.id, giving);
    expect(Object.keys(CALLS).filter((name) => !gave.includes(name))).toEqual([]);
  });

  it('is told nothing of another through any of them, and sees none of its rows', async () => {
    const { rows } = await superuser.query(
      tables
        .map(
          (table) => `select '${table}' as name, count(*)::int from ${table}
        where studio_id = '${theirs.id}'`,
        )
        .join(' union all '),
    );
    expect(rows.filter(({ count }) => count > 0).length).toBeGreaterThanOrEqual(19);
    const directory = ['StudiosStore.isFirst']; // read by all
    expect(await leaks()).toEqual({ tables: [], calls: directory });
  });

  it.each([
    ['account', 'AccountsStore.owner'],
    ['link', 'LinksStore.byHash'],
    ['history', 'historyOf'],
    ['idempotency', 'once, its answers'],
    ['exposure_note', 'DaylightStore.notes'],
    ['contact', 'PeopleStore.contact'],
    ['sitter', 'PrivacyStore.ids'],
    ['rhythm', 'RulesStore.load'],
    ['occupancy', 'RoomStore.giveBack'],
    ['plate_size', 'StockStore.plateSizes'],
    ['item', 'StockStore.items'],
    ['lot', 'StockStore.lots'],
    ['reservation', 'StockStore.reservations'],
    ['bath', 'BathsStore.baths'],
    ['bath_event', 'BathsStore.events'],
    ['preparation_tick', 'PreparationStore.ticks'],
    ['studio_day', 'PreparationStore.days'],
    ['sitting', 'SittingsStore.byId'],
    ['plate', 'TablesStore.tables'],
    ['mail', 'MailStore.lease'],
    ['studio', 'StudiosStore.load'],
  ])('would see rows of another in %s if its row security were off', async (table, call) => {
    await owner.query(`alter table ${table} disable row level security`);
    try {
      const found = await leaks();
      expect(found.tables).toEqual([table]);
      expect(found.calls).toContain(call);
    } finally {
      await owner.query(`alter table ${table} enable row level security`);
    }
  });

  it('cannot enter a row for another in any table', async () => {
    const refused: string[] = [];
    for (const table of tables) {
      const entering = house.db.inStudio(ours.id, (tx) =>
        tx.run(`insert into ${table} (studio_id) values ($1)`, [theirs.id]),
      );
      const error = await entering.then(
        () => null,
        (reason) => reason.driverError,
      );
      if (error?.code === '42501' && /row-level security/.test(error.message)) refused.push(table);
    }
    expect(refused).toEqual(tables);
  });

  it('cannot give a row of its own to another', async () => {
    const giving = house.db.inStudio(ours.id, (tx) =>
      tx.run('update sitter set studio_id = $1', [theirs.id]),
    );
    await expect(giving).rejects.toMatchObject({ driverError: { code: '42501' } });
  });

  it.each(['update', 'delete'] as const)('changes nothing of another by %s', async (act) => {
    const before = await theirRows();
    for (const table of tables) {
      const sql = act === 'update' ? `update ${table} set studio_id = studio_id` : `delete from ${table}`;
      const changing = house.db.inStudio(ours.id, (tx) => tx.run(`${sql} where studio_id = $1`, [theirs.id]));
      const outcome = await changing.catch((error) => error.driverError.message);
      expect([0, `permission denied for table ${table}`]).toContain(outcome);
    }
    expect(await theirRows()).toEqual(before);
  });

  it('may only add to what is never changed', async () => {
    for (const sql of ['update history set note = $1', 'delete from history where note <> $1']) {
      const changing = house.db.inStudio(ours.id, (tx) => tx.run(sql, ['']));
      await expect(changing).rejects.toMatchObject({ driverError: { code: '42501' } });
    }
  });
});

/** All rows of the other studio, as whoever sees everything finds them. */
async function theirRows(): Promise<unknown[]> {
  const all: unknown[] = [];
  for (const table of tables)
    all.push(...(await superuser.query(`select * from ${table} where studio_id = $1`, [theirs.id])).rows);
  return all;
}

describe('without a studio', () => {
  it.each(['plateday_app', 'plateday'])('%s sees no row of any', async (role) => {
    const client = await connect(house.database.url, `-c role=${role}`);
    const counts = tables.map((table) => `(select count(*) from ${table})`).join(' + ');
    const { rows } = await client.query(`select (${counts})::int as seen, current_user as role`);
    const adding = client.query(`insert into sitter (studio_id) values ($1)`, [ours.id]);
    await expect(adding).rejects.toMatchObject({ code: '42501' });
    await client.end();
    expect(rows).toEqual([{ seen: 0, role }]);
  });

  it('is every connection again after a transaction, however it ended, and after a calendar’s door', async () => {
    const db = await Db.connect(house.database.url, new SystemRandom(), 1);
    const setting = async () => {
      const [row] = await db.callDoors(
        z.object({ studio: z.string().nullable(), pid: z.number() }),
        'setting',
        `select current_setting('app.studio_id', true) as studio, pg_backend_pid() as pid`,
        [],
      );
      return row;
    };
    const pid = (await setting())?.pid;
    const without = { studio: '', pid };
    const counting = (tx: Tx) => tx.run('select from sitter');
    expect(await db.inStudio(ours.id, counting)).toBe(3);
    expect(await setting()).toEqual(without);
    await expect(db.inStudio(ours.id, () => Promise.reject(new Error('no')))).rejects.toThrow('no');
    expect(await setting()).toEqual(without);
    await expect(db.inStudio(ours.id, (tx) => tx.run('select 1 / 0'))).rejects.toThrow('division by zero');
    expect(await setting()).toEqual(without);
    const feed = await house.app.inject(`/s/${their.slug}/calendar/${their.feedToken}.ics`);
    expect(feed.statusCode).toBe(200);
    await db.callDoors(z.object({}), 'any', 'select from plateday_feed_doors($1, $2)', [
      their.slug,
      [Buffer.alloc(32)],
    ]);
    expect(await setting()).toEqual(without);
    await db.close();
  });
});

describe('the directory', () => {
  it('is read by all', async () => {
    expect(await house.db.studioAt(theirs.slug)).toMatchObject({ studioId: theirs.id });
    expect(await house.db.studioAt(ours.slug)).toMatchObject({ studioId: ours.id });
    expect(await house.db.inStudio(ours.id, (tx) => tx.run('select from studio_directory'))).toBe(2);
  });

  it('is written for the own studio only', async () => {
    const entering = house.db.inStudio(ours.id, (tx) =>
      tx.run(`insert into studio_directory values ('a-new-address', $1, false)`, [theirs.id]),
    );
    await expect(entering).rejects.toMatchObject({ driverError: { code: '42501' } });
    await house.db.inStudio(ours.id, async (tx) => {
      expect(await tx.run('update studio_directory set is_current = is_current')).toBe(1);
      expect(await tx.run('delete from studio_directory where slug = $1', [theirs.slug])).toBe(0);
    });
  });
});

describe('connecting', () => {
  const REFUSED =
    'The running database role could pass by row-level security; Plateday will not start with it.';
  const as = (url: string, role: string) => {
    const address = new URL(url);
    address.searchParams.set('options', `-c role=${role}`);
    return address.href;
  };

  it.each([
    ['a superuser', () => as(house.database.adminUrl, 'postgres')],
    ['the owner of the tables', () => as(house.database.url, 'plateday')],
    ['a role that bypasses row security', () => as(house.database.adminUrl, `strong_${process.pid}`)],
    ['a member of the owner', () => as(house.database.adminUrl, `member_${process.pid}`)],
  ])('is refused as %s', async (_who, url) => {
    await superuser.query(`create role strong_${process.pid} bypassrls; create role member_${process.pid};
      grant plateday to member_${process.pid}`);
    try {
      await expect(Db.connect(url(), new SystemRandom(), 1)).rejects.toThrow(REFUSED);
    } finally {
      await superuser.query(`drop role strong_${process.pid}, member_${process.pid}`);
    }
  });

  it('goes well as the app, whoever logs in', async () => {
    for (const url of [house.database.url, house.database.adminUrl])
      await (await Db.connect(url, new SystemRandom(), 1)).close();
  });
});
