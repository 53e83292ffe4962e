// A whole Plateday on a database of its own, with a clock that stands still until told, and mail kept
// in a list. What the tests of acts and doors run on; nothing in it pretends to be the database.
import 'reflect-metadata';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { AppModule } from '../../src/app.module.js';
import { buildApp } from '../../src/platform/app.js';
import { Clock, SystemRandom } from '../../src/platform/clock.js';
import { type Config, readConfig } from '../../src/platform/config.js';
import { Db } from '../../src/platform/db/db.js';
import { Jobs } from '../../src/platform/jobs/registry.js';
import { Mailer, type Message } from '../../src/platform/mailer.js';
import { createTestDatabase, type TestDatabase } from './postgres.js';
import { queuePool, workOnce } from './queue.js';

export class StoppedClock extends Clock {
  constructor(private at: Temporal.Instant) {
    super();
  }
  now(): Temporal.Instant {
    return this.at;
  }
  set(to: string): void {
    this.at = Temporal.Instant.from(to);
  }
  forward(time: Temporal.DurationLike): void {
    this.at = this.at.add(time);
  }
}

/** Keeps what was sent; `failures` make the next sends fail as a mail server would. `further` sends it as well. */
export class KeptMail extends Mailer {
  readonly sent: Message[] = [];
  readonly failures: Error[] = [];
  further: Mailer | null = null;
  async send(message: Message): Promise<void> {
    const failure = this.failures.shift();
    if (failure) throw failure;
    await this.further?.send(message);
    this.sent.push(message);
  }
  close(): void {}
}

export interface TestHouse {
  app: NestFastifyApplication;
  config: Config;
  clock: StoppedClock;
  db: Db;
  mail: KeptMail;
  database: TestDatabase;
  /** Opens a door on a free port of this machine, which mails and feeds then name. @returns its address */
  listen(): Promise<string>;
  /** Runs the jobs that are due until none is left. */
  work(): Promise<void>;
  close(): Promise<void>;
}

/** @param o.database one that is there already; else it has its own */
export async function openTestHouse(
  o: { now?: string; env?: NodeJS.ProcessEnv; pool?: number; database?: TestDatabase } = {},
): Promise<TestHouse> {
  const database = o.database ?? (await createTestDatabase());
  const random = new SystemRandom();
  const config = readConfig(
    {
      PUBLIC_URL: 'http://localhost:4180',
      SECRET_KEY: 'a key for tests only, of good length',
      FORM_LIMIT_PER_MINUTE: '100000',
      RATE_LIMIT_PER_MINUTE: '100000',
      SIGN_IN_TRIES: '100000',
      UNDO_SECONDS: '0',
      ...o.env,
    },
    random,
  );
  const clock = new StoppedClock(Temporal.Instant.from(o.now ?? '2026-11-25T10:00:00Z'));
  const db = await Db.connect(database.url, random, o.pool ?? 10);
  const jobs = new Jobs(clock);
  const mail = new KeptMail();
  const platform = { config, clock, random, db, jobs, mailer: mail };
  const app = await buildApp(AppModule.with(platform), platform);
  app.useLogger(['error', 'fatal']); // refusals are what many tests are about
  const queue = queuePool(database.url, 2);
  return {
    app,
    config,
    clock,
    db,
    mail,
    database,
    async listen() {
      await app.listen(0, '127.0.0.1');
      const { port } = app.getHttpServer().address() as { port: number };
      config.publicUrl = `http://127.0.0.1:${port}`;
      return config.publicUrl;
    },
    work: () => workOff(queue, jobs, clock),
    async close() {
      await app.close();
      await db.close();
      await queue.end();
      await database.drop();
    },
  };
}

/**
 * The queue asks the machine for the time, so while it works it is told that of the test's clock: what a test does is the
 * same on every day.
 */
const workOff = (pgPool: pg.Pool, jobs: Jobs, clock: Clock) => onClock(clock, () => workOnce(pgPool, jobs));

const MachineDate = Date;
let working = 0;

/** Runs an act while `new Date()` and `Date.now()` are the clock's. */
async function onClock(clock: Clock, act: () => Promise<void>): Promise<void> {
  const now = () => clock.now().epochMilliseconds;
  class ClockDate extends MachineDate {
    constructor(...given: unknown[]) {
      super(...((given.length > 0 ? given : [now()]) as [number]));
    }
    static override now = now;
    static override [Symbol.hasInstance](value: unknown): boolean {
      return value instanceof MachineDate;
    }
  }
  working += 1;
  globalThis.Date = ClockDate as DateConstructor;
  try {
    await act();
  } finally {
    working -= 1;
    if (working === 0) globalThis.Date = MachineDate;
  }
}
