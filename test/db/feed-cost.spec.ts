// What a feed costs: reading grows with its window and not with the history before it, and the longest is gathered and
// written without keeping other requests waiting.
import { afterAll, afterEach, beforeAll, describe, expect, it, jest } from '@jest/globals';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { LinksService } from '../../src/accounts/links.service.js';
import { buildFeed } from '../../src/calendar/ics.calc.js';
import { MOST_ENTRIES } from '../../src/calendar/feeds.calc.js';
import { Tx } from '../../src/platform/db/tx.js';
import { fullFeed } from '../bench/feed-entries.js';
import { fillCalendar } from '../support/full-calendar.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { lateness } from '../support/lateness.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let admin: pg.Client;

beforeAll(async () => {
  house = await openTestHouse();
  admin = new pg.Client({ connectionString: house.database.adminUrl });
  await admin.connect();
});
afterAll(async () => {
  await admin.end();
  await house.close();
});
afterEach(() => void jest.restoreAllMocks());

/** A studio with so many sittings from a date on, and the address of its owner's feed. */
async function studioWith(slug: string, count: number): Promise<{ studio: TestStudio; url: string }> {
  const studio = await foundTestStudio(house, { slug, email: `desk@${slug}.example` });
  await fillCalendar(house, studio, Temporal.PlainDate.from('2026-11-26'), count);
  const links = house.app.get(LinksService);
  const link = await house.db.inStudio(studio.id, (tx) => links.ensure(tx, 'feed', studio.owner.id, 'owner'));
  return { studio, url: `/s/${slug}/calendar/${links.token(link)}.ics` };
}

async function entriesOf(url: string): Promise<number> {
  const { statusCode, body } = await house.app.inject({ url });
  expect(statusCode).toBe(200);
  return body.match(/^BEGIN:VEVENT/gm)?.length ?? 0;
}

interface Asked {
  sql: string;
  values: unknown[];
}

/** Every statement of a build, and the blocks that PostgreSQL looks at for it. */
async function blocksOf({ studio, url }: { studio: TestStudio; url: string }): Promise<number> {
  const asked: Asked[] = [];
  const reading = jest.spyOn(Tx.prototype as unknown as { query: Reading }, 'query');
  expect(await entriesOf(url)).toBe(500);
  for (const [sql, values] of reading.mock.calls) asked.push({ sql, values });
  reading.mockRestore();
  let blocks = 0;
  await house.db.inStudio(studio.id, async (tx) => {
    const query = (tx as unknown as { query: Reading }).query.bind(tx);
    for (const { sql, values } of asked) {
      const [row] = await query(`explain (analyze, buffers, format json) ${sql}`, values);
      const [{ Plan: plan }] = (row as { 'QUERY PLAN': [{ Plan: Record<string, number> }] })['QUERY PLAN'];
      blocks += (plan['Shared Hit Blocks'] ?? 0) + (plan['Shared Read Blocks'] ?? 0);
    }
  });
  expect(asked.length).toBeGreaterThan(5);
  return blocks;
}
type Reading = (sql: string, values: unknown[]) => Promise<unknown[]>;

describe('a feed of five hundred entries', () => {
  it('looks at as much of the database with ten times the history, and at much more without the index of the window', async () => {
    const one = await studioWith('turnstone-loft', 500);
    await fillCalendar(house, one.studio, Temporal.PlainDate.from('2026-02-01'), 500);
    await admin.query('vacuum analyze');
    const before = await blocksOf(one);
    await fillCalendar(house, one.studio, Temporal.PlainDate.from('2021-12-01'), 4500);
    await admin.query('vacuum analyze');
    const after = await blocksOf(one);
    expect(after).toBeLessThanOrEqual(before * 1.3);
    await admin.query('drop index occupancy_by_end');
    expect(await blocksOf(one)).toBeGreaterThan(before * 1.3);
    await admin.query('create index occupancy_by_end on occupancy (studio_id, ends_at)');
  }, 120_000);
});

describe('the longest feed', () => {
  it('is cut at its most entries, and leaves the loop of events free while it is gathered and written', async () => {
    const { url } = await studioWith('whimbrel-loft', MOST_ENTRIES + 100);
    await entriesOf((await studioWith('dunlin-loft', 60)).url); // the thread has begun, and all code was used
    const there = await lateness(async () => expect(await entriesOf(url)).toBe(MOST_ENTRIES));
    const here = await lateness(async () => void buildFeed(fullFeed(MOST_ENTRIES)));
    // milliseconds are told by npm run bench; here, a share of what one thread would be held for
    expect(there.worst).toBeLessThan(here.worst / 3);
    console.log(there, here);
  }, 120_000);
});
