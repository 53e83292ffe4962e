// A sitter's and a student's own calendar page: what it offers, a new address, and the journeys that come and go in the feed.
import { byIcalJs, byNodeIcal } from '../support/calendar-readers.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { wordsOf } from '../support/page-forms.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { signUp, teachingDay } from '../support/teaching.js';
import { Visitor } from '../support/visitor.js';
import { LinksService } from '../../src/accounts/links.service.js';

let house: TestHouse;
let studio: TestStudio;
let sitter: Visitor;
let own: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  sitter = new Visitor(house);
  const { sittingId, token } = await askForSitting(house, studio);
  const [start = ''] = await openStarts(house, studio, { from: '2027-03-05', until: '2027-03-31' });
  await approve(house, studio, sittingId, start);
  own = `/s/${studio.slug}/place/${token}`;
});
afterAll(() => house.close());
beforeEach(() => house.clock.forward({ minutes: 1 }));

const feedOn = (html: string) => /webcal:\/\/localhost:4180([^"]+\.ics)"/.exec(html)?.[1] ?? '';
const page = (of = own) => sitter.get(`${of}/calendar`);
async function feed(of = own) {
  const got = await sitter.get(feedOn((await page(of)).html));
  return { etag: got.header('etag'), text: got.html, told: byIcalJs(got.html) };
}
const rising = (
  before: Awaited<ReturnType<typeof feed>>,
  after: Awaited<ReturnType<typeof feed>>,
  uid: string,
) => {
  expect(after.etag).not.toBe(before.etag);
  expect(Number(after.told.get(uid)?.sequence)).toBeGreaterThan(Number(before.told.get(uid)?.sequence));
  expect((after.told.get(uid)?.revised ?? '') > (before.told.get(uid)?.revised ?? '')).toBe(true);
};

it('tells in plain words how to put it on a phone, with a picture to scan', async () => {
  const { html } = await page();
  expect((await sitter.get(own)).html).toContain(`href="${own}/calendar"`);
  expect(html).toContain('<svg class="qr-code"');
  expect(html).toContain(`value="http://localhost:4180${feedOn(html)}"`);
  for (const words of ['the letter comes first', 'some once a day', 'the old address gives nothing more'])
    expect(wordsOf(html)).toContain(words);
  expect(html).not.toMatch(/iphone|android|google|apple|outlook|thunderbird|samsung/i);
});

it('brings the journeys when they ask for them, follows what they say of it, and takes them out again', async () => {
  const before = await feed();
  const [uid = ''] = [...before.told.keys()];
  expect(before.text.replace(/\r\n /g, '')).toContain(`:http://localhost:4180${own}\r\n`);
  await sitter.post(`${own}/calendar`, { do: 'journeys' });
  const town = { place: 'York, United Kingdom', mode: 'train', hours: '2:00', night: 'no' };
  expect((await sitter.post(`${own}/journey`, town)).status).toBe(303);
  const shown = await feed();
  expect([...shown.told.keys()].sort()).toEqual([uid, `${uid}-back`, `${uid}-there`].sort());
  expect(byNodeIcal(shown.text)).toEqual(shown.told);
  expect(shown.text.match(/TRIGGER/g)).toHaveLength(1);

  house.clock.forward({ minutes: 1 });
  await sitter.post(`${own}/journey`, { ...town, hours: '4:00' });
  const longer = await feed();
  rising(shown, longer, `${uid}-there`);
  expect(
    (longer.told.get(`${uid}-there`)?.starts ?? '') < (shown.told.get(`${uid}-there`)?.starts ?? ''),
  ).toBe(true);

  house.clock.forward({ minutes: 1 });
  await sitter.post(`${own}/calendar`, { do: 'no journeys' });
  const out = await feed();
  rising(longer, out, `${uid}-there`);
  expect(out.told.get(`${uid}-back`)?.status).toBe('CANCELLED');
  expect(out.text).not.toContain('TRIGGER');
  house.clock.forward({ hours: 15 * 24 });
  expect([...(await feed()).told.keys()]).toEqual([uid]);
});

/** On their page somebody asks for French: calendar, letters and page are in it, until they ask for English again. */
async function inFrenchAndBack(of: string): Promise<void> {
  const [uid = ''] = [...(await feed(of)).told.keys()];
  const before = await feed(of);
  const first = await sitter.get(of);
  expect(first.html).toMatch(/name="language" value="en"[^>]*checked/);
  house.clock.forward({ minutes: 1 });
  const french = await sitter.postAndFollow(`${of}/language`, { language: 'fr' });
  expect(french.html).toContain('<html lang="fr">');
  expect(french.html).toMatch(/name="language" value="fr"[^>]*checked/);
  expect(wordsOf(french.html)).toContain('Vos lettres et votre calendrier sont désormais en français.');
  const after = await feed(of);
  rising(before, after, uid);
  expect(after.text).toContain(' chez Sandpiper Loft');
  await sitter.get(of);
  for (const language of ['xx', '', ['fr', 'en']])
    expect((await sitter.post(`${of}/language`, { language })).status).toBe(422);
  expect((await sitter.post(`${of.slice(0, -1)}!/language`, { language: 'en' })).status).toBe(404);
  expect((await feed(of)).etag).toBe(after.etag);
  house.clock.forward({ minutes: 1 });
  const back = await sitter.postAndFollow(`${of}/language`, { language: 'en' });
  expect(back.html).toContain('<html lang="en-GB">');
  rising(after, await feed(of), uid);
}

it('gets a new address: the old one answers that it ended, and what is unknown is refused', async () => {
  const old = feedOn((await page()).html);
  const after = await sitter.postAndFollow(`${own}/calendar`, { do: 'replace' });
  expect(wordsOf(after.html)).toContain('The new address stands below.');
  const next = feedOn(after.html);
  expect([(await sitter.get(old)).status, (await sitter.get(next)).status]).toEqual([410, 200]);
  expect((await sitter.post(`${own}/calendar`, { do: 'end' })).status).toBe(422);
  expect((await sitter.get(`${own.slice(0, -1)}!/calendar`)).status).toBe(404);
});

it('holds busy times with no word of anybody, beside the owner’s', async () => {
  const links = house.app.get(LinksService);
  const path = await house.db.inStudio(studio.id, async (tx) => {
    const made = await links.ensure(tx, 'feed', studio.owner.id, 'busy');
    return `/s/${studio.slug}/calendar/${links.token(made)}.ics`;
  });
  const { html } = await sitter.get(path);
  const theirs = await feed();
  const summaries = html.match(/^SUMMARY:.*$/gm)?.map((line) => line.trim());
  expect(summaries).toEqual(['SUMMARY:Busy']);
  for (const name of ['LOCATION', 'DESCRIPTION', 'GEO', 'URL', 'ATTENDEE'])
    expect(html).not.toMatch(new RegExp(`^${name}[:;]`, 'm'));
  const [busy] = [...byIcalJs(html)];
  expect(busy?.[1].starts).toBe([...theirs.told.values()][0]?.starts);
  expect(theirs.told.has(busy?.[0] ?? '')).toBe(false);
});

it('is in the language that they choose on their page, like the page and their letters', async () => {
  const { sittingId, token } = await askForSitting(house, studio, { email: 'vire@post.example' });
  const [start = ''] = await openStarts(house, studio, { from: '2027-04-09', until: '2027-04-30' });
  await approve(house, studio, sittingId, start);
  const theirs = `/s/${studio.slug}/place/${token}`;
  await inFrenchAndBack(theirs);
  await sitter.post(`${theirs}/language`, { language: 'fr' });
  await house.work();
  house.mail.sent.splice(0);
  await sitter.post(`${theirs}/another-day`);
  await house.work();
  const letters = house.mail.sent.splice(0).filter(({ to }) => to.address === 'vire@post.example');
  expect(letters.map(({ subject }) => subject)).toEqual([expect.stringContaining('à Sandpiper Loft')]);
  expect(letters[0]?.invitation?.content.replace(/\r\n /g, '')).toContain(
    'SUMMARY:Annulé\u00a0: Séance de pose chez Sandpiper Loft',
  );
});

describe('Of a student', () => {
  let student: string;
  let waiting: string;

  beforeAll(async () => {
    const { sessionId } = await teachingDay(house, studio, { most: 2, least: 1 });
    const { token } = await signUp(house, studio, sessionId, { email: 'learns@post.example' });
    const pair = { students: [{ name: 'Una' }, { name: 'Ola' }], orWait: true, email: 'waits@post.example' };
    const second = await signUp(house, studio, sessionId, pair);
    [student, waiting] = [token, second.token].map((one) => `/s/${studio.slug}/student/${one}`) as [
      string,
      string,
    ];
  });

  it('there is none before they have a place, and then it is there with their day', async () => {
    expect((await page(waiting)).status).toBe(404);
    expect((await sitter.post(`${waiting}/calendar`, { do: 'replace' })).status).toBe(404);
    const { html } = await page(student);
    expect(html).toContain('<svg class="qr-code"');
    expect((await sitter.get(student)).html).toContain(`href="${student}/calendar"`);
    const { told, text } = await feed(student);
    expect(told.size).toBe(1);
    expect(byNodeIcal(text)).toEqual(told);
  });

  it('the journeys come when they ask for them, follow what they say, and go again', async () => {
    const before = await feed(student);
    const [uid = ''] = [...before.told.keys()];
    await page(student);
    const asked = await sitter.postAndFollow(`${student}/calendar`, { do: 'journeys' });
    expect(wordsOf(asked.html)).toContain('Your journeys stand in your calendar the next time it looks.');
    const town = { place: 'York, United Kingdom', mode: 'train', hours: '2:00', night: 'no' };
    expect((await sitter.post(`${student}/journey`, town)).status).toBe(303);
    const shown = await feed(student);
    expect([...shown.told.keys()].sort()).toEqual([uid, `${uid}-back`, `${uid}-there`].sort());

    house.clock.forward({ minutes: 1 });
    await sitter.post(`${student}/journey`, { ...town, hours: '4:00' });
    const longer = await feed(student);
    rising(shown, longer, `${uid}-there`);
    const starts = [shown, longer].map(({ told }) => told.get(`${uid}-there`)?.starts ?? '');
    expect([...starts].sort()).toEqual([starts[1], starts[0]]);

    house.clock.forward({ minutes: 1 });
    await sitter.post(`${student}/calendar`, { do: 'no journeys' });
    const out = await feed(student);
    rising(longer, out, `${uid}-there`);
    expect([`${uid}-there`, `${uid}-back`].map((one) => out.told.get(one)?.status)).toEqual([
      ...['CANCELLED', 'CANCELLED'],
    ]);
    await sitter.post(`${student}/calendar`, { do: 'no journeys' }); // once more is no change
    expect((await feed(student)).etag).toBe(out.etag);
  });

  it('gets a new address: the old one answers that it ended; what is unknown is refused', async () => {
    const old = feedOn((await page(student)).html);
    const after = await sitter.postAndFollow(`${student}/calendar`, { do: 'replace' });
    expect(wordsOf(after.html)).toContain('The new address stands below.');
    const next = feedOn(after.html);
    expect([(await sitter.get(old)).status, (await sitter.get(next)).status]).toEqual([410, 200]);
    expect((await sitter.post(`${student}/calendar`, { do: 'end' })).status).toBe(422);
    expect((await sitter.get(`${student.slice(0, -1)}!/calendar`)).status).toBe(404);
  });

  it('is in the language that they choose on their page', () => inFrenchAndBack(student));

  it('once their day was given back the calendar says so', async () => {
    await sitter.get(student);
    await sitter.post(`${student}/leave`);
    expect([...(await feed(student)).told.values()].map(({ status }) => status)).toContain('CANCELLED');
  });
});
