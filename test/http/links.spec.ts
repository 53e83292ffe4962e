// Secret links that fell into wrong hands: the owner makes new ones or ends them, and sees when a feed was fetched.
import { FeedFetches } from '../../src/calendar/fetches.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { wordsOf } from '../support/page-forms.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { signedIn, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let desk: string;
let owner: Visitor;
let anybody: Visitor;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  desk = `/s/${studio.slug}/desk`;
  owner = await signedIn(house, studio, 'owner');
  anybody = new Visitor(house);
});
afterAll(() => house.close());

const calendar = async () => (await owner.get(`${desk}/calendar`)).html;
/** The id of the first link of the page. */
const linkOn = (html: string) => /name="link" value="([^"]+)"/.exec(html)?.[1] ?? '';
const feedOn = (html: string) => /webcal:\/\/localhost:4180([^"]+\.ics)"/.exec(html)?.[1] ?? '';
const statusOf = async (path: string) => (await anybody.get(path)).status;

describe('The link of whoever asked', () => {
  it('is made anew by the owner: the old one and that of their calendar stop, and the new ones work', async () => {
    const { sittingId, token } = await askForSitting(house, studio);
    const [start = ''] = await openStarts(house, studio, { from: '2027-03-05', until: '2027-03-31' });
    await approve(house, studio, sittingId, start);
    const request = `${desk}/requests/${sittingId}`;
    const old = `/s/${studio.slug}/place/${token}`;
    expect((await owner.get(request)).html).toContain(`value="http://localhost:4180${old}"`);
    const oldFeed = feedOn((await anybody.get(old)).html);
    expect(await statusOf(oldFeed)).toBe(200);

    const after = await owner.postAndFollow(`${request}/new-link`);
    expect(wordsOf(after.html)).toContain('The new link stands below. The old one has stopped.');
    expect(wordsOf(after.html)).toContain('Isaura Fenwick made a new link to their page');
    const made = new RegExp(`value="http://localhost:4180(/s/${studio.slug}/place/[^"]+)"`).exec(
      after.html,
    )?.[1];
    expect(made).not.toBe(old);
    expect([await statusOf(old), await statusOf(oldFeed)]).toEqual([404, 410]);
    const page = await anybody.get(made ?? '');
    expect(page.status).toBe(200);
    expect(await statusOf(feedOn(page.html))).toBe(200);
  });

  it('is carried by letters that were written before and are sent after', async () => {
    const { sittingId, token } = await askForSitting(house, studio, { email: 'later@post.example' });
    await owner.post(`${desk}/requests/${sittingId}/new-link`);
    await house.work();
    const letter = house.mail.sent.find((one) => one.to.address === 'later@post.example');
    const path = /\/s\/[^/\s]+\/place\/[\w-]+/.exec(letter?.text ?? '')?.[0] ?? '';
    expect(path).not.toContain(token);
    expect(await statusOf(path)).toBe(200);
  });
});

describe('The owner’s calendar link', () => {
  it('tells when a calendar last came for it, once the minute is over', async () => {
    const feed = feedOn(await calendar());
    expect(wordsOf(await calendar())).toContain('No calendar has come for it yet.');
    house.clock.set('2026-11-25T10:30:00Z');
    await statusOf(feed);
    expect(wordsOf(await calendar())).toContain('No calendar has come for it yet.');
    const fetches = house.app.get(FeedFetches);
    await fetches.flush();
    expect(wordsOf(await calendar())).toMatch(/A calendar last came for it on .*25 November.* 10:30/);
    house.clock.set('2026-11-25T11:45:00Z');
    const { status } = await anybody.get(feed, { 'if-none-match': (await anybody.get(feed)).header('etag') });
    expect(status).toBe(304);
    await fetches.flush();
    expect(wordsOf(await calendar())).toMatch(/A calendar last came for it on .*11:45/);
  });

  it('is made anew: the old one stops, and nobody came for the new one yet', async () => {
    const before = await calendar();
    const old = feedOn(before);
    const after = await owner.postAndFollow(`${desk}/calendar`, { link: linkOn(before), do: 'replace' });
    expect(wordsOf(after.html)).toContain('The new link is made. The old one has stopped');
    expect(wordsOf(after.html)).toContain('No calendar has come for it yet.');
    expect([await statusOf(old), await statusOf(feedOn(after.html))]).toEqual([410, 200]);
  });

  it('is ended: whoever asks is told so, and another can be made', async () => {
    const before = await calendar();
    const old = feedOn(before);
    const after = await owner.postAndFollow(`${desk}/calendar`, { link: linkOn(before), do: 'end' });
    expect(wordsOf(after.html)).toContain('You have no calendar link yet.');
    expect(await statusOf(old)).toBe(410);
    const made = feedOn((await owner.postAndFollow(`${desk}/calendar`, { of: 'owner', do: 'make' })).html);
    expect([await statusOf(old), await statusOf(made)]).toEqual([410, 200]);
  });

  it('that is not there is neither replaced nor ended', async () => {
    for (const act of ['replace', 'end']) {
      const after = await owner.postAndFollow(`${desk}/calendar`, { link: studio.owner.id, do: act });
      expect(wordsOf(after.html)).toContain('There was no link any more, so nothing was done.');
    }
  });

  it('that is there is not made again, and the page says so', async () => {
    const before = feedOn(await calendar());
    const after = await owner.postAndFollow(`${desk}/calendar`, { of: 'owner', do: 'make' });
    expect(feedOn(after.html)).toBe(before);
    expect(wordsOf(after.html)).toContain('There was a link already. It stands below as it was.');
  });

  it('is neither made nor changed by a press that is not known', async () => {
    const before = await calendar();
    for (const sent of [
      { of: 'tasks', do: 'stop' },
      { of: 'tasks' },
      { of: 'all', do: 'make' },
      { link: 'x', do: 'end' },
    ]) {
      expect((await owner.post(`${desk}/calendar`, sent)).status).toBe(422);
    }
    expect(wordsOf(await calendar())).toBe(wordsOf(before));
  });

  it('is made for each device by a name, and tells what kind of program came for it', async () => {
    const add = (name: string) => owner.post(`${desk}/calendar`, { of: 'busy', do: 'add', name });
    expect((await add('Kitchen tablet')).status).toBe(303);
    const second = await add('Kitchen tablet');
    expect(second.status).toBe(422);
    expect(wordsOf(second.html)).toContain('There is a link of this kind and name already');
    expect(second.html).toContain('value="Kitchen tablet"');
    expect((await add('')).status).toBe(422);
    const page = await calendar();
    expect(wordsOf(page)).toContain('Kitchen tablet');
    const addresses = [...page.matchAll(/value="http:\/\/localhost:4180([^"]+\.ics)"/g)].map(
      ([, path]) => path ?? '',
    );
    const busy = addresses.at(-2) ?? ''; // the last is the public one
    const got = await anybody.get(busy, { 'user-agent': 'iOS/17.4 (21E219) dataaccessd/1.0' });
    expect(got.status).toBe(200);
    await house.app.get(FeedFetches).flush();
    expect(wordsOf(await calendar())).toContain(': a phone or tablet.');
  });
});
