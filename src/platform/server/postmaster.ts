// Starts and stops the PostgreSQL server process of one data directory, and clears away what an
// earlier one left. Knows nothing of databases and logins.
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { closeSync, existsSync, openSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import type { Cluster } from './cluster.js';
import { exists, hasArgument } from './processes.js';
import { type Programs, programEnv } from './programs.js';
import { ServerError } from './server-error.js';

const STOP_SECONDS = 60;
const START_SECONDS = 300; // recovery after a power cut may take its time

const SETTINGS = {
  listen_addresses: '127.0.0.1',
  unix_socket_directories: '',
  timezone: 'UTC',
  log_timezone: 'UTC',
  shared_buffers: '64MB',
  max_connections: '120',
  log_min_messages: 'log', // errors reach the program itself; their details would put personal data in the log
  log_checkpoints: 'off',
};
const FAST = { fsync: 'off', full_page_writes: 'off', synchronous_commit: 'off' };

/** What the server said since the last start; that of the start before is kept as server.log.1. */
export const serverLog = (base: string): string => join(base, 'server.log');

/** Lines of postmaster.pid, from PostgreSQL's miscadmin.h (LOCK_FILE_LINE_...), counted from 0. */
const PID_LINE = 0;
const STATUS_LINE = 7;

/**
 * Stops a server that outlived its program, and sees to a pid file that PostgreSQL would trip over.
 * @throws ServerError when an old server does not stop.
 */
export async function clearOldServer({ base, data }: Cluster, log: (line: string) => void): Promise<void> {
  if (existsSync(serverLog(base))) renameSync(serverLog(base), `${serverLog(base)}.1`);
  const file = join(data, 'postmaster.pid');
  const [line] = pidFile(data);
  if (line === '') rmSync(file); // the power failed while it was written; PostgreSQL would not start
  const pid = Number(line);
  if (!pid || !exists(pid)) return; // PostgreSQL itself sees to the file of a dead server
  if (hasArgument(pid, data)) {
    log(`Stopping the PostgreSQL server (process ${pid}) that an earlier run left behind`);
    await stopOldServer(pid, data);
    return;
  }
  // The number is a zombie's or a stranger's now, and PostgreSQL would wait for it. The number of its
  // own parent it passes over, and still looks whether other processes use the data (CreateLockFile in
  // PostgreSQL's miscinit.c).
  writeFileSync(file, readFileSync(file, 'utf8').replace(/^\d+/, String(process.pid)));
}

async function stopOldServer(pid: number, data: string): Promise<void> {
  try {
    process.kill(pid, 'SIGINT');
  } catch (error) {
    throw new ServerError(
      `An old PostgreSQL server (process ${pid}) is running and cannot be stopped: ${(error as Error).message}.`,
      'in_use',
    );
  }
  for (let waited = 0; waited < STOP_SECONDS * 100; waited++) {
    if (!hasArgument(pid, data)) return; // ended, even if nobody has collected it yet
    await sleep(10);
  }
  throw new ServerError(
    `The old PostgreSQL server (process ${pid}) has not stopped in ${STOP_SECONDS} seconds: stop it, then start again.`,
    'in_use',
  );
}

/** Starts the server; resolves to its process once it takes connections, or to what it said when it would not start. */
export async function startPostmaster(
  cluster: Cluster,
  programs: Programs,
  port: number,
  fast: boolean,
): Promise<ChildProcess | string> {
  const logFile = serverLog(cluster.base);
  const log = openSync(logFile, 'w', 0o600);
  const settings = Object.entries(fast ? { ...SETTINGS, ...FAST } : SETTINGS);
  const args = [
    '-D',
    cluster.data,
    '-p',
    String(port),
    ...settings.flatMap(([name, value]) => ['-c', `${name}=${value}`]),
  ];
  const child = spawn(join(programs.bin, 'postgres'), args, {
    cwd: '/',
    detached: true, // Ctrl-C in the terminal is for us; we stop the server, once
    env: programEnv(),
    stdio: ['ignore', log, log],
    ...cluster.user,
  });
  closeSync(log);
  child.unref();
  let failure = '';
  child.once('error', (error) => (failure = error.message));
  for (let waited = 0; waited < START_SECONDS * 100; waited++) {
    await sleep(10);
    if (failure !== '') return failure;
    if (hasExited(child)) return readFileSync(logFile, 'utf8');
    const lines = pidFile(cluster.data);
    if (Number(lines[PID_LINE]) === child.pid && lines[STATUS_LINE]?.trim() === 'ready') return child;
  }
  child.kill('SIGINT');
  return `it was not ready after ${START_SECONDS} seconds`;
}

const hasExited = (child: ChildProcess): boolean => child.exitCode !== null || child.signalCode !== null;

/** PostgreSQL's fast shutdown: sessions end, nothing is lost. Waits as long as it takes. */
export async function stopPostmaster(child: ChildProcess): Promise<void> {
  if (hasExited(child)) return;
  child.ref();
  const gone = once(child, 'exit');
  child.kill('SIGINT');
  await gone;
}

function pidFile(data: string): string[] {
  try {
    return readFileSync(join(data, 'postmaster.pid'), 'utf8').split('\n');
  } catch {
    return [];
  }
}
