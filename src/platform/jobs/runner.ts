// The job process: takes jobs from the queue and runs their handlers. Several may run at once.
// Each beats every ten seconds; the jobs of a worker silent for a minute are freed for the others.
import { EventEmitter } from 'node:events';
import { Logger, run, type WorkerEvents } from 'graphile-worker';
import pg from 'pg';
import type { Clock } from '../clock.js';
import { JOBS_ROLE } from '../db/migrate.js';
import type { Jobs } from './registry.js';

const BEAT_MS = 10_000;
const SILENT_MS = 60_000;

export interface Runner {
  stop(): Promise<void>;
}

export async function startRunner(o: {
  url: string;
  jobs: Jobs;
  clock: Clock;
  log: (line: string) => void;
  concurrency?: number;
}): Promise<Runner> {
  const pgPool = new pg.Pool({
    connectionString: o.url,
    max: 6,
    options: `-c role=${JOBS_ROLE} -c timezone=UTC`,
  });
  pgPool.on('error', (error) => o.log(`The queue lost a connection: ${error.message}`));
  pgPool.on('connect', (connection) => connection.on('error', () => {})); // told by the pool
  const alive = new Set<string>();
  const events: WorkerEvents = new EventEmitter();
  events.on('worker:create', ({ worker }) => alive.add(worker.workerId));
  events.on('job:error', ({ job, error }) =>
    o.log(
      `The job ${job.task_identifier} failed (try ${job.attempts} of ${job.max_attempts}): ${words(error)}`,
    ),
  );
  const runner = await run({
    pgPool,
    events,
    taskList: o.jobs.taskList(),
    concurrency: o.concurrency ?? 3,
    noHandleSignals: true,
    useNodeTime: true,
    pollInterval: 2_000,
    logger: new Logger(() => (level, message) => {
      if (level === 'error' && !/^Failed task/.test(message)) o.log(message);
    }),
  });
  const beat = () =>
    heartbeat(pgPool, [...alive], o.clock).catch((error) => o.log(`The heartbeat failed: ${words(error)}`));
  await beat();
  const timer = setInterval(() => void beat(), BEAT_MS);
  return {
    async stop() {
      clearInterval(timer);
      await runner.stop();
      await pgPool.end();
    },
  };
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

const words = (error: unknown) => (error instanceof Error ? error.message : String(error));
