// Calendar feeds: what they say agrees with the database, read by two programs that are not ours; equal tags mean
// equal bytes; every visible act shows; whoever has no right to one learns nothing.
import { AsyncLocalStorage } from 'node:async_hooks';
import { randomUUID } from 'node:crypto';
import { gunzipSync } from 'node:zlib';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, jest } from '@jest/globals';
import pg from 'pg';
import { LinksService } from '../../src/accounts/links.service.js';
import { FeedMemory } from '../../src/calendar/feed-memory.service.js';

import { SettingsService } from '../../src/room/settings.service.js';
import { DecisionsService } from '../../src/sittings/decisions.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { ListService } from '../../src/sittings/list.service.js';
import { SittingViews } from '../../src/sittings/views.service.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import { byIcalJs, byNodeIcal, type Told } from '../support/calendar-readers.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import {
  type Asking,
  approve,
  askForSitting,
  foundTestStudio,
  openStarts,
  type TestStudio,
} from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
let owner: pg.Client;
let ownerFeed: string;
/** Open places: two before the clocks go forward in 2027 (28 March), the others after. */
let starts: string[];

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, {
    shelf: { wholeGlass: 500n, collodion: 90_000_000n, developer: 90_000_000n },
  });
  const range = { from: '2027-03-26', until: '2027-05-28' };
  starts = await openStarts(house, studio, range);
  owner = new pg.Client({ connectionString: house.database.url });
  await owner.connect();
  await owner.query(`select set_config('app.studio_id', $1, false)`, [studio.id]);
  ownerFeed = await feedOf(studio);
});
afterAll(async () => {
  await owner.end();
  await house.close();
});
beforeEach(() => {
  house.clock.forward({ minutes: 1 });
  writeAnew();
});
afterEach(() => void jest.restoreAllMocks());

/** Feeds are written for each GET, so that two of the same bytes were made twice. */
const writeAnew = () =>
  jest.spyOn(house.app.get(FeedMemory), 'once').mockImplementation((_etag, write) => write());

/** Runs an act as another request would, outside the transaction that is open where it is called. */
const outside = AsyncLocalStorage.snapshot();
const address = (slug: string, token: string) => `/s/${slug}/calendar/${token}.ics`;

async function feedOf(one: TestStudio): Promise<string> {
  const links = house.app.get(LinksService);
  const link = await house.db.inStudio(one.id, (tx) => links.ensure(tx, 'feed', one.owner.id, 'owner'));
  return address(one.slug, links.token(link));
}

interface Place {
  sittingId: string;
  token: string;
  /** The contact's own feed. */
  feed: string;
}

/** Somebody new with a place, at the next open start. */
async function withPlace(asking: Asking = {}): Promise<Place> {
  const { sittingId, token } = await askForSitting(house, studio, asking);
  await approve(house, studio, sittingId, starts.shift() ?? '');
  const { feedToken } = await house.app.get(ListService).behindLink(studio.id, token);
  return { sittingId, token, feed: address(studio.slug, feedToken ?? '') };
}
const giveUp = ({ token }: Place) => house.app.get(RequestsService).giveUp(studio.id, token);

async function change(settings: object): Promise<void> {
  const service = house.app.get(SettingsService);
  const { seen } = await service.preview(studio.id, settings);
  expect(await service.confirm(studio.id, studio.owner, settings, seen)).toMatchObject({ ok: true });
}

async function fetchFeed(url: string, headers: Record<string, string> = {}, method: 'GET' | 'HEAD' = 'GET') {
  const answer = await house.app.inject({ method, url, headers: { accept: 'text/calendar', ...headers } });
  return {
    status: answer.statusCode,
    etag: String(answer.headers.etag),
    body: answer.body,
    bytes: answer.rawPayload,
    headers: answer.headers,
  };
}

/** What the database says of all that takes the room, or of one sitting. */
async function inDatabase(sittingId: string | null = null): Promise<Map<string, Told>> {
  const { rows } = await owner.query(
    `select uid, holds, sequence, starts_at, ends_at, revised_at from occupancy
     where $1::uuid is null or held_for = $1`,
    [sittingId],
  );
  return new Map(
    rows.map((row) => [
      row.uid,
      {
        status: row.holds ? 'CONFIRMED' : 'CANCELLED',
        sequence: row.sequence,
        starts: row.starts_at.toISOString(),
        ends: row.ends_at.toISOString(),
        revised: new Date(Math.floor(row.revised_at / 1000) * 1000).toISOString(), // whole seconds in calendars
      },
    ]),
  );
}

describe('a feed read by programs that are not ours', () => {
  it.each([
    ['ical.js', byIcalJs],
    ['node-ical', byNodeIcal],
  ])('agrees with the database to the second: %s', async (_name, read) => {
    const winter = await withPlace();
    const summer = await withPlace();
    await giveUp(await withPlace());
    const all = await inDatabase();
    expect(read((await fetchFeed(ownerFeed)).body)).toEqual(all);
    for (const place of [winter, summer])
      expect(read((await fetchFeed(place.feed)).body)).toEqual(await inDatabase(place.sittingId));
  });

  it('holds places before and after the clocks changed, at the wall times that were given', async () => {
    while (!starts[0]?.startsWith('2027-04')) starts.shift();
    await withPlace();
    const hours = [...byIcalJs((await fetchFeed(ownerFeed)).body).values()].map((one) =>
      one.starts.slice(0, 13),
    );
    const { rows } = await owner.query<{ wall: string }>('select wall_start::text as wall from occupancy');
    const walls = rows.map(({ wall }) => wall.slice(0, 13).replace(' ', 'T'));
    const ahead = (wall: string) => (wall < '2027-03-28' ? 0 : 1);
    const utc = (wall: string) =>
      `${wall.slice(0, 11)}${String(Number(wall.slice(11)) - ahead(wall)).padStart(2, '0')}`;
    expect(hours.sort()).toEqual(walls.map(utc).sort());
    expect(new Set(walls.map(ahead))).toEqual(new Set([0, 1]));
  });
});

describe('a feed', () => {
  it('is the same to the byte, and has the same tag, until something visible happens', async () => {
    const place = await withPlace();
    for (const url of [ownerFeed, place.feed]) {
      const first = await fetchFeed(url);
      expect(first.status).toBe(200);
      expect(first.headers['content-type']).toBe('text/calendar; charset=utf-8');
      house.clock.forward({ hours: 1 });
      const { sittingId, token } = await askForSitting(house, studio);
      await house.app.get(DecisionsService).decline(studio.id, studio.owner, sittingId, 'No room this year.');
      await askForSitting(house, studio).then((asked) =>
        house.app.get(RequestsService).giveUp(studio.id, asked.token),
      );
      expect(token).toHaveLength(43);
      const second = await fetchFeed(url);
      expect(second.bytes.equals(first.bytes)).toBe(true);
      expect(second.etag).toBe(first.etag);
    }
  });

  it('shows each visible act, by another tag and by a later revision of what it touched', async () => {
    const before = await fetchFeed(ownerFeed);
    const place = await withPlace();
    const given = await fetchFeed(ownerFeed);
    expect(given.etag).not.toBe(before.etag);
    const [uid] = [...(await inDatabase(place.sittingId)).keys()];
    const one = byIcalJs(given.body).get(uid ?? '');
    expect(one).toMatchObject({
      status: 'CONFIRMED',
      sequence: 0,
      revised: house.clock.now().toString().replace('Z', '.000Z'),
    });

    house.clock.forward({ hours: 1 });
    await giveUp(place);
    for (const url of [ownerFeed, place.feed]) {
      const gone = await fetchFeed(url);
      expect([before.etag, given.etag]).not.toContain(gone.etag);
      const other = byIcalJs(gone.body).get(uid ?? '');
      expect(other).toMatchObject({ status: 'CANCELLED', sequence: 1, starts: one?.starts });
      expect((other?.revised ?? '') > (one?.revised ?? '')).toBe(true);
    }
  });

  it('shows that the room is closed and that it is open again', async () => {
    const before = await fetchFeed(ownerFeed);
    await change({ do: 'close', title: 'The lens is away', from: '2027-08-02', until: '2027-08-06' });
    const closed = await fetchFeed(ownerFeed);
    expect(closed.etag).not.toBe(before.etag);
    expect(closed.body).toContain('SUMMARY:The lens is away');
    const { rows } = await owner.query('select closure_id from closure');
    await change({ do: 'reopen', closureId: rows[0].closure_id });
    const open = await fetchFeed(ownerFeed);
    expect(open.etag).not.toBe(closed.etag);
    expect(open.body).toContain('SUMMARY:Cancelled: The lens is away');
  });

  it('never has new bytes under an old tag, when an act is committed while it is gathered', async () => {
    await withPlace();
    const views = house.app.get(SittingViews);
    const gather = views.byOccupancies.bind(views);
    let acted: Promise<unknown> | undefined;
    const { sittingId } = await askForSitting(house, studio);
    const wanted = starts.shift() ?? '';
    // The act commits after the door was opened and before the sittings are read, by another connection.
    jest.spyOn(views, 'byOccupancies').mockImplementation(async (tx, facts, ids) => {
      acted ??= outside(() => approve(house, studio, sittingId, wanted));
      await acted;
      return gather(tx, facts, ids);
    });
    const during = await fetchFeed(ownerFeed);
    jest.restoreAllMocks();
    const after = await fetchFeed(ownerFeed);
    expect(acted).toBeDefined();
    expect(byIcalJs(after.body)).toEqual(await inDatabase());
    expect(byIcalJs(during.body).size).toBe(byIcalJs(after.body).size - 1);
    expect(after.etag).not.toBe(during.etag);
  });

  it('is built once, however many acts are committed meanwhile', async () => {
    const views = house.app.get(SittingViews);
    const gather = views.byOccupancies.bind(views);
    const raise = () =>
      outside(() =>
        house.db.inStudio(studio.id, (tx) => house.app.get(StudiosService).raiseCalendarCounter(tx)),
      );
    const gathered = jest.spyOn(views, 'byOccupancies').mockImplementation(async (tx, facts, ids) => {
      if (gathered.mock.calls.length > 9) throw new Error('Built ten times.');
      await raise();
      return gather(tx, facts, ids);
    });
    const { status } = await fetchFeed(ownerFeed);
    expect([status, gathered.mock.calls.length]).toEqual([200, 1]);
  });

  it('reads nobody else’s sittings for a sitter', async () => {
    const place = await withPlace();
    const read = jest.spyOn(house.app.get(SittingViews), 'of');
    await fetchFeed(place.feed);
    expect(read.mock.calls.flatMap(([, , sittings]) => sittings.map(({ id }) => id))).toEqual([
      place.sittingId,
    ]);
  });

  it('keeps what was given up for fourteen days, and then forgets it', async () => {
    const place = await withPlace();
    await giveUp(place);
    const [uid] = [...(await inDatabase(place.sittingId)).keys()];
    const seen = async () => byIcalJs((await fetchFeed(ownerFeed)).body).has(uid ?? '');
    const etags = new Set<string>();
    for (let day = 0; day <= 14; day++) {
      etags.add((await fetchFeed(ownerFeed)).etag);
      expect([day, await seen()]).toEqual([day, true]);
      house.clock.forward({ hours: 24 });
    }
    expect(await seen()).toBe(false);
    expect(byIcalJs((await fetchFeed(place.feed)).body).size).toBe(0);
    expect(etags.size).toBe(15); // a new window every day, so a new tag
  });
});

describe('a calendar that has the feed already', () => {
  it('is told so before anything is read or built', async () => {
    const { etag } = await fetchFeed(ownerFeed);
    const reading = jest.spyOn(house.db, 'atOneMoment');
    const door = jest.spyOn(house.db, 'callDoors');
    const strong = etag.replace('W/', '');
    for (const known of [etag, strong, `"other", ${etag}`, `W/"x",${strong}`, '*']) {
      const answer = await fetchFeed(ownerFeed, { 'if-none-match': known });
      expect([known, answer.status, answer.body, answer.etag]).toEqual([known, 304, '', etag]);
      expect(answer.headers['cache-control']).toBe('private, no-cache');
    }
    expect(reading).not.toHaveBeenCalled();
    expect(door).toHaveBeenCalledTimes(5);
    for (const known of ['"other"', 'W/"other"', '', strong.slice(1, -1)])
      expect((await fetchFeed(ownerFeed, { 'if-none-match': known })).status).toBe(200);
    expect(reading).toHaveBeenCalled();
  });

  it('gets it packed where it can unpack it, and the same text', async () => {
    const plain = await fetchFeed(ownerFeed);
    for (const accepted of ['gzip', 'br;q=1.0, gzip;q=0.5', 'deflate, gzip']) {
      const packed = await fetchFeed(ownerFeed, { 'accept-encoding': accepted });
      expect(packed.headers['content-encoding']).toBe('gzip');
      expect(gunzipSync(packed.bytes).toString()).toBe(plain.body);
      expect(packed.headers.vary).toMatch(/accept-encoding/i);
    }
    for (const accepted of ['identity', 'gzip;q=0', 'gzip; q=0.000, br'])
      expect((await fetchFeed(ownerFeed, { 'accept-encoding': accepted })).body).toBe(plain.body);
  });
});

describe('the door of a feed', () => {
  it('is closed to an unknown secret, another kind of secret and another studio, all alike', async () => {
    const other = await foundTestStudio(house, { slug: 'curlew-shed', name: 'Curlew Shed' });
    const { token } = await withPlace();
    const secret = /calendar\/(.+)\.ics/.exec(ownerFeed)?.[1] ?? '';
    const answers = [];
    for (const url of [
      address(studio.slug, 'A'.repeat(43)),
      address(studio.slug, 'short'),
      address(studio.slug, token),
      address(studio.slug, secret.toLowerCase()),
      address(other.slug, secret),
      address('nowhere', secret),
    ])
      answers.push(await fetchFeed(url));
    for (const answer of answers) {
      expect(answer.status).toBe(404);
      expect(JSON.parse(answer.body)).toMatchObject({
        code: 'not_found',
        detail: 'There is no calendar at this address.',
      });
    }
    expect((await fetchFeed(address(studio.slug, secret))).status).toBe(200);
    expect((await fetchFeed(await feedOf(other))).body).not.toContain('BEGIN:VEVENT');
  });

  it('stays open by an address that the studio had before', async () => {
    const now = await fetchFeed(ownerFeed);
    await owner.query(`insert into studio_directory values ('sandpiper-barn', $1, false)`, [studio.id]);
    const before = await fetchFeed(ownerFeed.replace(studio.slug, 'sandpiper-barn'));
    expect([before.status, before.etag, before.body]).toEqual([200, now.etag, now.body]);
  });

  it('tells of a link that was ended, and knows an old one no more once it was replaced', async () => {
    const links = house.app.get(LinksService);
    const make = ({ id }: { id: string }) =>
      house.db.inStudio(studio.id, (tx) => links.make(tx, 'feed', id, null, 'owner'));
    const [one, two] = [await make(studio.assistant), await make({ id: randomUUID() })];
    const next = await house.db.inStudio(studio.id, async (tx) => {
      await links.revoke(tx, one);
      return links.replace(tx, two);
    });
    const status = async (link: typeof one) =>
      (await fetchFeed(address(studio.slug, links.token(link)))).status;
    expect([await status(one), await status(two), await status(next)]).toEqual([410, 404, 200]);
  });
});

describe('a sitter’s feed', () => {
  it('holds their own place only, and none of what is the studio’s or was told to it in confidence', async () => {
    const theirs = await withPlace({
      name: 'Ottoline Vane',
      telephone: '01632 960111',
      hopes: 'hands, not faces',
      anything: 'a bad hip',
    });
    const ours = await withPlace({
      name: 'Bartho Quill',
      telephone: '01632 960222',
      email: 'bartho@post.example',
      hopes: 'the nets',
      anything: 'comes by ferry',
    });
    const { body } = await fetchFeed(ours.feed);
    expect([...byIcalJs(body).keys()]).toEqual([...(await inDatabase(ours.sittingId)).keys()]);
    const unfolded = body.replace(/\r\n /g, '');
    expect(unfolded).toContain('Whole plate: Bartho Quill');
    const secret = [
      'Ottoline',
      '960111',
      'hands',
      'hip',
      '960222',
      'bartho@',
      'nets',
      'ferry',
      '/desk',
      ...[theirs.token, ours.feed.slice(-47, -4)],
    ];
    expect(secret.filter((word) => unfolded.includes(word))).toEqual([]);
    expect(unfolded).toMatch(/agreed on\.\\nGood light from \d\d:\d\d to \d\d:/);
    const all = (await fetchFeed(ownerFeed)).body.replace(/\r\n /g, '');
    for (const word of ['Ottoline', '960111', 'hands', 'hip', '960222', 'nets', 'ferry', '/desk'])
      expect(all).toContain(word);
  });
});

describe('a closure that began long ago', () => {
  it('stays in the owner’s feed for as long as it lasts', async () => {
    await change({ do: 'close', title: 'A year abroad', from: '2027-06-01', until: '2028-05-31' });
    house.clock.set('2028-05-31T10:00:00Z');
    expect((await fetchFeed(ownerFeed)).body).toContain('SUMMARY:A year abroad');
  });
});
