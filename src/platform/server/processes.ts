// What the machine says about a process. /proc where there is one, else ps (macOS).
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';

/** Whether the number is taken at all, be it by a zombie or another user's process. */
export function exists(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/**
 * When a process was started, in the machine's own words, so that a number used again is told apart;
 * null if it does not run. A zombie does not run.
 */
export function startOf(pid: number): string | null {
  if (existsSync('/proc/self/stat')) {
    const fields = read(`/proc/${pid}/stat`).split(') ').at(-1)?.split(' ') ?? []; // proc_pid_stat(5), from field 3 on
    return fields[0] === 'Z' ? null : (fields[19] ?? null);
  }
  const [state, start] = ps(pid, 'stat=', 'lstart=').split(/\s+(.*)/);
  return state?.startsWith('Z') ? null : (start ?? null);
}

/** Whether the process runs with this very word among its arguments; false for a zombie. */
export function hasArgument(pid: number, word: string): boolean {
  if (existsSync('/proc/self/cmdline')) return read(`/proc/${pid}/cmdline`).split('\0').includes(word);
  return ` ${ps(pid, 'command=')} `.includes(` ${word} `);
}

function read(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return '';
  }
}

function ps(pid: number, ...columns: string[]): string {
  const args = ['-ww', ...columns.flatMap((column) => ['-o', column]), '-p', String(pid)];
  const { error, stdout } = spawnSync('ps', args, { encoding: 'utf8' });
  return error ? '' : stdout.trim();
}
