// A feed of each kind: byte for byte as reviewed, read alike by two parsers that are not ours; and whatever people and
// the owner type, it keeps its shape.
import { readFileSync, writeFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { LinksService } from '../../src/accounts/links.service.js';
import { FEED_KINDS, type FeedKind } from '../../src/calendar/feeds.calc.js';
import { LetterLanguage } from '../../src/reminders/letter-language.service.js';
import { RoomService } from '../../src/room/room.service.js';
import { ListService } from '../../src/sittings/list.service.js';
import { OwnCalendarService } from '../../src/sittings/own-calendar.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import { TeachingViews } from '../../src/teaching/views.service.js';
import { Temporal } from 'temporal-polyfill';
import { contentLines, propertyCounts } from '../support/calendar-entries.js';
import {
  byIcalJs,
  byNodeIcal,
  type Told,
  wordsByIcalJs,
  wordsByNodeIcal,
} from '../support/calendar-readers.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { signUp, teachingDay } from '../support/teaching.js';

let house: TestHouse;

beforeAll(async () => {
  house = await openTestHouse({ now: '2026-11-25T10:00:00Z' });
});
afterAll(() => house.close());

/** Whatever anybody can type that a calendar shows. */
interface Texts {
  studio: string;
  address: string;
  person: string;
  hopes: string;
  anything: string;
  closure: string;
  course: string;
  bring: string;
}

const PLAIN: Texts = {
  studio: 'Kittiwake Yard',
  address: 'Kittiwake Yard, Harbour Steps',
  person: 'Ebba Fjordvik',
  hopes: 'Hands, not faces.',
  anything: 'Steps are hard for her.',
  closure: 'The roof',
  course: 'First Plates',
  bring: 'Something to eat at noon.',
};

type Feeds = Record<FeedKind, string>;
const feedsWith = async (slug: string, texts: Texts): Promise<Feeds> => (await yardWith(slug, texts)).feeds;

/** One sitting to come, one given up, one offered day closed, a teaching day with a student, and the feeds by kind. */
async function yardWith(slug: string, texts: Texts) {
  const studio = await foundTestStudio(house, {
    slug,
    email: `desk@${slug}.example`,
    name: texts.studio,
    address: texts.address,
    shelf: { wholeGlass: 500n, halfGlass: 500n, collodion: 90_000_000n, developer: 90_000_000n },
  });
  await house.db.inStudio(studio.id, async (tx) => {
    const range = { from: day('2027-03-27'), until: day('2027-03-29') };
    await house.app
      .get(RoomService)
      .close(tx, await house.app.get(StudiosService).load(tx), range, texts.closure);
  });
  const asking = {
    name: texts.person,
    sitters: [texts.person],
    hopes: texts.hopes,
    anything: texts.anything,
    suits: { kind: 'any', from: '2027-03-01', until: '2027-11-20' } as const,
  };
  const stays = await sittingOn(studio, '2027-04-02', asking);
  const goes = await sittingOn(studio, '2027-10-22', asking);
  await house.app.get(RequestsService).giveUp(studio.id, goes);
  await house.app.get(OwnCalendarService).act(studio.id, stays, { do: 'journeys' });
  const { sessionId } = await teachingDay(house, studio, { name: texts.course, bring: texts.bring });
  const { token } = await signUp(house, studio, sessionId, {
    name: texts.person,
    students: [{ name: texts.person }],
  });
  const secrets: Record<string, string | null> = {
    sitter: (await house.app.get(ListService).behindLink(studio.id, stays)).feedToken,
    student: (await house.app.get(TeachingViews).behindLink(studio.id, token)).feedToken,
    workshops: 'teaching-days',
  };
  const links = house.app.get(LinksService);
  await house.db.inStudio(studio.id, async (tx) => {
    for (const kind of ['owner', 'assistant', 'tasks', 'busy'] as const)
      secrets[kind] = links.token(await links.ensure(tx, 'feed', studio.owner.id, kind));
  });
  const asked = async (kind: FeedKind, query = '') => {
    const answer = await house.app.inject({ url: `/s/${slug}/calendar/${secrets[kind]}.ics${query}` });
    expect([kind, answer.statusCode]).toEqual([kind, 200]);
    return { text: answer.body, etag: answer.headers.etag };
  };
  const feeds = {} as Feeds;
  for (const kind of FEED_KINDS) feeds[kind] = (await asked(kind)).text;
  return { feeds, asked, studio, stays, goes, token };
}

const day = (text: string) => Temporal.PlainDate.from(text);

/** @returns the secret of their page */
async function sittingOn(studio: TestStudio, on: string, asking: object): Promise<string> {
  const { sittingId, token } = await askForSitting(house, studio, asking);
  const [start = ''] = await openStarts(house, studio, { from: on, until: on });
  await approve(house, studio, sittingId, start);
  return token;
}

/** Ids and secrets are by chance: each is named by the order in which it comes. Lines are unfolded, since ids are in them. */
function named(text: string): string {
  const names = new Map<string, string>();
  const name = (found: string, kind: string) => {
    if (!names.has(found)) names.set(found, `${kind}-${names.size + 1}`);
    return names.get(found) ?? '';
  };
  return `${contentLines(text)
    .join('\r\n')
    .replace(/[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/g, (id) => name(id, 'id'))
    .replace(/[A-Za-z0-9_-]{43}/g, (secret) => name(secret, 'secret'))}\r\n`;
}

function expectGolden(name: string, feed: string): void {
  const file = new URL(`../golden/calendar/${name}.ics`, import.meta.url);
  const text = named(feed);
  if (process.env.UPDATE_GOLDEN) writeFileSync(file, text);
  expect(text).toBe(readFileSync(file, 'utf8'));
}

describe('a feed of each kind', () => {
  let yard: Awaited<ReturnType<typeof yardWith>>;
  let feeds: Feeds;
  beforeAll(async () => {
    yard = await yardWith('kittiwake-yard', PLAIN);
    feeds = yard.feeds;
  });

  it.each(FEED_KINDS)('of %s is as it was reviewed', (kind) => {
    expectGolden(`of-${kind}`, feeds[kind]);
  });

  it.each(FEED_KINDS)('of %s is read alike by two parsers', (kind) => {
    expect(byNodeIcal(feeds[kind])).toEqual(byIcalJs(feeds[kind]));
    expect(feeds[kind].match(/^BEGIN:VEVENT/gm)).toHaveLength(byIcalJs(feeds[kind]).size);
  });

  it('of busy times and of teaching days names nobody', () => {
    for (const kind of ['busy', 'workshops'] as const)
      for (const text of [PLAIN.person, PLAIN.hopes, PLAIN.anything, PLAIN.closure])
        expect([kind, feeds[kind].replace(/\r\n /g, '').includes(text)]).toEqual([kind, false]);
  });
});

/** English words of ours that no calendar in French has. */
const ENGLISH =
  /Sitting|Cancelled|Journey|Leave by|door to door|Good light|Bring|Wear|learns|teaching days|places? left/;

describe('in the language of whoever it is for', () => {
  let yard: Awaited<ReturnType<typeof yardWith>>;
  beforeAll(async () => {
    yard = await yardWith('bilingual-yard', PLAIN);
  });
  const change = (language: string) => {
    house.clock.forward({ minutes: 1 });
    const own = house.app.get(LetterLanguage);
    const { studio, stays, goes, token } = yard;
    return Promise.all([
      own.setOwn(studio.id, 'sitting', stays, language),
      own.setOwn(studio.id, 'sitting', goes, language),
      own.setOwn(studio.id, 'teaching', token, language),
    ]);
  };

  it('the one that anybody may follow is in the language of its address', async () => {
    const [english, french] = [await yard.asked('workshops'), await yard.asked('workshops', '?lang=fr')];
    expect(french.etag).not.toBe(english.etag);
    expectGolden('of-workshops-in-french', french.text);
    expect([ENGLISH.test(english.text), ENGLISH.exec(french.text)]).toEqual([true, null]);
    expect(byIcalJs(french.text)).toEqual(byIcalJs(english.text));
    expect((await yard.asked('workshops', '?lang=xx')).text).toBe(english.text);
  });

  it('each is as it was reviewed, says the same of the same instants under another tag, and comes back', async () => {
    const kinds = ['sitter', 'student'] as const;
    const before = await Promise.all(kinds.map((kind) => yard.asked(kind)));
    await change('fr');
    for (const [at, kind] of kinds.entries()) {
      const [english, french] = [before[at], await yard.asked(kind)];
      expect([kind, french.etag === english?.etag]).toEqual([kind, false]);
      expectGolden(`of-${kind}-in-french`, french.text);
      expect([kind, ENGLISH.exec(english?.text ?? '')?.[0]]).toEqual([kind, expect.any(String)]);
      expect([kind, ENGLISH.exec(french.text)]).toEqual([kind, null]);
      expect(byNodeIcal(french.text)).toEqual(byIcalJs(french.text));
      expect(wordsByNodeIcal(french.text)).toEqual(wordsByIcalJs(french.text));
      const was = byIcalJs(english?.text ?? '');
      for (const [uid, told] of byIcalJs(french.text)) {
        const { status, starts, ends, sequence, revised } = was.get(uid) as Told;
        expect(told).toMatchObject({ status, starts, ends });
        if (status !== 'CONFIRMED') continue;
        expect([uid, Number(told.sequence) > Number(sequence), told.revised > revised]).toEqual([
          uid,
          true,
          true,
        ]);
      }
      for (const line of french.text.split('\r\n')) {
        expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
        expect(line).not.toMatch(/\ufffd/);
      }
    }
    const kept = await yard.asked('sitter');
    await change('fr'); // nothing is changed by saying so once more
    expect((await yard.asked('sitter')).etag).toBe(kept.etag);
    await change('en');
    const unrevised = (text = '') => text.replace(/^(SEQUENCE|DTSTAMP|LAST-MODIFIED):.*\r\n/gm, '');
    for (const [at, kind] of kinds.entries())
      expect(unrevised((await yard.asked(kind)).text)).toBe(unrevised(before[at]?.text));
  });
});

describe('whatever is typed', () => {
  const bait = fc.constantFrom(
    ...[
      '\r\n',
      '\n',
      '\\',
      '\\n',
      '"',
      ',',
      ';',
      ':',
      '\u2028',
      '\u0085',
      '\t',
      "^'",
      '%0D%0A',
      '📷',
      '👩🏽‍🔬',
    ],
    ...[
      '手',
      '\u202e',
      'END:VEVENT',
      'BEGIN:VEVENT',
      'X-EVIL:1',
      'METHOD:CANCEL',
      ';CN="',
      'RRULE:FREQ=DAILY',
    ],
    'æ'.repeat(40),
  );
  const hostile = fc
    .array(fc.oneof(bait, fc.string({ unit: 'grapheme', maxLength: 12 })), { minLength: 3, maxLength: 8 })
    .map((parts) => `x${parts.join('').replace(/\0/g, '')}`.slice(0, 110));
  const texts = fc.record<Texts>({
    studio: hostile.map(oneLine),
    address: hostile,
    person: hostile.map(oneLine),
    hopes: hostile,
    anything: hostile,
    closure: hostile.map(oneLine),
    course: hostile.map(oneLine),
    bring: hostile,
  });
  /** These reach their tables through forms of one line. */
  function oneLine(text: string): string {
    return text.replace(/[\p{Cc}\s\u2028]+/gu, ' ').trim();
  }

  it('no feed gains or loses a property, no line is too long, no character is cut', async () => {
    const plain = await feedsWith('plain-yard', PLAIN);
    const draws = fc.sample(texts, { numRuns: process.env.PLATEDAY_DEEP ? 100 : 4, seed: 20261126 });
    for (const [at, drawn] of draws.entries()) {
      const feeds = await feedsWith(`hostile-${at}`, drawn);
      for (const kind of FEED_KINDS) {
        expect([kind, drawn, propertyCounts(feeds[kind])]).toEqual([
          kind,
          drawn,
          propertyCounts(plain[kind]),
        ]);
        for (const line of feeds[kind].split('\r\n')) {
          expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
          expect(line).not.toMatch(/\ufffd/);
        }
        expect(byNodeIcal(feeds[kind]).size).toBe(byIcalJs(feeds[kind]).size);
      }
    }
  }, 60_000);
});
