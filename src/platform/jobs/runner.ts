// The job process: takes jobs from the queue and runs their handlers. Several may run at once.
// Each beats every ten seconds; the jobs of a worker silent for a minute are freed for the others.
// A worker that lost the database begins anew under another name, and so its unsettled jobs are freed too.
import { EventEmitter } from 'node:events';
import { setTimeout as sleep } from 'node:timers/promises';
import { Logger, type Runner as Worker, run, type WorkerEvents } from 'graphile-worker';
import pg from 'pg';
import type { Clock } from '../clock.js';
import { JOBS_ROLE } from '../db/migrate.js';
import { LETTERS_AT_ONCE } from '../mailer.js';
import { InNumbers, words } from './in-numbers.js';
import type { Jobs } from './registry.js';

/** Each is a job, or one of those that come in numbers with what it took along. */
const JOBS_AT_ONCE = 10;
const BEAT_MS = 10_000;
const SILENT_MS = 60_000;
const RESTART_MS = 1_000;

/** How it is noted how jobs went: in batches, since otherwise a lost connection there would end the whole process. */
export const SETTLING = { worker: { completeJobBatchDelay: 0, failJobBatchDelay: 0 } };

export interface Runner {
  /** Takes no more jobs, and resolves when those begun have ended. */
  stop(): Promise<void>;
}

interface RunnerOptions {
  url: string;
  jobs: Jobs;
  clock: Clock;
  log: (line: string) => void;
  concurrency?: number;
}

/** @throws Error when the queue cannot be reached at first; later it waits for the queue to come back. */
export async function startRunner(o: RunnerOptions): Promise<Runner> {
  const pgPool = new pg.Pool({
    connectionString: o.url,
    max: LETTERS_AT_ONCE + 3,
    options: `-c role=${JOBS_ROLE} -c timezone=UTC`,
  });
  pgPool.on('error', (error) => o.log(`The queue lost a connection: ${error.message}`));
  pgPool.on('connect', (connection) => connection.on('error', () => {})); // told by the pool
  const alive = new Set<string>();
  const stop = new AbortController();
  const inNumbers = new InNumbers(
    pgPool,
    o.clock,
    (name, job, error) => tellFailed(o, name, job, error),
    stop.signal,
  );
  const start = () => startWorker(o, pgPool, alive, inNumbers);
  let worker = await start();
  const beat = () =>
    heartbeat(pgPool, [...alive], o.clock).catch((error) => o.log(`The heartbeat failed: ${words(error)}`));
  await beat();
  const timer = setInterval(() => void beat(), BEAT_MS);
  const stopped = () => stop.signal.aborted;
  const watching = (async () => {
    for (;;) {
      await worker.promise.catch(() => {}); // told by the logger
      if (stopped()) return;
      o.log('The worker lost its queue, and begins anew as soon as it can.');
      let next: Worker | null = null;
      while (!next && (await pauseUnless(stop.signal))) next = await start().catch(() => null);
      if (!next) return;
      worker = next;
      if (stopped()) await end(worker);
      else await beat();
    }
  })();
  return {
    async stop() {
      stop.abort();
      await end(worker);
      await watching;
      clearInterval(timer);
      await pgPool.end();
    },
  };
}

/** Its jobs are locked by the name of its pool, which is in `alive` while it works. */
function startWorker(
  o: RunnerOptions,
  pgPool: pg.Pool,
  alive: Set<string>,
  inNumbers: InNumbers,
): Promise<Worker> {
  const events: WorkerEvents = new EventEmitter();
  events.on('pool:create', ({ workerPool }) => alive.add(workerPool.id));
  events.on('pool:release', ({ workerPool }) => alive.delete(workerPool.id));
  events.on('job:error', ({ job, error }) => tellFailed(o, job.task_identifier, job, error));
  return run({
    pgPool,
    events,
    taskList: mapValues(o.jobs.taskList(), (handler, name) =>
      o.jobs.inNumbers.has(name) ? inNumbers.task(name, handler) : handler,
    ),
    concurrency: o.concurrency ?? JOBS_AT_ONCE,
    noHandleSignals: true,
    useNodeTime: true,
    pollInterval: 2_000,
    preset: SETTLING,
    logger: new Logger(() => (level, message) => {
      if (level === 'error' && !/^Failed task/.test(message)) o.log(message);
    }),
  });
}

function tellFailed(
  { log }: RunnerOptions,
  name: string,
  job: { attempts: number; max_attempts: number },
  error: unknown,
): void {
  log(`The job ${name} failed (try ${job.attempts} of ${job.max_attempts}): ${words(error)}`);
}

const mapValues = <A, B>(all: Record<string, A>, change: (one: A, name: string) => B): Record<string, B> =>
  Object.fromEntries(Object.entries(all).map(([name, one]) => [name, change(one, name)]));

/** Lets a worker finish what it has begun; one that has ended already is no matter. */
const end = (worker: Worker) => worker.stop().catch(() => {});

/** Waits a moment; false when it was stopped meanwhile or before. */
async function pauseUnless(stopped: AbortSignal): Promise<boolean> {
  try {
    await sleep(RESTART_MS, undefined, { signal: stopped });
    return true;
  } catch {
    return false;
  }
}

/** Says that `alive` live, and frees the jobs of workers not heard of for a minute. */
export async function heartbeat(pool: pg.Pool, alive: string[], clock: Clock): Promise<string[]> {
  const now = clock.now();
  const silentSince = now.subtract({ milliseconds: SILENT_MS }).toString();
  await pool.query(
    `insert into plateday_queue.heartbeat (worker_id, seen_at) select unnest($1::text[]), $2
     on conflict (worker_id) do update set seen_at = excluded.seen_at`,
    [alive, now.toString()],
  );
  const { rows } = await pool.query<{ locked_by: string }>(
    `select distinct j.locked_by from graphile_worker._private_jobs j
     left join plateday_queue.heartbeat h on h.worker_id = j.locked_by
     where j.locked_by is not null and j.locked_at < $1 and (h.seen_at is null or h.seen_at < $1)`,
    [silentSince],
  );
  const silent = rows.map((row) => row.locked_by);
  if (silent.length > 0)
    await pool.query('select graphile_worker.force_unlock_workers($1::text[])', [silent]);
  await pool.query('delete from plateday_queue.heartbeat where seen_at < $1', [
    now.subtract({ hours: 24 }).toString(),
  ]);
  return silent;
}
