// Calendar feeds on a whole house with its database: an answer of "nothing changed" against the least that any program
// could do, a long history behind a feed, and the longest feed written while the house goes on answering.
import { randomBytes } from 'node:crypto';
import { once } from 'node:events';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { fastify } from 'fastify';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { LinksService } from '../../src/accounts/links.service.js';
import { MOST_ENTRIES } from '../../src/calendar/feeds.calc.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import { fillCalendar } from '../support/full-calendar.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { lateness } from '../support/lateness.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { type Ratio, ratio } from './ratio.js';

/** As many answers a second as 85 % of bare Fastify with one statement. */
const MOST_TIME = 1 / 0.85;
/** So many that the server has always something to do: with few, each side waits for the other most of the time. */
const CLIENTS = 40;
const ASKED = 2_000;
const MOST_LATE_MS = 50;

interface Filled {
  studio: TestStudio;
  url: string;
}

export async function feedTimes(): Promise<{
  ratios: Ratio[];
  late: { name: string; ms: number; most: number };
}> {
  process.env.PLATEDAY_TEST_RUN ??= join(
    tmpdir(),
    `plateday-test-${process.pid}-${randomBytes(4).toString('hex')}`,
  );
  const house = await openTestHouse();
  try {
    const base = await house.listen();
    const five = await filled(house, 'turnstone-loft', 500);
    const ratios = [await nothingChanged(house, base + five.url), await history(house, five)];
    const longest = await filled(house, 'whimbrel-loft', MOST_ENTRIES);
    await fetched(house, longest.url);
    await raise(house, longest);
    const { worst } = await lateness(() => fetched(house, longest.url));
    return { ratios, late: { name: `a feed of ${MOST_ENTRIES} entries`, ms: worst, most: MOST_LATE_MS } };
  } finally {
    await house.close();
  }
}

export async function filled(house: TestHouse, slug: string, count: number): Promise<Filled> {
  const studio = await foundTestStudio(house, { slug, email: `desk@${slug}.example` });
  await fillCalendar(house, studio, Temporal.PlainDate.from('2026-11-26'), count);
  const links = house.app.get(LinksService);
  const link = await house.db.inStudio(studio.id, (tx) => links.ensure(tx, 'feed', studio.owner.id, 'owner'));
  return { studio, url: `/s/${slug}/calendar/${links.token(link)}.ics` };
}

const raise = (house: TestHouse, { studio }: Filled) =>
  house.db.inStudio(studio.id, (tx) => house.app.get(StudiosService).raiseCalendarCounter(tx));

async function fetched(house: TestHouse, url: string): Promise<string> {
  const answer = await house.app.inject({ url });
  if (answer.statusCode !== 200) throw new Error(`${answer.statusCode} of a feed`);
  return String(answer.headers.etag);
}

export async function nothingChanged(house: TestHouse, url: string): Promise<Ratio> {
  const etag = (await fetch(url)).headers.get('etag') ?? '';
  const pool = new pg.Pool({ connectionString: house.database.url, max: 10 });
  const bare = fastify();
  bare.get('/', async () => {
    await pool.query('select 1');
    return '';
  });
  const yardstick = await bare.listen({ port: 0, host: '127.0.0.1' });
  const name = 'a feed that did not change : bare Fastify with one statement';
  const asks = (of: string, status: number) => () => asking(of, status, etag);
  const turns = { counted: 9, warming: 4 };
  const found = await ratio(name, asks(yardstick, 200), asks(url, 304), MOST_TIME, turns);
  await bare.close();
  await pool.end();
  return found;
}

async function asking(url: string, status: number, etag: string): Promise<void> {
  const workerData = { url, status, headers: { 'if-none-match': etag }, count: ASKED, clients: CLIENTS };
  const thread = new Worker(new URL('./asking.mjs', import.meta.url), { workerData });
  await once(thread, 'exit');
}

/** A feed gathered and written before ten times as much history came behind it, and after. */
async function history(house: TestHouse, five: Filled): Promise<Ratio> {
  const long = await filled(house, 'knot-loft', 500);
  await fillCalendar(house, five.studio, Temporal.PlainDate.from('2026-02-01'), 500);
  await fillCalendar(house, long.studio, Temporal.PlainDate.from('2021-12-01'), 5000 - 500);
  await fillCalendar(house, long.studio, Temporal.PlainDate.from('2026-02-01'), 500);
  const admin = new pg.Client({ connectionString: house.database.adminUrl });
  await admin.connect();
  await admin.query('vacuum analyze');
  await admin.end();
  const anew = (one: Filled) => async () => {
    await raise(house, one);
    await fetched(house, one.url);
  };
  const name = 'a feed of 500 entries with ten times the history : with as much history';
  return ratio(name, anew(five), anew(long), 1.3, { counted: 9, warming: 4 });
}
