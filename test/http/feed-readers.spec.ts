// Feeds over HTTP by four readers that are not ours: two npm parsers, and Debian's synchroniser and calendar of the
// command line, for viewers on three clocks. Each event's instant, words and number agree, and are those of our rows.
// What vdirsyncer cannot show is that a UID stays, since it makes its own; test/db/feeds.spec.ts does. Where the
// system's zone data are older than ours, khal shows a viewer's old law: it is held against the system's own clock,
// which proves the instant, and not against ours.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { LinksService } from '../../src/accounts/links.service.js';
import { RoomService } from '../../src/room/room.service.js';
import { ListService } from '../../src/sittings/list.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import { TeachingViews } from '../../src/teaching/views.service.js';
import { byIcalJs, byNodeIcal, wordsByIcalJs, wordsByNodeIcal } from '../support/calendar-readers.js';
import {
  type Listed,
  listed,
  onSystemClock,
  programsAreThere,
  synchronise,
} from '../support/debian-calendar.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { signUp, teachingDay } from '../support/teaching.js';

const VIEWERS = ['Europe/London', 'America/Vancouver', 'Africa/Casablanca'];
/** Days on which clocks change in those zones, by the law of 2027 or by the one before: the nights of these dates. */
const CHANGES = ['2027-02-07', '2027-03-14', '2027-03-28', '2027-10-31', '2027-11-07'];
const TITLES = [
  'Roof; slates, ladders, "mind your head"',
  'Glass 🎞️📷 in the post 👩🏽‍🎨',
  `Þökk — 手と海 ${'湿板写真'.repeat(15)}`,
  // no letter n after a backslash: node-ical and khal's parser then read a new line (RFC 5545 3.3.11 has none there)
  'Back\\slash; comma, colon: and \\so on',
  "Tide tables 'single' “double” <b>&amp;</b> {title}",
];

let house: TestHouse;
let studio: TestStudio;
let owner: pg.Client;
let folder: string;
/** Name of each feed -> its address and what it gave. */
const urls: Record<string, string> = {};
const bodies: Record<string, string> = {};

beforeAll(async () => {
  house = await openTestHouse();
  const base = await house.listen();
  folder = mkdtempSync(join(tmpdir(), 'plateday-readers-'));
  studio = await foundTestStudio(house, {
    name: 'Sandpiper; Loft, “by the Sea” 🌊',
    address: 'Sandpiper Loft\n3 Ropewalk; upstairs, left',
    shelf: { wholeGlass: 500n, halfGlass: 500n, collodion: 90_000_000n, developer: 90_000_000n },
  });
  owner = new pg.Client({ connectionString: house.database.url });
  await owner.connect();
  await owner.query(`select set_config('app.studio_id', $1, false)`, [studio.id]);
  const tokens = { ...(await fillCalendars()), workshops: 'teaching-days' };
  for (const [name, token] of Object.entries(tokens)) {
    const url = `${base}/s/${studio.slug}/calendar/${token}.ics`;
    urls[name] = url;
    bodies[name] = await (await fetch(url)).text();
  }
}, 60_000);
afterAll(async () => {
  await owner.end();
  await house.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Closures around each change of clocks, sittings on both sides of them, one given up, and a teaching day. */
async function fillCalendars(): Promise<Record<string, string>> {
  await house.db.inStudio(studio.id, async (tx) => {
    const facts = await house.app.get(StudiosService).load(tx);
    for (const [at, date] of CHANGES.entries()) {
      const day = Temporal.PlainDate.from(date);
      const range = { from: day.subtract({ days: 1 }), until: day.add({ days: 1 }) };
      await house.app.get(RoomService).close(tx, facts, range, TITLES[at] ?? '');
    }
  });
  let sitter = '';
  for (const [at, day] of ['2027-03-26', '2027-04-02', '2027-10-22', '2027-11-05'].entries()) {
    const { sittingId, token } = await askForSitting(house, studio, {
      name: at === 0 ? `Ægir 漁師 ${'Øyvind-'.repeat(14)}Ö` : 'Ebba "Sal" Fjordvik; née Ås, 🐟',
      hopes: 'Hands, not faces;\n"nets\\ropes", if dry.\n\nÞökk! 手 🎣',
      suits: { kind: 'any', from: '2027-03-01', until: '2027-11-20' },
    });
    const [start = ''] = await openStarts(house, studio, { from: day, until: day });
    await approve(house, studio, sittingId, start);
    if (at === 1) await house.app.get(RequestsService).giveUp(studio.id, token);
    if (at === 3) sitter = (await house.app.get(ListService).behindLink(studio.id, token)).feedToken ?? '';
  }
  const { sessionId } = await teachingDay(house, studio, { start: '2027-04-07T10:00' });
  const { token } = await signUp(house, studio, sessionId);
  const student = (await house.app.get(TeachingViews).behindLink(studio.id, token)).feedToken ?? '';
  const links = house.app.get(LinksService);
  const desk = await house.db.inStudio(studio.id, async (tx) => {
    const secret = async (kind: 'owner' | 'assistant' | 'tasks') =>
      links.token(await links.ensure(tx, 'feed', studio.owner.id, kind));
    return {
      owner: await secret('owner'),
      assistant: await secret('assistant'),
      tasks: await secret('tasks'),
    };
  });
  return { ...desk, sitter, student };
}

describe('feeds by two parsers', () => {
  it('are the same instants and words in both, as many as we have', async () => {
    for (const [name, body] of Object.entries(bodies)) {
      const told = byIcalJs(body);
      expect([name, byNodeIcal(body)]).toEqual([name, told]);
      expect([name, wordsByNodeIcal(body)]).toEqual([name, wordsByIcalJs(body)]);
      expect([name, told.size > 0]).toEqual([name, true]);
      expect(body.match(/^BEGIN:VEVENT/gm)).toHaveLength(told.size);
    }
    const { rows } = await owner.query('select uid, starts_at, ends_at from occupancy');
    const ours = rows.map((row) => [row.uid, row.starts_at.toISOString(), row.ends_at.toISOString()]);
    const theirs = [...byIcalJs(bodies.owner ?? '')].map(([uid, { starts, ends }]) => [uid, starts, ends]);
    expect(theirs.sort()).toEqual(ours.sort());
    const summaries = [...wordsByIcalJs(bodies.owner ?? '').values()].map(({ summary }) => summary);
    expect(summaries).toEqual(expect.arrayContaining(TITLES));
  });
});

/** What the parsers read of all feeds, as a viewer's clock would show it. */
async function wanted(zone: string): Promise<Listed[]> {
  const all = Object.entries(bodies).flatMap(([feed, body]) => {
    const words = wordsByIcalJs(body);
    return [...byIcalJs(body)].map(([uid, told]) => ({ feed, told, words: words.get(uid) }));
  });
  const clock = await onSystemClock(
    zone,
    all.flatMap(({ told }) => [told.starts, told.ends]),
  );
  return all.map(({ feed, told, words }) => ({
    feed,
    starts: clock.get(told.starts) ?? '',
    ends: clock.get(told.ends) ?? '',
    summary: words?.summary ?? '',
    description: words?.description ?? '',
    location: words?.location ?? '',
    status: String(told.status),
  }));
}

const inOrder = (entries: Listed[]) => entries.map((entry) => JSON.stringify(entry)).sort();

// Elsewhere than in the full check the two programs need not be there; in it they must.
const withPrograms = programsAreThere() || process.env.CI === 'true' ? describe : describe.skip;
withPrograms('feeds by Debian’s synchroniser and calendar', () => {
  it('agree with the parsers on every event, for viewers on three clocks', async () => {
    await synchronise(folder, urls);
    const range = { from: '2026-08-01', until: '2028-11-30' };
    for (const zone of VIEWERS) {
      const shown = await listed(folder, Object.keys(urls), { zone, ...range });
      expect([zone, inOrder(shown)]).toEqual([zone, inOrder(await wanted(zone))]);
    }
  }, 60_000);
});
