// Jobs are part of the transaction that causes them, belong to its studio, and are done at least once, also
// when their worker dies. The queue's role alone touches the queue.
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { SystemClock, SystemRandom } from '../../src/platform/clock.js';
import { Db } from '../../src/platform/db/db.js';
import { APP_ROLE } from '../../src/platform/db/migrate.js';
import type { Tx } from '../../src/platform/db/tx.js';
import { JOBS, type JobName, type JobPayload, Jobs } from '../../src/platform/jobs/registry.js';
import { heartbeat, type Runner, startRunner } from '../../src/platform/jobs/runner.js';
import { cutLine } from '../support/cut-line.js';
import { StoppedClock } from '../support/house.js';
import { createTestDatabase, type TestDatabase } from '../support/postgres.js';
import { queuePool, until, workOnce } from '../support/queue.js';

const OURS = '00000000-0000-4000-8000-00000000000a';
const THEIRS = '00000000-0000-4000-8000-00000000000b';
const LETTER = '00000000-0000-4000-8000-000000000001';

let database: TestDatabase;
let db: Db;
let queue: pg.Pool;
let clock: StoppedClock;
let jobs: Jobs;
/** What the handlers were handed; `doMail` is what the mail handler does besides. */
let done: JobPayload<'mail.send'>[];
let doMail: (payload: JobPayload<'mail.send'>) => Promise<void>;

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
  done = [];
  doMail = async () => {};
  jobs.handle('mail.send', async (payload) => {
    await doMail(payload);
    done.push(payload);
  });
  for (const other of Object.keys(JOBS) as JobName[])
    if (other !== 'mail.send') jobs.handle(other, async () => {});
});
afterEach(async () => {
  await queue.query('delete from graphile_worker._private_jobs; delete from plateday_queue.heartbeat');
});

interface Waiting {
  key: string;
  payload: unknown;
  run_at: Date;
  attempts: number;
  locked_by: string | null;
  last_error: string | null;
}

async function waiting(): Promise<Waiting[]> {
  const { rows } = await queue.query<Waiting>('select * from graphile_worker._private_jobs order by key');
  return rows;
}

const send = (tx: Tx, payload: object = { mailId: LETTER }, key = 'one', runAt?: Temporal.Instant) =>
  jobs.enqueue(tx, 'mail.send', payload as { mailId: string }, { key, ...(runAt ? { runAt } : {}) });

/** Runs all that is due, as a worker would, and dates later tries back to now. */
async function work(): Promise<void> {
  await queue.query(`update graphile_worker._private_jobs set run_at = '2000-01-01Z'`);
  await workOnce(queue, jobs);
}

describe('a job', () => {
  it('is on the queue once its transaction has committed, due at the house’s clock', async () => {
    await db.inStudio(OURS, async (tx) => {
      await send(tx);
      expect(await waiting()).toEqual([]);
    });
    const [job, ...others] = await waiting();
    expect(others).toEqual([]);
    expect(job).toMatchObject({ key: `${OURS}:mail.send:one`, payload: { mailId: LETTER, studioId: OURS } });
    expect(job?.run_at.getTime()).toBe(clock.now().epochMilliseconds);
  });

  it('never was when its transaction rolls back', async () => {
    const failing = db.inStudio(OURS, async (tx) => {
      await send(tx);
      throw new Error('changed my mind');
    });
    await expect(failing).rejects.toThrow('changed my mind');
    expect(await waiting()).toEqual([]);
  });

  it('replaces a waiting one of the same key, and only in its own studio', async () => {
    const later = clock.now().add({ hours: 5 });
    await db.inStudio(OURS, (tx) => send(tx));
    await db.inStudio(THEIRS, (tx) => send(tx));
    await db.inStudio(OURS, (tx) => send(tx, { mailId: OURS }, 'one', later));
    const found = (await waiting()).map((job) => [job.payload, job.run_at.getTime()]);
    expect(found).toEqual([
      [{ mailId: OURS, studioId: OURS }, later.epochMilliseconds],
      [{ mailId: LETTER, studioId: THEIRS }, clock.now().epochMilliseconds],
    ]);
  });

  it('replaces one that is put there in the same go, as if it had come after it', async () => {
    const later = clock.now().add({ hours: 5 });
    await db.inStudio(OURS, (tx) =>
      Promise.all([
        send(tx, { mailId: LETTER }, 'one'),
        send(tx, { mailId: LETTER }, 'two', later),
        send(tx, { mailId: OURS }, 'one', later),
      ]),
    );
    const found = (await waiting()).map((job) => [job.key, job.payload, job.run_at.getTime()]);
    expect(found).toEqual([
      [`${OURS}:mail.send:one`, { mailId: OURS, studioId: OURS }, later.epochMilliseconds],
      [`${OURS}:mail.send:two`, { mailId: LETTER, studioId: OURS }, later.epochMilliseconds],
    ]);
  });

  it('belongs to the studio of its transaction, whatever its payload says', async () => {
    await db.inStudio(OURS, (tx) => send(tx, { mailId: LETTER, studioId: THEIRS }));
    await work();
    expect(done).toEqual([{ mailId: LETTER, studioId: OURS }]);
  });

  it('is refused when its payload is not what its kind asks for', async () => {
    await expect(db.inStudio(OURS, (tx) => send(tx, { mailId: 'the first' }))).rejects.toThrow(
      'Invalid UUID',
    );
    expect(await waiting()).toEqual([]);
  });

  it('is tried again after its handler failed, of which nothing is left', async () => {
    let fails = true;
    const enter = async (tx: Tx) => {
      await tx.run(`insert into studio_directory values ('curlew-shed', $1, true)`, [OURS]);
      if (fails) throw new Error('the ink is dry');
    };
    doMail = ({ studioId }) => db.inStudio(studioId, enter);
    await db.inStudio(OURS, (tx) => send(tx));

    await work();
    expect(await db.studioAt('curlew-shed')).toBeNull();
    expect(done).toEqual([]);
    const [job] = await waiting();
    expect(job).toMatchObject({
      attempts: 1,
      locked_by: null,
      last_error: expect.stringContaining('the ink is dry'),
    });
    expect(job?.run_at.getTime()).toBeGreaterThan(clock.now().epochMilliseconds);

    fails = false;
    await work();
    expect(await db.studioAt('curlew-shed')).not.toBeNull();
    expect(done).toHaveLength(1);
    expect(await waiting()).toEqual([]);
  });
});

describe('the app’s own role', () => {
  let app: pg.Client;
  beforeAll(async () => {
    app = new pg.Client({ connectionString: database.url, options: `-c role=${APP_ROLE}` });
    await app.connect();
  });
  afterAll(() => app.end());

  it.each([
    `select graphile_worker.add_job('mail.send')`,
    'select * from graphile_worker.jobs',
    'select * from graphile_worker._private_jobs',
    'delete from graphile_worker._private_jobs',
    'select * from plateday_queue.heartbeat',
  ])('may not %s', async (sql) => {
    await expect(app.query(sql)).rejects.toMatchObject({ code: '42501' });
  });

  it('cannot enqueue without a studio', async () => {
    const enqueue = `select plateday_queue.enqueue('mail.send', '{"studioId": "${OURS}"}', '2027-01-01Z', 'one')`;
    await expect(app.query(enqueue)).rejects.toThrow('A job needs a studio');
    await app.query(`select set_config('app.studio_id', '', false)`);
    await expect(app.query(enqueue)).rejects.toThrow('A job needs a studio');
    expect(await waiting()).toEqual([]);
  });
});

describe('the jobs of a worker', () => {
  /** Somebody of this name took the job just now. */
  async function takenBy(worker: string): Promise<void> {
    await db.inStudio(OURS, (tx) => send(tx));
    await queue.query(
      'update graphile_worker._private_jobs set locked_at = $1, locked_by = $2, attempts = 1',
      [clock.now().toString(), worker],
    );
  }
  const lockedBy = async () => (await waiting()).map((job) => job.locked_by);

  it('are freed when it has been silent for a minute, not before, and done by another', async () => {
    await takenBy('first');
    await heartbeat(queue, ['first'], clock);
    clock.forward({ seconds: 60 });
    expect(await heartbeat(queue, ['second'], clock)).toEqual([]);
    await work();
    expect(done).toEqual([]);

    clock.forward({ seconds: 1 });
    expect(await heartbeat(queue, ['second'], clock)).toEqual(['first']);
    expect(await lockedBy()).toEqual([null]);
    await work();
    expect(done).toHaveLength(1);
  });

  it('are left to it as long as it lives', async () => {
    await takenBy('first');
    for (let beat = 0; beat < 30; beat++) {
      await heartbeat(queue, ['first'], clock);
      clock.forward({ seconds: 10 });
      expect(await heartbeat(queue, ['second'], clock)).toEqual([]);
    }
    expect(await lockedBy()).toEqual(['first']);
  });

  it('would be taken from a living one that is not heard', async () => {
    await takenBy('first');
    clock.forward({ seconds: 61 });
    expect(await heartbeat(queue, ['second'], clock)).toEqual(['first']);
  });
});

describe('a running worker', () => {
  const endings: (() => Promise<void>)[] = [];
  afterEach(async () => {
    for (const end of endings.splice(0).reverse()) await end();
  });

  async function started(url: string, told: string[]): Promise<Runner> {
    const runner = await startRunner({ url, jobs, clock, log: (line) => told.push(line) });
    let stopping: Promise<void> | undefined;
    const stop = () => (stopping ??= runner.stop());
    endings.push(stop);
    return { stop };
  }

  it('is heard of by the very name that its jobs are locked by, and ends its work before it stops', async () => {
    const told: string[] = [];
    let goOn = () => {};
    const begun = new Promise<void>((beginning) => {
      doMail = () => {
        beginning();
        return new Promise((finish) => {
          goOn = finish;
        });
      };
    });
    await db.inStudio(OURS, (tx) => send(tx));
    const runner = await started(database.url, told);
    await begun;
    const { rows } = await queue.query(
      `select from graphile_worker._private_jobs join plateday_queue.heartbeat on worker_id = locked_by`,
    );
    expect(rows).toHaveLength(1);

    const stopping = runner.stop();
    goOn();
    await stopping;
    expect(done).toHaveLength(1);
    expect(await waiting()).toEqual([]);
    expect(told).toEqual([]);
  });

  it('says in a sentence what failed', async () => {
    const told: string[] = [];
    doMail = () => Promise.reject(new Error('the ink is dry'));
    await db.inStudio(OURS, (tx) => send(tx));
    const runner = await started(database.url, told);
    await until(() => told.length > 0);
    await runner.stop();
    expect(told).toEqual(['The job mail.send failed (try 1 of 25): the ink is dry']);
  });

  it('begins anew when the database was away, and what it could not settle is freed', async () => {
    const line = await cutLine(database.url);
    endings.push(() => line.cut());
    const told: string[] = [];
    const runner = await started(line.url, told);
    doMail = async () => {
      if (done.length === 0) await line.cut();
    };
    await db.inStudio(OURS, (tx) => send(tx));
    await until(() => told.includes('The worker lost its queue, and begins anew as soon as it can.'));
    await db.inStudio(OURS, (tx) => send(tx, { mailId: LETTER }, 'two'));
    await line.restore();
    await until(async () => done.length === 2 && (await waiting()).length === 1);
    const [unsettled] = await waiting();
    expect(unsettled?.key).toBe(`${OURS}:mail.send:one`);

    clock.forward({ seconds: 61 });
    expect(await heartbeat(queue, [], clock)).toEqual([unsettled?.locked_by]);
    await until(() => done.length === 3);
    await runner.stop();
    expect(await waiting()).toEqual([]);
  });
});
