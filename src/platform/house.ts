// Opens the house: settings, database (embedded or given), migrations, web pages, job worker; and closes
// it again in the opposite order. `npm start`, `npm run demo` and the worker process all come through here.
import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { DynamicModule, INestApplicationContext } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import { z } from 'zod';
import { zoneDataFreshness } from '../lib/zoned-time.js';
import { buildApp } from './app.js';
import { type Clock, SystemClock, SystemRandom } from './clock.js';
import { type Config, HOME, readConfig } from './config.js';
import { Db } from './db/db.js';
import { migrate } from './db/migrate.js';
import { beginNights } from './jobs/night.js';
import { Jobs } from './jobs/registry.js';
import { startRunner } from './jobs/runner.js';
import { mailerFor } from './mailer.js';
import type { Platform } from './platform.module.js';
import { PROBLEMS } from './problems.js';
import { startServer } from './server/launcher.js';

export interface House {
  /** Where the pages are; empty for a worker without pages. */
  base: string;
  platform: Platform;
  app: INestApplicationContext;
  close(): Promise<void>;
}

export interface Opening {
  env: NodeJS.ProcessEnv;
  /** Database of the embedded server; with DATABASE_URL the address names it. */
  database: 'plateday' | 'plateday_demo';
  root: (platform: Platform) => DynamicModule;
  /** The time to go by; the machine's, if not given. */
  clock?: Clock;
  web: boolean;
  worker: boolean;
  /** Start over with an empty database (embedded server only). */
  fresh?: boolean;
  /** Runs when the pages answer and before jobs do, e.g. to load a demo studio. */
  prepare?: (house: Pick<House, 'app' | 'base' | 'platform'>) => Promise<void>;
  log: (line: string) => void;
}

const RUNNING = 'running.json';
const runningHouse = z.object({ base: z.string(), local: z.string(), database: z.string() });

type Closing = () => Promise<void> | void;

/** @throws Error whose message is a sentence for the person at the console */
export async function openHouse(o: Opening): Promise<House> {
  const random = new SystemRandom();
  const config = readConfig(o.env, random);
  const closings: Closing[] = [];
  const close = async () => {
    const failures: unknown[] = [];
    for (const step of closings.splice(0).reverse())
      try {
        await step();
      } catch (error) {
        failures.push(error); // what comes after must be closed all the same
      }
    if (failures.length > 0) throw failures[0];
  };
  try {
    tellZoneData(o.log);
    const url = await databaseUrl(o, config, closings);
    await migrate(url, o.log);
    const platform = await furnish(url, config, random, o.clock ?? new SystemClock(), closings);
    const { app, base } = o.web
      ? await openWeb(o, platform, closings)
      : await openContext(o, platform, closings);
    await o.prepare?.({ app, base, platform });
    if (o.worker) {
      await beginNights(platform.db, platform.jobs, platform.clock);
      const runner = await startRunner({ url, jobs: platform.jobs, clock: platform.clock, log: o.log });
      closings.push(() => runner.stop());
    }
    return { base, platform, app, close };
  } catch (error) {
    await close().catch((failure) => o.log(`Closing failed: ${(failure as Error).message}`));
    throw error;
  }
}

/** Which zone data we go by, and whether they are out of date: a wrong hour is worse than a late start. */
function tellZoneData(log: (line: string) => void): void {
  const { version, stale, old } = zoneDataFreshness(new SystemClock().now());
  log(`Zone data: ${version}.`);
  for (const { zone, release } of stale)
    log(`The zone data are wrong for ${zone} since ${release}: update moment-timezone.`);
  if (old)
    log('The zone data are more than a year old: update moment-timezone, then run npm run zones:rederive.');
}

async function databaseUrl(o: Opening, config: Config, closings: Closing[]): Promise<string> {
  if (config.databaseUrl) {
    if (o.fresh)
      throw new Error('Starting over is only for the embedded database; DATABASE_URL names another.');
    return config.databaseUrl;
  }
  mkdirSync(config.home, { recursive: true });
  const server = await startServer({
    home: config.home,
    log: o.log,
    ...(config.pgBinDir ? { binDir: config.pgBinDir } : {}),
  });
  closings.push(() => server.stop());
  await server.ensureDatabase(o.database, { fresh: o.fresh ?? false });
  return server.url(o.database);
}

async function furnish(
  url: string,
  config: Config,
  random: SystemRandom,
  clock: Clock,
  closings: Closing[],
): Promise<Platform> {
  const db = await Db.connect(url, random);
  closings.push(() => db.close());
  const mailer = mailerFor(config);
  closings.push(() => mailer.close());
  return { config, clock, random, db, jobs: new Jobs(clock), mailer };
}

async function openWeb(
  o: Opening,
  platform: Platform,
  closings: Closing[],
): Promise<Pick<House, 'app' | 'base'>> {
  const { config } = platform;
  const app = await buildApp(o.root(platform), platform);
  closings.push(() => app.close());
  try {
    // Fastify's own: Nest's writes an error of its own before the sentence below.
    await app.getHttpAdapter().getInstance().listen({ port: config.port, host: config.host });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EADDRINUSE') throw error;
    throw new Error(
      `Port ${config.port} is taken by another program. Set PORT to another one, or to 0 for any free one.`,
    );
  }
  const { port } = app.getHttpServer().address() as { port: number };
  if (config.port === 0 && !o.env.PUBLIC_URL) config.publicUrl = `http://localhost:${port}`;
  const local = `http://${config.host === '0.0.0.0' ? '127.0.0.1' : config.host}:${port}`;
  const running = join(config.home, RUNNING);
  mkdirSync(config.home, { recursive: true });
  writeFileSync(`${running}.part`, JSON.stringify({ base: config.publicUrl, local, database: o.database }));
  renameSync(`${running}.part`, running);
  closings.push(() => rmSync(running, { force: true }));
  return { app, base: config.publicUrl };
}

async function openContext(
  o: Opening,
  platform: Platform,
  closings: Closing[],
): Promise<Pick<House, 'app' | 'base'>> {
  const app = await NestFactory.createApplicationContext(o.root(platform), {
    logger: ['error', 'warn'],
    abortOnError: false,
  });
  closings.push(() => app.close());
  return { app, base: '' };
}

/** The address of a house that is open already in this home, or null; asks its own port, not the public address. */
export async function alreadyOpen(
  env: NodeJS.ProcessEnv,
  database: Opening['database'],
): Promise<string | null> {
  try {
    const file = join(env.PLATEDAY_HOME || HOME, RUNNING);
    const running = runningHouse.parse(JSON.parse(readFileSync(file, 'utf8')));
    const answer = await fetch(`${running.local}/healthz`, { signal: AbortSignal.timeout(4000) });
    return (answer.ok || answer.status === PROBLEMS.busy.status) && running.database === database
      ? running.base
      : null;
  } catch {
    return null; // no file, half a file, or nobody answers: left by a process that was killed
  }
}

/**
 * Closes the house on Ctrl-C or a stop request, and ends the process. A second one ends it at once, for a
 * mail server that does not answer; what npm passes on of the first comes within a moment and does not count.
 */
export function closeOnSignal(house: House, log: (line: string) => void): void {
  let since: number | null = null;
  const end = () => {
    if (since !== null) {
      if (performance.now() - since > 1000) process.exit(1);
      return;
    }
    since = performance.now();
    log('Closing.');
    house.close().then(
      () => process.exit(0),
      (error) => {
        log(`Closing failed: ${(error as Error).message}`);
        process.exit(1);
      },
    );
  };
  process.on('SIGINT', end);
  process.on('SIGTERM', end);
}
