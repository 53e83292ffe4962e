// Every link of every letter of every kind, opened as a scanner of mail opens it: each leads to a page, none acts, however
// often it is asked and whatever on its page is fetched ahead. What acts is the button on it.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it, jest } from '@jest/globals';
import { AccountsService } from '../../src/accounts/accounts.service.js';
import { FeedFetches } from '../../src/calendar/fetches.service.js';
import { FileMailer } from '../../src/platform/mailer.js';
import { LETTER_KINDS } from '../../src/reminders/letters.schemas.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { StopsService } from '../../src/reminders/stops.service.js';
import { OwnCalendarService } from '../../src/sittings/own-calendar.service.js';
import { changedTables, type Counters, everyRow } from '../support/all-rows.js';
import { allLinks, ENOUGH, type ReadLetter, readLetters, sendEveryKind } from '../support/every-letter.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { fieldsOf, readable } from '../support/page-forms.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, Visitor } from '../support/visitor.js';

const HERE = 'https://plates.example';
/** When, and by what kind of program, a calendar was fetched last: the one thing that looking may change. */
const COUNTERS: Counters = { 'public.link': ['fetched_at', 'fetched_by'] };

let house: TestHouse;
let studio: TestStudio;
let folder: string;
let letters: ReadLetter[];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'plateday-letters-'));
  house = await openTestHouse({ env: { PUBLIC_URL: HERE } });
  house.mail.further = new FileMailer(folder);
  studio = await foundTestStudio(house, { shelf: ENOUGH });
  await sendEveryKind(house, studio);
  letters = await readLetters(house, studio.id, folder);
}, 60_000);
afterEach(() => void jest.restoreAllMocks());
afterAll(async () => {
  await house.close();
  rmSync(folder, { recursive: true });
});

const ofKind = (kind: string) => letters.filter((letter) => letter.kind === kind);
const pathOf = (url: string) =>
  url.replace(/^(webcal|https):\/\/plates\.example(?=\/|$)/, '').split('#')[0] || '/';

/** Whatever a program might fetch ahead from a page: where its links lead, and its forms. */
const fetchedAhead = (html: string): string[] =>
  [...html.matchAll(/\b(?:href|action|formaction|src)="([^"]*)"/g)]
    .map(([, address = '']) => pathOf(readable(address)))
    .filter((path) => path.startsWith('/'));

/** At most three addresses that differ in nothing but their ids and secrets. */
const threeOfEach = (paths: Iterable<string>): string[] => {
  const seen = new Map<string, number>();
  return [...paths].filter((path) => {
    const shape = path.replace(/[0-9a-f-]{36}|[\w-]{43}/g, '');
    seen.set(shape, (seen.get(shape) ?? 0) + 1);
    return (seen.get(shape) ?? 0) <= 3;
  });
};

/** Opens addresses as somebody each, twice, and what their pages lead to. @returns what was not as it must be */
async function walk(paths: string[], who: () => Visitor, statuses: number[]): Promise<string[]> {
  await house.work();
  const [before, sent] = [await everyRow(house, COUNTERS), house.mail.sent.length];
  const faults: string[] = [];
  const ahead = new Set<string>();
  for (const path of paths)
    for (const round of [1, 2]) {
      const { status, html } = await who().get(path);
      const head = await who().look('HEAD', path);
      if (![status, head].every((one) => statuses.includes(one)))
        faults.push(`${path} answered ${status} and ${head} in round ${round}`);
      for (const next of fetchedAhead(html)) ahead.add(next);
    }
  for (const path of threeOfEach(ahead)) {
    const { status } = await who().get(path);
    // what leads elsewhere is not followed, and where a form goes there may be nothing to see
    if (![200, 302, 303, 401, 404].includes(status)) faults.push(`GET ${path} answered ${status}`);
  }
  await house.app.get(FeedFetches).flush();
  await house.work();
  const changed = changedTables(before, await everyRow(house, COUNTERS));
  if (house.mail.sent.length > sent) faults.push(`${house.mail.sent.length - sent} letters were sent`);
  return [...faults, ...changed.map((table) => `${table} changed`)];
}

const stranger = () => new Visitor(house);
const isOfDesk = (path: string) => path.startsWith(`/s/${studio.slug}/desk`);

describe('The letters', () => {
  it('are of every kind there is, each really sent', () => {
    const kinds = new Set(letters.map(({ kind }) => kind));
    expect(LETTER_KINDS.filter((kind) => !kinds.has(kind))).toEqual([]);
    expect(letters).toHaveLength(house.mail.sent.length);
  });

  it('have the same links in both their parts, all of them ours; only a letter to pass on has none', () => {
    for (const { kind, subject, links } of letters) {
      const passedOn = subject.startsWith('To pass on');
      expect([kind, links.html]).toEqual([kind, links.text]);
      expect([subject, links.text.length]).toEqual([subject, passedOn ? 0 : 1]);
      expect([subject, links.stops.length]).toEqual([subject, /reminder: /.test(kind) && !passedOn ? 1 : 0]);
    }
    for (const url of allLinks(letters))
      expect(url).toMatch(/^https:\/\/plates\.example\/s\/sandpiper-loft\//);
    expect(ofKind('confirmed').some(({ calendars }) => calendars.join().includes('BEGIN:VEVENT'))).toBe(true);
  });
});

describe('Looking changes nothing', () => {
  it('for a scanner without cookies that opens every link twice and fetches ahead what is on its page', async () => {
    const paths = allLinks(letters).map(pathOf);
    const [desk, open] = [paths.filter(isOfDesk), paths.filter((path) => !isOfDesk(path))];
    expect([desk.length > 10, open.length > 30]).toEqual([true, true]);
    expect(await walk(open, stranger, [200])).toEqual([]);
    expect(await walk(desk, stranger, [401])).toEqual([]);
  }, 60_000);

  it('through the API of the same pages', async () => {
    const own = allLinks([...ofKind('offered'), ...ofKind('teaching')]).map((url) => `/api/v1${pathOf(url)}`);
    expect(await walk([`/api/v1/s/${studio.slug}/openings`, ...own], stranger, [200])).toEqual([]);
  });

  it('for the owner’s own browser', async () => {
    const owner = await signedIn(house, studio, 'owner');
    const desk = allLinks(letters).map(pathOf).filter(isOfDesk);
    expect(await walk(threeOfEach(desk), () => owner, [200])).toEqual([]);
  }, 60_000);
});

describe('The button on it acts', () => {
  const JOIN = { name: 'Perpetua Nairn', password: 'gulls over the slipway' };
  const BUTTONS: [kind: string, act: RegExp, fields: Record<string, string>, table: string][] = [
    ['reminder: week', /\/give-up$/, {}, 'sitting'],
    ['moved', /\/another-day$/, {}, 'sitting'],
    ['run out', /\/reopen$/, {}, 'sitting'],
    ['teaching reminder: week', /\/leave$/, {}, 'sign_up'],
    ['sign-in', /\/sign-in\/[^/]+$/, {}, 'session'],
    ['sign-in', /\/join\/[^/]+$/, JOIN, 'account'],
  ];
  it.each(BUTTONS)('from a letter “%s”, by the form %s', async (kind, act, fields, table) => {
    for (const path of allLinks(ofKind(kind)).map(pathOf)) {
      const reader = new Visitor(house);
      const { html } = await reader.get(path);
      const action = fetchedAhead(html).find((one) => act.test(one));
      if (!action) continue;
      const before = await everyRow(house);
      expect((await reader.post(action, { ...fieldsOf(html, action), ...fields })).status).toBe(303);
      expect(changedTables(before, await everyRow(house))).toContain(`public.${table}`);
      return;
    }
    throw new Error('No page has that form.');
  });

  it('from the head of a reminder, by one click (RFC 8058)', async () => {
    const [url = ''] = ofKind('teaching reminder: week').flatMap(({ links }) => links.stops.map(pathOf));
    const before = await everyRow(house);
    const headers = { 'content-type': 'application/x-www-form-urlencoded' };
    const click = { method: 'POST' as const, url, headers, payload: 'List-Unsubscribe=One-Click' };
    expect((await house.app.inject(click)).statusCode).toBe(200);
    expect(changedTables(before, await everyRow(house))).toContain('public.contact');
  });
});

describe('The same walk catches a link that acts when it is looked at', () => {
  const pageOf = (kind: string) => [pathOf(ofKind(kind)[0]?.links.text[0] ?? '')];

  it('a page that stops reminders when it is shown', async () => {
    const stops = ofKind('reminder: week').flatMap(({ links }) => links.stops.map(pathOf));
    const behind = StopsService.prototype.behind;
    jest.spyOn(StopsService.prototype, 'behind').mockImplementation(async function (
      this: StopsService,
      id,
      token,
    ) {
      await this.set(id, token, false);
      return behind.call(this, id, token);
    });
    expect(await walk(stops.slice(0, 1), stranger, [200])).toContain('public.contact changed');
  });

  it('a sign-in link that is used up by looking', async () => {
    await house.app.get(AccountsService).askForLink(studio.id, studio.owner.email);
    await house.work();
    const path = pathOf(/https:\S+/.exec(house.mail.sent.at(-1)?.text ?? '')?.[0] ?? '');
    jest.spyOn(AccountsService.prototype, 'checkLink').mockImplementation(async function (
      this: AccountsService,
      id,
      token,
    ) {
      await this.signInByLink(id, token, '');
    });
    const faults = await walk([path], stranger, [200]);
    expect(faults).toContain('public.link changed');
    expect(faults).toContain(`${path} answered 410 and 410 in round 2`);
  });

  it('a page behind the page that acts, or writes a letter', async () => {
    const show = OwnCalendarService.prototype.show;
    jest.spyOn(OwnCalendarService.prototype, 'show').mockImplementation(async function (
      this: OwnCalendarService,
      id,
      token,
    ) {
      await house.app.get(RequestsService).giveUp(id, token);
      return show.call(this, id, token);
    });
    const faults = await walk(pageOf('confirmed'), stranger, [200]);
    expect(faults).toContain('public.sitting changed');
    expect(faults.join()).toMatch(/\d letters were sent/);
  });
});
