// The built demo as a process of its own, in a process group of its own, as from a terminal.
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';

const CHECKOUT = join(import.meta.dirname, '../..');
const PROGRAM = join(CHECKOUT, 'dist/seed/demo.js');

/** Builds the program unless what is built is newer than every source. */
export function ensureBuilt(): void {
  const files = ['src', 'seed', 'package.json'].flatMap((name) => {
    const path = join(CHECKOUT, name);
    if (!statSync(path).isDirectory()) return [path];
    return readdirSync(path, { recursive: true }).map((file) => join(path, String(file)));
  });
  const newest = Math.max(...files.map((file) => statSync(file).mtimeMs));
  if (existsSync(PROGRAM) && statSync(PROGRAM).mtimeMs > newest) return;
  const built = spawnSync('npm', ['run', '-s', 'build'], { cwd: CHECKOUT, encoding: 'utf8' });
  if (built.status !== 0) throw new Error(`The program cannot be built: ${built.stdout}${built.stderr}`);
}

export class DemoProcess {
  said = '';
  complained = '';
  /** The exit code, once the process has ended. */
  readonly ended: Promise<number | null>;
  private readonly child: ChildProcess;

  constructor(env: Record<string, string>, ...options: string[]) {
    const { PATH = '', TEST_PG_BIN_DIR } = process.env;
    const programs: Record<string, string> = TEST_PG_BIN_DIR ? { PG_BIN_DIR: TEST_PG_BIN_DIR } : {};
    this.child = spawn(process.execPath, ['--enable-source-maps', PROGRAM, ...options], {
      cwd: CHECKOUT,
      env: { PATH, ...programs, ...env },
      stdio: ['ignore', 'pipe', 'pipe'],
      detached: true,
    });
    this.child.stdout?.on('data', (part) => {
      this.said += String(part);
    });
    this.child.stderr?.on('data', (part) => {
      this.complained += String(part);
    });
    this.ended = new Promise((done) => this.child.once('close', done));
  }

  /** Waits for the links. @throws Error with all that was said, when the process ends before */
  async open(): Promise<void> {
    const told = new Promise<true>((done) => {
      const look = () => this.said.includes('All links are in') && done(true);
      this.child.stdout?.on('data', look);
      look();
    });
    if ((await Promise.race([told, this.ended])) !== true)
      throw new Error(`The demo ended: ${this.said}${this.complained}`);
  }

  /** Ctrl-C: a terminal signals the whole group, and npm passes it on once more. */
  interrupt(): Promise<number | null> {
    this.signal('SIGINT');
    this.signal('SIGINT');
    return this.ended;
  }

  /** For a test that failed: ends it at once, with its PostgreSQL. */
  async discard(): Promise<void> {
    if (this.child.exitCode !== null || this.child.signalCode !== null) return;
    this.signal('SIGINT');
    await Promise.race([this.ended, sleep(1500)]);
    this.signal('SIGINT');
    await this.ended;
  }

  signal(name: NodeJS.Signals): void {
    if (this.child.pid !== undefined && this.child.exitCode === null) process.kill(-this.child.pid, name);
  }
}
