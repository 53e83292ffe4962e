// Jobs that come in numbers are taken together, and each still ends for itself, as the queue itself would end it.
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { SystemClock, SystemRandom } from '../../src/platform/clock.js';
import { Db } from '../../src/platform/db/db.js';
import { JOBS, type JobName, Jobs } from '../../src/platform/jobs/registry.js';
import { type Runner, startRunner } from '../../src/platform/jobs/runner.js';
import { cutLine } from '../support/cut-line.js';
import { StoppedClock } from '../support/house.js';
import { createTestDatabase, type TestDatabase } from '../support/postgres.js';
import { queuePool, until } from '../support/queue.js';

const OURS = '00000000-0000-4000-8000-00000000000a';

let database: TestDatabase;
let db: Db;
let queue: pg.Pool;
let clock: StoppedClock;
let jobs: Jobs;
/** What the handler of letters does, and that of other kinds; of these reminders come in numbers as letters do. */
let doMail: (mailId: string) => Promise<void>;
let doOther: () => Promise<void>;
const endings: (() => Promise<void>)[] = [];

beforeAll(async () => {
  database = await createTestDatabase();
  db = await Db.connect(database.url, new SystemRandom(), 3);
  queue = queuePool(database.url, 3);
});
afterAll(async () => {
  await queue.end();
  await db.close();
  await database.drop();
});

beforeEach(() => {
  clock = new StoppedClock(new SystemClock().now()); // the queue itself goes by the machine's clock
  jobs = new Jobs(clock);
  doMail = async () => {};
  doOther = async () => {};
  jobs.handle('mail.send', ({ mailId }) => doMail(mailId), true);
  for (const other of Object.keys(JOBS) as JobName[])
    if (other !== 'mail.send') jobs.handle(other, () => doOther(), other === 'reminder.due');
});
afterEach(async () => {
  for (const end of endings.splice(0).reverse()) await end();
  await queue.query('delete from graphile_worker._private_jobs; delete from plateday_queue.heartbeat');
});

async function running(concurrency: number, told: string[] = [], url = database.url): Promise<Runner> {
  const runner = await startRunner({ url, jobs, clock, log: (line) => told.push(line), concurrency });
  let stopping: Promise<void> | undefined;
  const stop = () => (stopping ??= runner.stop());
  endings.push(stop);
  return { stop };
}

const letter = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`;
const letters = (from: number, to: number) =>
  db.inStudio(OURS, async (tx) => {
    for (let n = from; n <= to; n++)
      await jobs.enqueue(tx, 'mail.send', { mailId: letter(n) }, { key: letter(n) });
  });

interface Waiting {
  payload: { mailId: string };
  attempts: number;
  locked_by: string | null;
  locked_at: Date | null;
  last_error: string | null;
  run_at: Date;
}
async function waiting(): Promise<Waiting[]> {
  const { rows } = await queue.query<Waiting>('select * from graphile_worker._private_jobs order by id');
  return rows;
}

describe('letters that wait', () => {
  it('are begun together by one lane, twenty-five at a time, and are off the queue when done', async () => {
    const begun: string[] = [];
    let most = 0;
    let atOnce = 0;
    doMail = async (mailId) => {
      begun.push(mailId);
      most = Math.max(most, ++atOnce);
      await until(() => begun.length % 25 === 0); // alone none of them would ever end
      atOnce--;
    };
    await letters(1, 75);
    await running(1);
    await until(async () => (await waiting()).length === 0);
    expect(most).toBe(25);
    expect(new Set(begun).size).toBe(75);
    expect(begun).toHaveLength(75);
  });

  it('of which one cannot be read keep that one only on the queue, with the reason', async () => {
    const done: string[] = [];
    doMail = async (mailId) => {
      done.push(mailId);
      await until(() => done.length === 2);
    };
    await letters(1, 3);
    await queue.query(
      `update graphile_worker._private_jobs set payload = '{"of": "a later version"}'
      where key like '%' || $1`,
      [letter(2)],
    );
    await running(1);
    await until(async () =>
      (await waiting()).every((one) => one.last_error !== null && one.locked_by === null),
    );
    expect(done.sort()).toEqual([letter(1), letter(3)]);
    expect(await waiting()).toMatchObject([{ attempts: 1, last_error: expect.stringContaining('mailId') }]);
  });

  it('are fifty under way at most, and a lane that finds no room waits until half of them are done', async () => {
    let atOnce = 0;
    let begun = 0;
    let goOn = () => {};
    const held = new Promise<void>((go) => {
      goOn = go;
    });
    let most = 0;
    const beginnings: number[] = [];
    doMail = async () => {
      beginnings.push(atOnce);
      most = Math.max(most, ++atOnce);
      if (++begun <= 50) await held;
      atOnce--;
    };
    await letters(1, 100);
    await running(6);
    await until(() => begun === 50);
    await new Promise((wait) => setTimeout(wait, 100)); // the other lanes could have begun by now
    expect(begun).toBe(50);
    goOn();
    await until(async () => (await waiting()).length === 0);
    expect(begun).toBe(100);
    expect(most).toBe(50);
    expect(Math.max(...beginnings.slice(50))).toBeLessThan(50);
  });

  it('that wait for room keep no other kind waiting that comes in numbers as well', async () => {
    let goOn = () => {};
    const held = new Promise<void>((go) => {
      goOn = go;
    });
    let reminded = false;
    doMail = () => held;
    doOther = async () => {
      reminded = true;
    };
    await letters(1, 52);
    await running(6);
    await until(async () => (await waiting()).every((job) => job.locked_by !== null));
    await db.inStudio(OURS, (tx) =>
      jobs.enqueue(tx, 'reminder.due', { reminderId: letter(1) }, { key: letter(1) }),
    );
    await until(() => reminded);
    goOn();
    await until(async () => (await waiting()).length === 0);
  });

  it('are each done once by two workers', async () => {
    const times = new Map<string, number>();
    doMail = async (mailId) => {
      times.set(mailId, (times.get(mailId) ?? 0) + 1);
    };
    await letters(1, 300);
    await Promise.all([running(4), running(4)]);
    await until(async () => (await waiting()).length === 0);
    expect(times.size).toBe(300);
    expect([...times.values()].filter((n) => n !== 1)).toEqual([]);
  });

  it('do not take along what is due later, or another kind', async () => {
    const done: string[] = [];
    doMail = async (mailId) => {
      done.push(mailId);
    };
    await db.inStudio(OURS, async (tx) => {
      const later = { key: 'later', runAt: clock.now().add({ hours: 1 }) };
      await jobs.enqueue(tx, 'mail.send', { mailId: letter(2) }, later);
      await jobs.enqueue(tx, 'mail.send', { mailId: letter(1) }, { key: 'now' });
    });
    const runner = await running(2);
    await until(() => done.length > 0);
    await runner.stop();
    expect(done).toEqual([letter(1)]);
    expect((await waiting()).map((job) => job.payload.mailId)).toEqual([letter(2)]);
  });
});

describe('one of them that fails', () => {
  it('is tried again as the queue itself tries again, is told of once, and the others are done', async () => {
    const told: string[] = [];
    doMail = async (mailId) => {
      if (mailId <= letter(2)) throw new Error(`no ink for ${Number(mailId.slice(-4))}`);
    };
    await letters(1, 10);
    const before = clock.now().epochMilliseconds; // the clock of the house stands still here, the queue's goes on
    const runner = await running(1, told);
    await until(async () => (await waiting()).filter((job) => job.last_error !== null).length === 2);
    await runner.stop();
    // the first was taken by graphile-worker itself and ended by it, the second along with it
    const [own, along, ...others] = await waiting();
    expect(others).toEqual([]);
    expect([own?.last_error, along?.last_error]).toEqual(['no ink for 1', 'no ink for 2']);
    for (const job of [own, along]) {
      expect(job).toMatchObject({ attempts: 1, locked_by: null, locked_at: null });
      const after = ((job?.run_at.getTime() ?? 0) - before) / 1_000;
      expect(after).toBeGreaterThanOrEqual(Math.E - 0.01); // e to the power of its tries, in seconds
      expect(after).toBeLessThan(Math.E + 20);
    }
    expect(told.sort()).toEqual([1, 2].map((n) => `The job mail.send failed (try 1 of 25): no ink for ${n}`));
  });
});

describe('a worker', () => {
  it('ends all that it took along before it stops', async () => {
    let begun = 0;
    let ended = 0;
    let goOn = () => {};
    const held = new Promise<void>((go) => {
      goOn = go;
    });
    doMail = async () => {
      begun++;
      await held;
      ended++;
    };
    await letters(1, 20);
    const runner = await running(1);
    await until(() => begun === 20);
    const stopping = runner.stop();
    goOn();
    await stopping;
    expect(ended).toBe(20);
    expect(await waiting()).toEqual([]);
  });

  it('notes what ended while the database was away once it is back', async () => {
    const line = await cutLine(database.url);
    endings.push(() => line.cut());
    let begun = 0;
    const done: string[] = [];
    doMail = async (mailId) => {
      if (++begun === 10) await line.cut();
      else await until(() => begun >= 10);
      done.push(mailId);
    };
    await letters(1, 10);
    await running(1, [], line.url);
    await until(() => done.length >= 10);
    await line.restore();
    // all but the one that graphile-worker itself took, which it may note as well, or leave to be freed with its worker's name
    await until(async () => (await waiting()).length <= 1);
    expect(done.slice(0, 10).sort()).toEqual(Array.from({ length: 10 }, (_, n) => letter(n + 1)));
  });

  it('gives back what it took without hearing of it', async () => {
    const line = await cutLine(database.url);
    endings.push(() => line.cut());
    const { query } = pg.Pool.prototype;
    let lost = 0;
    const spied = function (this: pg.Pool, ...args: unknown[]) {
      const asked = Reflect.apply(query, this, args) as unknown as Promise<unknown>;
      if ((args[0] as { name?: string }).name !== 'take along' || lost > 0) return asked;
      lost++;
      return asked.then(() => Promise.reject(new Error('Connection terminated unexpectedly')));
    };
    pg.Pool.prototype.query = spied as typeof query;
    endings.push(async () => {
      pg.Pool.prototype.query = query;
    });
    const done = new Set<string>();
    doMail = async (mailId) => {
      done.add(mailId);
    };
    await letters(1, 30);
    await running(1, [], line.url);
    await until(async () => (await waiting()).length === 0);
    expect(lost).toBe(1);
    expect(done.size).toBe(30);
  });
});
