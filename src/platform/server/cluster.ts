// The files of our database cluster: where they lie, whose they are, the passwords, the first set-up,
// and the note of which process uses them. Runs no server.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  chmodSync,
  existsSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { SystemRandom } from '../clock.js';
import { canEnter, giveTo, isRoot, type OsUser, SELF, serviceUser } from './os-user.js';
import { startOf } from './processes.js';
import { type Programs, programEnv } from './programs.js';
import { lastLines, ServerError } from './server-error.js';

export interface Cluster {
  /** Our folder around the data: passwords, log, owner, perhaps a copy of the programs. */
  base: string;
  /** PostgreSQL's data directory; it is there only once its set-up has finished. */
  data: string;
  /** Whom the data belong to and the server runs as. */
  user: OsUser;
}

export interface Passwords {
  postgres: string;
  plateday: string;
}

/**
 * The data lie in `home`. If root starts Plateday and PostgreSQL's user cannot reach `home` (a
 * checkout under root's private home), they lie in /var/lib, and a text file in `home` says where.
 */
export function locateCluster(home: string): Cluster {
  mkdirSync(join(home, 'postgres'), { recursive: true });
  const own = realpathSync(join(home, 'postgres'));
  const note = join(own, 'data-is-in.txt');
  const base = existsSync(note) ? readFileSync(note, 'utf8').trim() : own;
  const data = join(base, 'data');
  const user = clusterUser(data);
  if (!isRoot() || canEnter(user, base)) return { base, data, user };
  if (existsSync(data))
    throw new ServerError(`PostgreSQL's user can no longer enter ${base}: open the folders above it again.`);
  const away = join('/var/lib', `plateday-${createHash('sha256').update(own).digest('hex').slice(0, 12)}`);
  mkdirSync(away, { recursive: true });
  chmodSync(away, 0o755);
  writeFileSync(note, `${away}\n`);
  return { base: away, data: join(away, 'data'), user: clusterUser(join(away, 'data')) };
}

/** Existing data keep their owner; root's own (say, a copy put back) are given to the service user. */
function clusterUser(data: string): OsUser {
  if (!existsSync(data)) return isRoot() ? serviceUser() : SELF;
  const { uid, gid } = statSync(data);
  if (!isRoot()) {
    if (uid === process.geteuid?.()) return SELF;
    throw new ServerError(
      `The data in ${data} belong to another user of this machine: start Plateday as root or as that user.`,
    );
  }
  if (uid !== 0) return { uid, gid };
  const user = serviceUser();
  giveTo(user, data);
  return user;
}

/**
 * Notes that `pid` uses the cluster; returns what takes the note away again.
 * @throws ServerError in_use while the process noted before still lives.
 */
export function claimCluster(base: string, pid: number): () => void {
  const file = join(base, 'owner');
  const mine = `${file}-${process.pid}`;
  writeFileSync(mine, `${pid} ${startOf(pid)}`);
  try {
    for (let tries = 0; tries < 3; tries++) {
      const [other, since] = readOwner(file);
      if (other && startOf(other) === since)
        throw new ServerError(
          `The database in ${base} is already in use by the running process ${other}.`,
          'in_use',
        );
      rmSync(file, { force: true });
      if (linkIfFree(mine, file)) return once(() => rmSync(file, { force: true }));
    }
    throw new ServerError(`Another start is using the database in ${base}.`, 'in_use');
  } finally {
    rmSync(mine, { force: true });
  }
}

/** After the first call the note may be another process's. */
function once(act: () => void): () => void {
  let done = false;
  return () => {
    if (!done) act();
    done = true;
  };
}

function readOwner(file: string): [number, string | undefined] {
  if (!existsSync(file)) return [0, undefined];
  const [pid, since] = readFileSync(file, 'utf8').split(/ (.*)/);
  return [Number(pid), since];
}

/** A link appears whole or not at all, and only one of two starters gets it. */
function linkIfFree(from: string, to: string): boolean {
  try {
    linkSync(from, to);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
}

/** Kept beside the data, readable by who starts Plateday only; made at the first start. */
export function clusterPasswords({ base, data }: Cluster): Passwords {
  const file = join(base, 'passwords.json');
  if (existsSync(file)) return JSON.parse(readFileSync(file, 'utf8')) as Passwords;
  if (existsSync(data))
    throw new ServerError(
      `The passwords of the database are missing: put ${file} back, or move ${data} away to begin with an empty one.`,
    );
  const word = () => new SystemRandom().bytes(24).toString('base64url');
  const passwords = { postgres: word(), plateday: word() };
  writeFileSync(`${file}.new`, JSON.stringify(passwords), { mode: 0o600, flush: true });
  renameSync(`${file}.new`, file);
  return passwords;
}

/**
 * Sets the data up where there are none, and checks that the programs can read those that are there.
 * @throws ServerError other_version, or failed with PostgreSQL's own last lines.
 */
export function prepareData(cluster: Cluster, programs: Programs, passwords: Passwords, fast: boolean): void {
  removeUnfinished(cluster.base);
  if (!existsSync(cluster.data)) initData(cluster, programs, passwords, fast);
  const made = readFileSync(join(cluster.data, 'PG_VERSION'), 'utf8').trim();
  if (Number(made) !== programs.major)
    throw new ServerError(
      `The data in ${cluster.data} were made by PostgreSQL ${made}, and this is PostgreSQL ${programs.major}: ` +
        `start once more with PG_BIN_DIR naming the programs of PostgreSQL ${made}, make a backup, move the data away, start again and restore it.`,
      'other_version',
    );
}

/** What set-ups that were cut short have left. One may still be writing; the next start removes it then. */
function removeUnfinished(base: string): void {
  for (const name of readdirSync(base).filter((name) => name.startsWith('setup-'))) {
    try {
      rmSync(join(base, name), { recursive: true, force: true });
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'ENOTEMPTY') throw error;
    }
  }
}

/** Works in a folder of its own, and moves the data into place when done: half a set-up is never mistaken for a whole one. */
function initData(
  { base, data, user }: Cluster,
  programs: Programs,
  passwords: Passwords,
  fast: boolean,
): void {
  const setup = mkdtempSync(join(base, 'setup-'));
  writeFileSync(join(setup, 'password'), passwords.postgres, { mode: 0o600 });
  giveTo(user, setup);
  const args = ['-D', join(setup, 'data'), '-U', 'postgres', `--pwfile=${join(setup, 'password')}`];
  args.push('--auth=scram-sha-256', '--encoding=UTF8', '--data-checksums', '--no-instructions');
  args.push(
    ...(programs.major >= 17
      ? ['--locale=C', '--locale-provider=builtin', '--builtin-locale=C.UTF-8']
      : ['--locale=C.UTF-8']),
  );
  if (fast) args.push('--no-sync');
  const run = spawnSync(join(programs.bin, 'initdb'), args, {
    encoding: 'utf8',
    cwd: '/',
    env: programEnv(),
    ...user,
  });
  if (run.status === 0) renameSync(join(setup, 'data'), data);
  rmSync(setup, { recursive: true, force: true });
  if (run.status !== 0)
    throw new ServerError(
      `PostgreSQL could not set up its data in ${base}: ${run.error?.message ?? lastLines(run.stderr)}.`,
    );
}
