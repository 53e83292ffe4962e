// The queue as a worker reaches it, for tests that look into it, and waiting for what a running worker does.
import { setTimeout as sleep } from 'node:timers/promises';
import { Logger, runOnce } from 'graphile-worker';
import pg from 'pg';
import { JOBS_ROLE } from '../../src/platform/db/migrate.js';
import type { Jobs } from '../../src/platform/jobs/registry.js';
import { SETTLING } from '../../src/platform/jobs/runner.js';

/** Connections of the queue's own role; that one of them breaks off is no failure. */
export function queuePool(url: string, max: number): pg.Pool {
  const pool = new pg.Pool({
    connectionString: url,
    max,
    options: `-c role=${JOBS_ROLE} -c timezone=UTC`,
  });
  pool.on('error', () => {});
  pool.on('connect', (connection) => connection.on('error', () => {}));
  return pool;
}

/** Does what is due, as a worker would; how each job went is noted before this ends. */
export async function workOnce(pgPool: pg.Pool, jobs: Jobs): Promise<void> {
  await runOnce({
    pgPool,
    taskList: jobs.taskList(),
    noHandleSignals: true,
    useNodeTime: true,
    preset: SETTLING,
    logger: new Logger(() => () => {}),
  });
}

/** Waits until it is so; the test's own time limit ends what never comes. */
export async function until(come: () => boolean | Promise<boolean>): Promise<void> {
  while (!(await come())) await sleep(10);
}
