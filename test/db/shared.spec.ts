// Acts that come at the same time share a transaction, and none pays for another that fails.
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { z } from 'zod';
import { SystemRandom } from '../../src/platform/clock.js';
import { Db } from '../../src/platform/db/db.js';
import { Shared } from '../../src/platform/db/shared.js';
import { TogetherIn } from '../../src/platform/db/together-in.js';
import type { Tx } from '../../src/platform/db/tx.js';
import { createTestDatabase, type TestDatabase } from '../support/postgres.js';

const STUDIO = '00000000-0000-4000-8000-00000000000a';
const ID = z.object({ id: z.string() });

let database: TestDatabase;
let db: Db;
/** By subject, the transaction each of its acts ran in. */
let ran: [subject: string, transaction: string][];

beforeAll(async () => {
  database = await createTestDatabase();
  db = await Db.connect(database.url, new SystemRandom(), 4);
});
beforeEach(() => {
  ran = [];
});
afterAll(async () => {
  await db.close();
  await database.drop();
});

/** Enters an address; one that begins with "bad" fails in PostgreSQL, "odd" in the act itself. */
async function enter(tx: Tx, slug: string): Promise<string> {
  const { id } = await tx.one(ID, 'select pg_current_xact_id()::text as id');
  ran.push([slug, id]);
  await tx.run(`insert into studio_directory values ($1, $2, false)`, [slug, tx.studioId]);
  if (slug.startsWith('odd')) throw new Error(`This is odd: ${slug}`);
  if (slug.startsWith('bad')) await tx.run('select 1 / 0');
  return slug.toUpperCase();
}
const entering = () => new Shared(db, enter, (slug: string) => slug);
const entered = async (...slugs: string[]) => {
  const rows = await db.inStudio(STUDIO, (tx) =>
    tx.many(z.object({ slug: z.string() }), 'select slug from studio_directory where slug = any($1)', [
      slugs,
    ]),
  );
  return rows.map(({ slug }) => slug).sort();
};

describe('acts that come at the same time', () => {
  it('share a transaction, and each is answered', async () => {
    const shared = entering();
    const slugs = ['a-1', 'a-2', 'a-3'];
    const answers = await Promise.all(slugs.map((slug) => shared.do(STUDIO, slug)));
    expect(answers).toEqual(['A-1', 'A-2', 'A-3']);
    expect(new Set(ran.map(([, transaction]) => transaction)).size).toBe(1);
    expect(await entered(...slugs)).toEqual(slugs);
  });

  it.each(['bad', 'odd'])(
    'do not pay for one that is %s: it fails with its own words, alone',
    async (kind) => {
      const shared = entering();
      const slugs = [`${kind}-1-a`, `fine-${kind}-1`, `fine-${kind}-2`];
      const [failed, ...fine] = await Promise.allSettled(slugs.map((slug) => shared.do(STUDIO, slug)));
      expect(failed).toMatchObject({
        status: 'rejected',
        reason: { message: expect.stringMatching(/division by zero|This is odd/) },
      });
      expect(fine.map(({ status }) => status)).toEqual(['fulfilled', 'fulfilled']);
      expect(await entered(...slugs)).toEqual([`fine-${kind}-1`, `fine-${kind}-2`]);
    },
  );

  it('never share one where they are about the same', async () => {
    const shared = new Shared(
      db,
      async (tx, n: number) => {
        ran.push([String(n), (await tx.one(ID, 'select pg_current_xact_id()::text as id')).id]);
      },
      () => 'the same',
    );
    await Promise.all([1, 2, 3].map((n) => shared.do(STUDIO, n)));
    expect(new Set(ran.map(([, transaction]) => transaction)).size).toBe(3);
  });

  it('leave nothing of one that fails where it is alone', async () => {
    await expect(entering().do(STUDIO, 'odd-alone')).rejects.toThrow('This is odd: odd-alone');
    expect(ran).toHaveLength(1);
    expect(await entered('odd-alone')).toEqual([]);
  });
});

describe('what acts of one transaction ask alike', () => {
  it('is asked in one statement, each answered with its own; another transaction is another', async () => {
    const asked: number[][] = [];
    const looks = new TogetherIn<number, number>(async (_tx, all) => {
      asked.push(all);
      return all.map((n) => n * 10);
    });
    const both = [1, 2].map((part) =>
      db.inStudio(STUDIO, (tx) => Promise.all([looks.ask(tx, part), looks.ask(tx, part + 2)])),
    );
    expect(await Promise.all(both)).toEqual([
      [10, 30],
      [20, 40],
    ]);
    expect(asked.sort()).toEqual([
      [1, 3],
      [2, 4],
    ]);
  });
});

describe('what a transaction has read', () => {
  const ADDRESSES = `select count(*)::text as id from studio_directory where slug like 'kept-%'`;
  let asked = 0;
  const count = new TogetherIn<string, string>(
    async (tx, all) => {
      asked++;
      const { id } = await tx.one(ID, ADDRESSES);
      return all.map((what) => `${what} ${id}`);
    },
    (what) => what,
  );
  const enterOne = (tx: Tx) =>
    tx.run(`insert into studio_directory values ('kept-' || gen_random_uuid(), $1, false)`, [tx.studioId]);
  const reads = async (act: (tx: Tx) => Promise<unknown>): Promise<number> => {
    asked = 0;
    await db.inStudio(STUDIO, act);
    return asked;
  };

  it('is not read again, for each question; in the next transaction it is', async () => {
    const twice = async (tx: Tx) => {
      const first = await count.ask(tx, 'a');
      expect(await count.ask(tx, 'a')).toBe(first);
      await tx.one(ID, ADDRESSES); // reading changes nothing
      expect(await count.ask(tx, 'a')).toBe(first);
      expect(await count.ask(tx, 'b')).toBe(first.replace('a', 'b'));
    };
    expect(await reads(twice)).toBe(2);
    expect(await reads((tx) => count.ask(tx, 'a'))).toBe(1);
  });

  it.each<[string, (tx: Tx) => Promise<unknown>]>([
    ['a row was entered', enterOne],
    [
      'a row was locked, which may have been waited for',
      (tx) => tx.many(ID, 'select slug as id from studio_directory limit 1 for no key update'),
    ],
    [
      'a job was put on the queue',
      (tx) =>
        tx.run(
          `select plateday_queue.enqueue_all('{mail.send}', array['{}'::jsonb], array[now()], '{kept}')`,
        ),
    ],
    ['a part of it was taken back', (tx) => tx.part(() => Promise.reject(new Error('no'))).catch(() => {})],
  ])('is read again once %s', async (_what, change) => {
    const act = async (tx: Tx) => {
      await count.ask(tx, 'a');
      await change(tx);
      await count.ask(tx, 'a');
    };
    expect(await reads(act)).toBe(2);
  });

  it('is what stands there after what it did itself, also where both are asked at once', async () => {
    await db.inStudio(STUDIO, async (tx) => {
      const before = Number((await count.ask(tx, 'n')).slice(2));
      const [, after] = await Promise.all([enterOne(tx), count.ask(tx, 'n')]);
      expect(Number(after.slice(2))).toBe(before + 1);
    });
  });
});

describe('a transaction that has failed', () => {
  it('is over once what was asked beside it is done; nothing is asked on its connection afterwards', async () => {
    let late: Promise<unknown> = Promise.resolve();
    const failing = db.inStudio(STUDIO, async (tx) => {
      const slow = tx
        .run('select pg_sleep(0.05)')
        .then(() => tx.run(`insert into studio_directory values ('too-late', $1, false)`, [STUDIO]));
      late = slow.catch((error: Error) => error);
      throw new Error('given up');
    });
    await expect(failing).rejects.toThrow('given up');
    expect(await late).toMatchObject({ message: expect.stringContaining('The transaction is over') });
    expect(await db.studioAt('too-late')).toBeNull();
  });
});

describe('a statement that is kept prepared', () => {
  it('is prepared anew once another process has given its table one more column', async () => {
    const admin = new pg.Client({ connectionString: database.adminUrl });
    await admin.connect();
    const look = () => db.inStudio(STUDIO, (tx) => tx.many(z.object({}), 'select * from waiting_rules'));
    const often = async () => {
      for (let times = 0; times < 30; times++) await look();
    };
    await often();
    await admin.query('alter table waiting_rules add column one_more text');
    await admin.end();
    await often();
    await Promise.all([look(), look(), look(), look()]); // on every connection of the pool
  });
});
