// A sitter's own calendar page: what it offers, a new address, and the journeys that come and go in the feed.
import { byIcalJs, byNodeIcal } from '../support/calendar-readers.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { wordsOf } from '../support/page-forms.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
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
const page = () => sitter.get(`${own}/calendar`);
async function feed() {
  const got = await sitter.get(feedOn((await page()).html));
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
