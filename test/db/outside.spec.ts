// Outside calendars as the job reads them: from a server of ours that is well, ill, hostile or gone.
// The year is far ahead, since the queue’s jobs of a time that is past for this machine would run at once.
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { FAILURE_WORDS } from '../../src/outside/failure.calc.js';
import { Network } from '../../src/outside/network.js';
import { OutsideService } from '../../src/outside/outside.service.js';
import { ElsewhereService } from '../../src/room/elsewhere.service.js';
import { SettingsService } from '../../src/room/settings.service.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { type CalendarServer, calendarOf, gives, openCalendarServer } from '../support/outside.js';
import { rowsOf } from '../support/rows.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
let server: CalendarServer;
let outside: OutsideService;

beforeAll(async () => {
  server = await openCalendarServer();
  house = await openTestHouse({ now: '2030-01-09T10:00:00Z' });
  studio = await foundTestStudio(house);
  outside = house.app.get(OutsideService);
  const network = house.app.get(Network);
  network.ports = [...network.ports, server.port];
  network.mostSilence = 300;
  network.resolve = async (name) => (name === 'calendar.example' ? ['127.0.0.1'] : []);
  network.isAllowed = (address) => address === '127.0.0.1';
});
afterAll(async () => {
  await house.close();
  await server.close();
});
beforeEach(() => {
  server.asked.length = 0;
});

/** The Friday in April on which everything happens. */
const FRIDAY = { from: '2030-04-05', until: '2030-04-05' };
const SECRET = '/private-0123456789abcdef/basic.ics';
const lunch = [
  'SUMMARY:Dentist',
  'DTSTART;TZID=Europe/London:20300405T120000',
  'DTEND;TZID=Europe/London:20300405T140000',
];
const open = async () => (await openStarts(house, studio, FRIDAY)).map((start) => start.slice(11, 16));
const ALL = ['09:30', '11:15', '13:00', '14:45'];

async function useIt(id: string, choice = { blocks: 'hours', marginMinutes: '0' }): Promise<void> {
  const elsewhere = house.app.get(ElsewhereService);
  const { seen } = await elsewhere.preview(studio.id, id, choice);
  expect((await elsewhere.confirm(studio.id, studio.owner, id, choice, seen)).ok).toBe(true);
}
const one = async (id: string) => {
  const found = (await outside.all(studio.id)).find((calendar) => calendar.id === id);
  if (!found) throw new Error('no such calendar');
  return found;
};
const counter = () =>
  house.db.inStudio(studio.id, async (tx) => (await house.app.get(StudiosService).load(tx)).calendarCounter);

describe('a calendar at an address', () => {
  let id: string;

  test('blocks nothing before it is in use, then its hours', async () => {
    server.at.set(SECRET, gives(calendarOf(lunch), { etag: '"1"' }));
    const address = `webcal://calendar.example:${server.port}${SECRET}`.replace('webcal', 'http');
    id = await outside.add(studio.id, studio.owner, { name: 'Mine', address });
    expect(await open()).toEqual(ALL);
    const before = await counter();
    await useIt(id);
    expect(await open()).toEqual(['09:30', '14:45']);
    expect(await counter()).toBe(before); // no feed shows some hours of hers
  });

  test('has a secret address that stands in no row, no word and no copy of it', async () => {
    const rows = await rowsOf(house, studio.id, 'select t::text as row from outside_calendar t');
    expect(JSON.stringify(rows)).toContain('calendar.example');
    expect(JSON.stringify(rows)).not.toMatch(/private-0123456789abcdef/);
    expect(JSON.stringify(rows)).not.toContain(Buffer.from(SECRET).toString('hex'));
    const history = await rowsOf(house, studio.id, 'select t::text as row from history t');
    expect(JSON.stringify(history)).not.toMatch(/private-0123456789abcdef/);
  });

  test('is asked for every hour, and not sent again while it is as it was', async () => {
    server.at.set(SECRET, gives('', {}, 304));
    await house.work();
    expect(server.asked).toHaveLength(0);
    house.clock.forward({ hours: 1 });
    await house.work();
    expect(server.asked.map(({ headers }) => headers['if-none-match'])).toEqual(['"1"']);
    expect(await one(id)).toMatchObject({ failure: '', readAt: house.clock.now() });
    expect(await open()).toEqual(['09:30', '14:45']);
  });

  test('follows what changes there, and raises the feeds’ counter for whole days alone', async () => {
    const before = await counter();
    server.at.set(
      SECRET,
      gives(
        calendarOf([...lunch.slice(0, 1), 'DTSTART;TZID=Europe/London:20300405T150000', 'DURATION:PT1H']),
      ),
    );
    house.clock.forward({ hours: 1 });
    await house.work();
    expect(await open()).toEqual(['09:30', '11:15', '13:00']);
    expect(await counter()).toBe(before);
    server.at.set(SECRET, gives(calendarOf(['DTSTART;VALUE=DATE:20300405'])));
    house.clock.forward({ hours: 1 });
    await house.work();
    expect(await open()).toEqual([]);
    expect(await counter()).toBe(before + 1n);
  });

  test('takes nobody’s place away, and tells the owner where it meets one', async () => {
    server.at.set(SECRET, gives(calendarOf(lunch)));
    house.clock.forward({ hours: 1 });
    await house.work();
    const { sittingId } = await askForSitting(house, studio, {
      name: 'Linnea Harrow',
      suits: { kind: 'any', ...FRIDAY },
    });
    await approve(house, studio, sittingId, '2030-04-05T09:30');
    server.at.set(
      SECRET,
      gives(calendarOf(lunch, ['DTSTART;TZID=Europe/London:20300405T093000', 'DURATION:PT5M'])),
    );
    house.clock.forward({ hours: 1 });
    await house.work();
    const touched = await house.db.inStudio(studio.id, async (tx) =>
      house.app.get(SettingsService).toBeMoved(tx, await house.app.get(StudiosService).load(tx)),
    );
    expect(touched.map(({ occupancy, reason }) => [occupancy.heldFor, reason])).toEqual([
      [sittingId, 'elsewhere'],
    ]);
    const [row] = await rowsOf(house, studio.id, 'select state from sitting where sitting_id = $1', [
      sittingId,
    ]);
    expect(row).toEqual({ state: 'confirmed' });
  });

  const bomb = gzipSync(Buffer.alloc(30 * 1024 * 1024));
  const cases: [string, Parameters<CalendarServer['at']['set']>[1], keyof typeof FAILURE_WORDS][] = [
    ['410', gives('', {}, 410), 'gone'],
    ['503', gives('', {}, 503), 'out of order'],
    ['a page', gives('<html>Please sign in</html>'), 'not a calendar'],
    ['too much', gives('BEGIN:VCALENDAR'.padEnd(3 * 1024 * 1024, 'x')), 'too large'],
    ['a bomb', gives(bomb, { 'content-encoding': 'gzip' }), 'too large'],
    ['silence', () => {}, 'too slow'],
    ['a way inside', gives('', { location: 'http://169.254.169.254/' }, 302), 'not public'],
    ['a rule of every second', gives(calendarOf([...lunch, 'RRULE:FREQ=SECONDLY'])), 'too often'],
  ];

  test('goes on as it was last read while it fails, is tried later each time, and says so', async () => {
    const good = await one(id);
    let hours = 1;
    for (const [, answering, failure] of cases) {
      server.at.set(SECRET, answering);
      house.clock.forward({ hours });
      await house.work();
      const failed = await one(id);
      expect(failed).toMatchObject({ failure, readAt: good.readAt, blocking: good.blocking });
      const next = house.clock.now().until(failed.nextAt).total('hours');
      expect(next).toBe(Math.min(24, hours * 2));
      hours = next;
    }
    const listed = await house.db.inStudio(studio.id, (tx) => outside.failing(tx));
    expect(listed.map((calendar) => calendar.id)).toEqual([id]);
    server.at.set(SECRET, gives(calendarOf()));
    house.clock.forward({ hours });
    await house.work();
    expect(await one(id)).toMatchObject({ failure: '', blocking: [] });
  });

  test('is asked for no more once it is paused or removed', async () => {
    await outside.pause(studio.id, studio.owner, id);
    server.asked.length = 0;
    house.clock.forward({ hours: 2 });
    await house.work();
    await outside.remove(studio.id, studio.owner, id);
    house.clock.forward({ hours: 25 });
    await house.work();
    expect(server.asked).toHaveLength(0);
    expect(await outside.all(studio.id)).toEqual([]);
  });
});

test('a rule goes on blocking as time goes on, though its file is never sent again', async () => {
  const weekly = [...lunch, 'RRULE:FREQ=WEEKLY'];
  const id = await outside.add(studio.id, studio.owner, { name: 'A file', file: calendarOf(weekly) });
  await useIt(id, { blocks: 'days', marginMinutes: '' });
  const last = async () => Math.max(...(await one(id)).blocking.map(({ until }) => until));
  const before = await last();
  house.clock.forward({ hours: 24 * 21 });
  await house.work();
  expect(
    Temporal.Instant.fromEpochMilliseconds(before)
      .until(Temporal.Instant.fromEpochMilliseconds(await last()))
      .total('hours'),
  ).toBe(24 * 21);
});

test('an address sealed with another key is asked for again in words, and blocks as before', async () => {
  server.at.set('/k.ics', gives(calendarOf(['DTSTART;VALUE=DATE:20300614'])));
  const id = await outside.add(studio.id, studio.owner, {
    name: 'K',
    address: `http://calendar.example:${server.port}/k.ics`,
  });
  await useIt(id);
  const { blocking } = await one(id);
  const { secretKey } = house.config;
  house.config.secretKey = Buffer.from('another key for tests only, of length');
  expect(await outside.readNow(studio.id, id)).toBe(false);
  house.config.secretKey = secretKey;
  expect(await one(id)).toMatchObject({ failure: 'key lost', blocking });
});
