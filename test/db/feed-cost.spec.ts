// What a feed costs: nothing is built for who has it, once for many who come after a change; reading grows with its window and not with the history before it, and the longest is gathered and
// written without keeping other requests waiting.
import { afterAll, afterEach, beforeAll, describe, expect, it, jest } from '@jest/globals';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { LinksService } from '../../src/accounts/links.service.js';
import { buildFeed } from '../../src/calendar/ics.calc.js';
import { MOST_ENTRIES } from '../../src/calendar/feeds.calc.js';
import { Tx } from '../../src/platform/db/tx.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import { StudiosStore } from '../../src/studios/studios.store.js';
import { fullFeed } from '../bench/feed-entries.js';
import { fillCalendar } from '../support/full-calendar.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { lateness } from '../support/lateness.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';

/** Ten times the history may cost a tenth more rows. */
const MOST_GROWTH = 1.1;

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

/**
 * The rows that PostgreSQL looks at for a build, of all its statements, by the plans it makes for large tables: one of
 * some thousand rows an older version likes to read whole.
 */
async function rowsFor({ studio, url }: { studio: TestStudio; url: string }): Promise<number> {
  const asked: Asked[] = [];
  await house.db.inStudio(studio.id, (tx) => house.app.get(StudiosService).raiseCalendarCounter(tx)); // built anew
  const reading = jest.spyOn(Tx.prototype as unknown as { query: Reading }, 'query');
  expect(await entriesOf(url)).toBe(500);
  for (const [sql, values] of reading.mock.calls) asked.push({ sql, values });
  reading.mockRestore();
  let rows = 0;
  await house.db.inStudio(studio.id, async (tx) => {
    const query = (tx as unknown as { query: Reading }).query.bind(tx);
    for (const plan of ['seqscan', 'hashjoin', 'mergejoin'])
      await query(`select set_config($1, 'off', true)`, [`enable_${plan}`]);
    for (const { sql, values } of asked) {
      if (/^(fetch|close) /.test(sql)) continue;
      const plain = sql.replace(/^declare .* cursor for /, '');
      const [row] = await query(`explain (analyze, format json) ${plain}`, values);
      rows += lookedAt((row as { 'QUERY PLAN': [{ Plan: Plan }] })['QUERY PLAN'][0].Plan);
    }
  });
  expect(asked.length).toBeGreaterThan(5);
  return rows;
}

/** Rows that the scans of a plan came across, those they left out too. */
function lookedAt(plan: Plan): number {
  const scans = plan['Node Type'].endsWith('Scan') && !plan['Node Type'].startsWith('Bitmap Index');
  const each = plan['Actual Rows'] + (plan['Rows Removed by Filter'] ?? 0);
  const own = scans ? each * plan['Actual Loops'] : 0;
  return (plan.Plans ?? []).reduce((sum, one) => sum + lookedAt(one), own);
}
interface Plan {
  'Node Type': string;
  'Actual Rows': number;
  'Actual Loops': number;
  'Rows Removed by Filter'?: number;
  Plans?: Plan[];
}
type Reading = (sql: string, values: unknown[]) => Promise<unknown[]>;

describe('a feed of five hundred entries', () => {
  it('looks at as many rows with ten times the history, and at all of it without the index of the window', async () => {
    const one = await studioWith('turnstone-loft', 500);
    await fillCalendar(house, one.studio, Temporal.PlainDate.from('2026-02-01'), 500);
    await admin.query('vacuum analyze');
    const before = await rowsFor(one);
    const history = 4500;
    await fillCalendar(house, one.studio, Temporal.PlainDate.from('2021-12-01'), history);
    await admin.query('vacuum analyze');
    const after = await rowsFor(one);
    expect(after).toBeLessThanOrEqual(before * MOST_GROWTH);
    await admin.query('drop index occupancy_by_end');
    expect(await rowsFor(one)).toBeGreaterThanOrEqual(after + history);
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
    expect(there.worst).toBeLessThan(here.worst / 2);
  }, 120_000);
});

describe('calendars that come', () => {
  const asked = async (url: string, since?: string) => {
    const headers = since === undefined ? {} : { 'if-modified-since': since };
    return house.app.inject({ url, headers });
  };

  it('by time are sent a feed only if something changed since, left its window or was deleted, however fast', async () => {
    const { studio, url } = await studioWith('plover-loft', 1);
    const act = () =>
      house.db.inStudio(studio.id, (tx) => house.app.get(StudiosService).raiseCalendarCounter(tx));
    await act();
    expect((await asked(url)).headers['last-modified']).toBeUndefined(); // the second is not over
    house.clock.forward({ seconds: 1 });
    const dated = String((await asked(url)).headers['last-modified']);
    expect(dated).toBe('Wed, 25 Nov 2026 10:00:00 GMT');
    const again = await asked(url, dated);
    expect([again.statusCode, again.body, again.headers.vary]).toEqual([304, '', 'Accept-Encoding']);
    expect(again.headers.etag).toBe((await asked(url)).headers.etag);
    // two acts within one second, both after the feed was fetched: each shows
    for (const second of [1, 2]) {
      const known = String((await asked(url)).headers['last-modified']);
      await act();
      house.clock.forward({ milliseconds: 100 });
      await act();
      house.clock.forward({ seconds: 1 });
      expect([second, (await asked(url, known)).statusCode]).toEqual([second, 200]);
      house.clock.forward({ seconds: 2 });
    }
    // an act that began earlier and is committed later
    const known = String((await asked(url)).headers['last-modified']);
    await house.db.inStudio(studio.id, (tx) =>
      new StudiosStore().raiseCalendarCounter(tx, house.clock.now().subtract({ minutes: 1 })),
    );
    house.clock.forward({ seconds: 2 });
    expect((await asked(url, known)).statusCode).toBe(200);
    // at midnight the window moves, and no act is needed
    house.clock.set('2026-11-26T00:00:05Z');
    expect((await asked(url, dated)).statusCode).toBe(200);
    expect((await asked(url, 'Thu, 26 Nov 2026 00:00:00 GMT')).statusCode).toBe(304);
  });

  it('for the head alone are given just that', async () => {
    const { url } = await studioWith('redshank-loft', 1);
    const get = await asked(url);
    const head = await house.app.inject({ method: 'HEAD', url });
    expect([head.statusCode, head.body, head.headers.etag]).toEqual([200, '', get.headers.etag]);
    for (const name of ['content-type', 'last-modified', 'cache-control', 'vary'])
      expect([name, head.headers[name]]).toEqual([name, get.headers[name]]);
    expect(head.headers['content-length']).toBe(String(get.rawPayload.length));
    const headers = { 'if-none-match': String(get.headers.etag) };
    expect((await house.app.inject({ method: 'HEAD', url, headers })).statusCode).toBe(304);
  });

  it('at one moment after a change cost one feed, and after the next change another', async () => {
    const { studio, url } = await studioWith('sanderling-loft', 3);
    const gathering = jest.spyOn(house.db, 'atOneMoment');
    const come = () => Promise.all(Array.from({ length: 20 }, () => asked(url)));
    for (const built of [1, 2]) {
      const answers = await come();
      expect(new Set(answers.map(({ statusCode, body }) => `${statusCode} ${body}`)).size).toBe(1);
      expect(answers[0]?.headers['referrer-policy']).toBe('no-referrer');
      expect(gathering).toHaveBeenCalledTimes(built);
      await house.db.inStudio(studio.id, (tx) => house.app.get(StudiosService).raiseCalendarCounter(tx));
    }
  });

  it('at once for feeds of two studios each get their own, and a secret opens nothing at another studio', async () => {
    const [one, two] = [await studioWith('avocet-loft', 1), await studioWith('greenshank-loft', 2)];
    const mixed = one.url.replace('/avocet-loft/', '/greenshank-loft/');
    const nobody = two.url.replace('/greenshank-loft/', '/nobody-loft/');
    const answers = await Promise.all([one.url, mixed, two.url, nobody, one.url].map((url) => asked(url)));
    const found = answers.map(({ statusCode, body }) => [statusCode, body.match(/^BEGIN:VEVENT/gm)?.length]);
    expect(found).toEqual([
      [200, 1],
      [404, undefined],
      [200, 2],
      [404, undefined],
      [200, 1],
    ]);
    expect(answers[0]?.body).toBe(answers[4]?.body);
  });
});
