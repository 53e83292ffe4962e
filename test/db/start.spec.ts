// The demo from its first start to its last, as a person at a terminal meets it: links, a second start,
// Ctrl-C, a warm start, a taken port, starting over; and on a PostgreSQL and a mail server that are given.
import { chmodSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { type AddressInfo, createServer, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { SMTPServer } from 'smtp-server';
import { ASSISTANT, OWNER } from '../../seed/kittiwake-yard.js';
import { startServer } from '../../src/platform/server/launcher.js';
import { DemoProcess, ensureBuilt } from '../support/demo-process.js';
import { processesNaming } from '../support/launcher-host.js';

const PATIENCE = 120_000;
const folder = mkdtempSync(join(tmpdir(), 'plateday-start-'));
chmodSync(folder, 0o755);
const home = join(folder, 'home');
const demos: DemoProcess[] = [];

function start(env: Record<string, string>, ...options: string[]): DemoProcess {
  const demo = new DemoProcess({ PLATEDAY_HOME: home, PORT: '0', ...env }, ...options);
  demos.push(demo);
  return demo;
}

beforeAll(ensureBuilt, PATIENCE);

afterAll(async () => {
  for (const demo of demos) await demo.discard();
  const left = processesNaming(folder);
  rmSync(folder, { recursive: true, force: true });
  expect(left).toEqual([]);
}, PATIENCE);

interface Links extends Record<string, string> {
  base: string;
  publicPage: string;
  ownerSignIn: string;
  assistantSignIn: string;
  sitterPage: string;
  ownerFeed: string;
  sitterFeed: string;
  mailFolder: string;
}

const linksIn = (place: string) => JSON.parse(readFileSync(join(place, 'demo-links.json'), 'utf8')) as Links;
const pathOf = (url: string) => new URL(url).pathname;

interface Sitting {
  id: string;
  state: string;
  contact: string;
}

/** Someone of the studio at the API. */
async function staffAt({ base }: Links, { email, password }: { email: string; password: string }) {
  const api = `${base}/api/v1/s/kittiwake-yard`;
  const headers = { 'content-type': 'application/json' };
  const body = JSON.stringify({ email, password });
  const answer = await fetch(`${api}/sessions`, { method: 'POST', headers, body });
  expect(answer.status).toBe(201);
  const { token } = (await answer.json()) as { token: string };
  const signed = { ...headers, authorization: `Bearer ${token}` };
  return {
    requests: async () =>
      (await (await fetch(`${api}/requests`, { headers: signed })).json()) as Promise<Sitting[]>,
    decline: (id: string, message: string) =>
      fetch(`${api}/requests/${id}/decline`, {
        method: 'POST',
        headers: signed,
        body: JSON.stringify({ message }),
      }),
  };
}

async function countedStates(links: Links): Promise<Record<string, number>> {
  const counts: Record<string, number> = {};
  for (const { state } of await (await staffAt(links, OWNER)).requests())
    counts[state] = (counts[state] ?? 0) + 1;
  return counts;
}

/** Waits until it is so, for half a minute at most. */
async function until(so: () => boolean): Promise<void> {
  for (let waited = 0; !so() && waited < 300; waited++) await sleep(100);
  expect(so()).toBe(true);
}

it(
  'opens with its studio, its people and its links, and no second time beside itself',
  async () => {
    const demo = start({});
    await demo.open();
    const links = linksIn(home);
    expect(Object.keys(links)).toEqual([
      'base',
      'publicPage',
      'ownerSignIn',
      'assistantSignIn',
      'sitterPage',
      'studentPage',
      'ownerFeed',
      'sitterFeed',
      'assistantFeed',
      'studentFeed',
      'workshopsFeed',
      'mailFolder',
    ]);
    const { base: _base, mailFolder, ...doors } = links;
    for (const [name, url] of Object.entries(doors)) {
      expect(demo.said).toContain(url);
      const answer = await fetch(url);
      expect([name, answer.status]).toEqual([name, 200]);
      const kind = name.endsWith('Feed') ? 'text/calendar' : 'text/html';
      expect(answer.headers.get('content-type')).toContain(kind);
    }
    expect(mailFolder).toBe(join(home, 'mail'));
    expect(demo.said).toContain(mailFolder);
    expect(await countedStates(links)).toEqual({
      requested: 15,
      waiting: 9,
      offered: 2,
      confirmed: 8,
    });
    await staffAt(links, ASSISTANT);
    await until(
      () => existsSync(mailFolder) && readdirSync(mailFolder).some((name) => name.endsWith('.eml')),
    );

    const second = start({});
    expect(await second.ended).toBe(0);
    expect(second.said.trim()).toBe(`The demo is open already: ${links.base}`);
    const third = start({}, '--fresh');
    expect(await third.ended).toBe(1);
    expect(third.said).toContain('Close it first');

    const owner = await staffAt(links, OWNER);
    const adaeze = (await owner.requests()).find(({ contact }) => contact === 'Adaeze Nwosu');
    expect((await owner.decline(adaeze?.id ?? '', 'Not this year.')).status).toBe(204);
    expect(await demo.interrupt()).toBe(0);
    expect(demo.complained).toBe('');
    expect(processesNaming(folder)).toEqual([]);
    expect(existsSync(join(home, 'running.json'))).toBe(false);
  },
  PATIENCE,
);

it(
  'says in one sentence that its port is taken, and leaves nothing running',
  async () => {
    const other = createServer().listen(0, '127.0.0.1');
    await new Promise((done) => other.once('listening', done));
    const { port } = other.address() as AddressInfo;
    const demo = start({ PORT: String(port) });
    expect(await demo.ended).toBe(1);
    expect(demo.complained.trim()).toBe(
      `Port ${port} is taken by another program. Set PORT to another one, or to 0 for any free one.`,
    );
    await new Promise((done) => other.close(done));
    expect(processesNaming(folder)).toEqual([]);
  },
  PATIENCE,
);

it(
  'keeps what was done, and its links, from one start to the next',
  async () => {
    const before = linksIn(home);
    const port = await freePort();
    const began = performance.now();
    const demo = start({ PORT: String(port) });
    const page = `http://localhost:${port}/s/kittiwake-yard`;
    const answers = () =>
      fetch(page).then(
        ({ ok }) => ok,
        () => false,
      );
    while (!(await answers()) && performance.now() - began < PATIENCE / 2) await sleep(10);
    console.log(`Warm start: first page after ${Math.round(performance.now() - began)} ms.`);
    await demo.open();
    const links = linksIn(home);
    expect(await countedStates(links)).toEqual({
      requested: 14,
      waiting: 9,
      offered: 2,
      confirmed: 8,
    });
    expect(links.publicPage).toBe(page);
    expect(pathOf(links.sitterPage)).toBe(pathOf(before.sitterPage));
    expect(pathOf(links.sitterFeed)).toBe(pathOf(before.sitterFeed));
    expect(await demo.interrupt()).toBe(0);
  },
  PATIENCE,
);

it(
  'starts over when asked to; Ctrl-C twice ends it even when a mail server does not answer',
  async () => {
    const callers = new Set<Socket>();
    const mute = createServer((socket) => callers.add(socket)).listen(0, '127.0.0.1');
    await new Promise((done) => mute.once('listening', done));
    const before = linksIn(home);
    const { port } = mute.address() as AddressInfo;
    const demo = start({ SMTP_URL: `smtp://127.0.0.1:${port}`, MAIL_FROM: 'desk@yard.example' }, '--fresh');
    await demo.open();
    const links = linksIn(home);
    expect(await countedStates(links)).toEqual({
      requested: 15,
      waiting: 9,
      offered: 2,
      confirmed: 8,
    });
    expect(pathOf(links.sitterPage)).not.toBe(pathOf(before.sitterPage));
    expect((await fetch(links.base + pathOf(before.sitterPage))).status).toBe(404);
    await until(() => callers.size > 0);
    const ended = demo.interrupt();
    await sleep(1200);
    expect(demo.said).toMatch(/Closing\.\n$/);
    demo.signal('SIGINT');
    expect(await ended).toBe(1);
    await until(() => processesNaming(folder).length === 0);
    for (const socket of callers) socket.destroy();
    await new Promise((done) => mute.close(done));
  },
  PATIENCE,
);

it(
  'uses a PostgreSQL and a mail server that are given',
  async () => {
    const received = new Set<string>();
    const smtp = new SMTPServer({
      authOptional: true,
      disabledCommands: ['STARTTLS'],
      onData(stream, session, done) {
        stream.resume();
        stream.on('end', () => {
          for (const { address } of session.envelope.rcptTo) received.add(address);
          done();
        });
      },
    });
    await new Promise<void>((done) => smtp.listen(0, '127.0.0.1', done));
    const { port } = smtp.server.address() as AddressInfo;
    const binDir = process.env.TEST_PG_BIN_DIR;
    const server = await startServer({
      home: join(folder, 'given'),
      fast: true,
      log: () => {},
      ...(binDir ? { binDir } : {}),
    });
    try {
      await server.ensureDatabase('studio');
      const env = {
        PLATEDAY_HOME: join(folder, 'elsewhere'),
        DATABASE_URL: server.url('studio'),
        SMTP_URL: `smtp://127.0.0.1:${port}`,
        MAIL_FROM: 'desk@yard.example',
      };
      const demo = start(env);
      await demo.open();
      const links = linksIn(env.PLATEDAY_HOME);
      expect(links.mailFolder).toBe(`the mail server 127.0.0.1:${port}`);
      expect(await countedStates(links)).toEqual({
        requested: 15,
        waiting: 9,
        offered: 2,
        confirmed: 8,
      });
      await until(() => received.has('desk@kittiwake-yard.example'));
      await until(() => received.has('aiko.brandt@post.example'));
      expect(readdirSync(env.PLATEDAY_HOME).sort()).toEqual(['demo-links.json', 'running.json', 'secret']);
      expect(await demo.interrupt()).toBe(0);
      const refused = start(env, '--fresh');
      expect(await refused.ended).toBe(1);
      expect(refused.complained).toBe(
        'Starting over is only for the embedded database; DATABASE_URL names another.\n',
      );
      expect(existsSync(join(env.PLATEDAY_HOME, 'postgres'))).toBe(false);
      expect(processesNaming(join(folder, 'given'))).not.toEqual([]);
    } finally {
      await server.stop();
      await new Promise<void>((done) => smtp.close(() => done()));
    }
  },
  PATIENCE,
);

async function freePort(): Promise<number> {
  const probe = createServer().listen(0, '127.0.0.1');
  await new Promise((done) => probe.once('listening', done));
  const { port } = probe.address() as AddressInfo;
  await new Promise((done) => probe.close(done));
  return port;
}
