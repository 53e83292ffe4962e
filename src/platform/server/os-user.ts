// Which user of the machine PostgreSQL runs as: it refuses root, so a start by root steps down.
import { spawnSync } from 'node:child_process';
import { ServerError } from './server-error.js';

/** Spread into spawn options; empty for the user who starts Plateday. */
export type OsUser = { uid: number; gid: number } | Record<never, never>;

export const SELF: OsUser = {};

export const isRoot = (): boolean => process.geteuid?.() === 0;

/**
 * For a start by root: the user `postgres` where the machine has one, else `nobody`.
 * @throws ServerError when it has neither.
 */
export function serviceUser(): OsUser {
  for (const name of ['postgres', 'nobody']) {
    const { stdout } = spawnSync('/bin/sh', ['-c', 'id -u "$0" && id -g "$0"', name], { encoding: 'utf8' });
    const [uid, gid] = stdout.split('\n').map(Number);
    if (uid && gid) return { uid, gid };
  }
  throw new ServerError(
    'PostgreSQL refuses to run as root, and this machine has no user postgres or nobody to run it as.',
  );
}

/** Tried for real, as that user: modes of all parents, mount options and the like count. */
export function canEnter(user: OsUser, folder: string): boolean {
  return spawnSync('/bin/sh', ['-c', 'cd "$0"', folder], { cwd: '/', ...user }).status === 0;
}

/** Gives a folder and all in it to the user; nothing for SELF. */
export function giveTo(user: OsUser, folder: string): void {
  if (!('uid' in user)) return;
  const { status, stderr } = spawnSync('chown', ['-R', `${user.uid}:${user.gid}`, folder], {
    encoding: 'utf8',
  });
  if (status !== 0)
    throw new ServerError(`${folder} cannot be given to PostgreSQL's user: ${stderr.trim()}.`);
}
