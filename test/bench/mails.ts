// How many letters a second a worker sends, and how much two do of it: real workers, each a process of its own, on a server
// set up as in use, each letter a yes with its invitation. The mail server is ours, and takes what it is handed.
import { type ChildProcess, fork, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { type AddressObject, simpleParser } from 'mailparser';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { AppModule } from '../../src/app.module.js';
import { SystemClock } from '../../src/platform/clock.js';
import { openHouse } from '../../src/platform/house.js';
import type { Message } from '../../src/platform/mailer.js';
import { startServer } from '../../src/platform/server/launcher.js';
import { Composing } from '../../src/reminders/composing.service.js';
import type { TestHouse } from '../support/house.js';
import { type MeanServer, meanMailServer } from '../support/mean-mail.js';
import { foundTestStudio } from '../support/studio.js';
import { drawPeople, enterPeople } from '../support/year-people.js';
import type { Errand } from './mail-alone.js';

/** A second, of one worker into a mail server that answers at once. */
export const LEAST_LETTERS = 500;
/** The same, of what nodemailer alone sends of such letters (see mail-alone.ts). */
export const LEAST_OF_ALONE = 0.5;
/** What two workers send, of what one does, where the mail server takes fifty milliseconds for each letter. */
export const LEAST_OF_TWO = 1.6;

const LETTERS = { atOnce: 1_500, slow: 300 };
/** So many runs at once go before the one that counts: the engine is still compiling. */
const WARMING_RUNS = 2;
/** Of each run so many are not counted. */
const WARMING = 0.2;
const SLOW_MS = 50;

export interface MailRates {
  letters: number;
  alone: number;
  one: number;
  two: number;
}

/** What is put on the queue by it waits for the run to begin. */
class Tomorrow extends SystemClock {
  override now(): Temporal.Instant {
    return super.now().add({ hours: 24 });
  }
}

export async function mailRates(): Promise<MailRates> {
  const home = mkdtempSync(join(tmpdir(), 'plateday-bench-'));
  const server = await startServer({ home, log: () => {} });
  await server.ensureDatabase('plateday', { fresh: true });
  let delay = 0;
  const sink = await meanMailServer(async () => {
    times.push(performance.now());
    if (delay > 0) await sleep(delay);
    return 'take' as const;
  });
  const times: number[] = [];
  const env = {
    ...process.env,
    DATABASE_URL: server.url('plateday'),
    SMTP_URL: sink.url,
    MAIL_FROM: 'studio@bench.example',
    SECRET_KEY: 'a key for the bench only, of good length',
    PLATEDAY_HOME: home,
  };
  const admin = new pg.Client({ connectionString: server.adminUrl('plateday') });
  const house = await openHouse({
    env,
    database: 'plateday',
    clock: new Tomorrow(),
    root: AppModule.with,
    web: false,
    worker: false,
    log: () => {},
  });
  const workers: ChildProcess[] = [];
  try {
    await admin.connect();
    const { app, platform } = house;
    const letters = lettersOf({ app, db: platform.db, clock: platform.clock } as unknown as TestHouse, admin);
    const run = async (count: number) => {
      await letters(count);
      times.length = 0;
      await admin.query(`update graphile_worker._private_jobs set run_at = now() where task_id in
        (select id from graphile_worker._private_tasks where identifier = 'mail.send')`);
      await admin.query(`select pg_notify('jobs:insert', '{"r": "bench", "count": 100}')`);
      while (times.length < count) await sleep(20);
      const from = Math.floor(count * WARMING);
      return ((count - 1 - from) * 1_000) / ((times.at(-1) ?? 0) - (times[from] ?? 0));
    };
    workers.push(await startWorker(env));
    for (let warming = 0; warming < WARMING_RUNS; warming++) await run(LETTERS.atOnce);
    const atOnce = await run(LETTERS.atOnce);
    const alone = await nodemailerAlone(sink);
    delay = SLOW_MS;
    const one = await run(LETTERS.slow);
    workers.push(await startWorker(env));
    const two = await run(LETTERS.slow);
    return { letters: atOnce, alone, one, two };
  } finally {
    for (const worker of workers) {
      const ended = once(worker, 'exit');
      worker.kill('SIGTERM');
      await ended;
    }
    await house.close();
    await admin.end();
    await sink.close();
    await server.stop();
    rmSync(home, { recursive: true, force: true });
  }
}

/** Of letters such as the last that was handed over. */
async function nodemailerAlone({ url, handed }: MeanServer): Promise<number> {
  const child = fork(new URL('./mail-alone.js', import.meta.url));
  const errand: Errand = {
    url,
    letter: await letterOf(handed.at(-1)?.raw ?? ''),
    count: LETTERS.atOnce,
    runs: WARMING_RUNS + 1,
  };
  child.send(errand);
  const ended = once(child, 'exit').then(() => {
    throw new Error('nodemailer alone came to no end.');
  });
  const [rate] = (await Promise.race([once(child, 'message'), ended])) as [number];
  return rate;
}

async function letterOf(raw: string): Promise<Message> {
  const { from, to, replyTo, subject = '', text = '', html, attachments } = await simpleParser(raw);
  const person = (address: AddressObject | undefined) => {
    const [one] = address?.value ?? [];
    return { name: one?.name ?? '', address: one?.address ?? '' };
  };
  return {
    from: person(from),
    to: person([to].flat()[0]),
    replyTo: person(replyTo).address,
    subject,
    text,
    html: html || '',
    messageId: '',
    invitation: { method: 'REQUEST', content: attachments.at(-1)?.content.toString() ?? '' },
  };
}

async function startWorker(env: NodeJS.ProcessEnv): Promise<ChildProcess> {
  const worker = spawn(process.execPath, ['dist/src/worker.js'], {
    env,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let told = '';
  for await (const part of worker.stdout) {
    told += String(part);
    if (told.includes('The worker is ready.')) break;
  }
  return worker;
}

/** Writes so many letters of people who have just got a place, to be sent once somebody says so. */
function lettersOf(house: TestHouse, admin: pg.Client): (count: number) => Promise<void> {
  let studios = 0;
  return async (count) => {
    const studio = await foundTestStudio(house, { slug: `bench-${++studios}` });
    const from = Temporal.PlainDate.from(house.clock.now().toString().slice(0, 10)).add({ days: 30 });
    const people = drawPeople(house, { from, days: 320, count, seed: studios, fails: 0 });
    for (const one of people) one.reachBy = 'email';
    await enterPeople(house, studio, people);
    await admin.query(`delete from graphile_worker._private_jobs where key like '%:place.changed:%'`);
    const composing = house.app.get(Composing);
    const left = [...people];
    const lane = async () => {
      for (let one = left.shift(); one; one = left.shift()) {
        const { sittingId, occupancyId } = one;
        const change = {
          studioId: studio.id,
          sittingId,
          occupancyId,
          change: 'confirmed' as const,
          sequence: 1,
        };
        await house.db.inStudio(studio.id, (tx) => composing.aboutChange(tx, change));
      }
    };
    await Promise.all(Array.from({ length: 8 }, lane));
  };
}
