// The owner types in what somebody asks for on the telephone: a short form, no e-mail, a told yes on the record.
import { z } from 'zod';
import { VouchersService } from '../../src/vouchers/vouchers.service.js';
import { countSittings } from '../support/ask-form.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { choicesOf, errorAt, fieldsOf, type Sent, wordsOf } from '../support/page-forms.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';
import { VOUCHER } from '../support/vouchers.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let path: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  owner = await signedIn(house, studio, 'owner');
  path = `/s/${studio.slug}/desk/requests/new`;
});
afterAll(() => house.close());

const CALLER = { name: 'Ebba Fjordvik', telephone: '01632 960188', home: 'Lerwick' };

/** The form as it opens, with what is typed into it. */
const filled = async (more: Sent = {}): Promise<Sent> => ({
  ...fieldsOf((await owner.get(path)).html, path),
  ...CALLER,
  ...more,
});
const sittings = () => countSittings(house, studio);

describe('A request typed in', () => {
  it('needs a name, a number and a home; it says who typed it, and rings nobody who has just rung', async () => {
    for (const from of ['', '/waiting', '/requests'])
      expect((await owner.get(`/s/${studio.slug}/desk${from}`)).html).toContain(`href="${path}"`);
    const told = await owner.postAndFollow(path, await filled());
    const words = wordsOf(told.html);
    expect(words).toContain('The request is entered, and was asked today.');
    expect(words).toContain('Isaura Fenwick typed in what they asked for on the telephone');
    expect(words).toContain('Whole plate: Ebba Fjordvik');
    expect(words).toContain('any open day from Saturday 28 November 2026');
    expect(words).toContain('Comes from Lerwick, Scotland, United Kingdom');
    await house.work();
    const telephone = await owner.get(`/s/${studio.slug}/desk/telephone`);
    expect(wordsOf(telephone.html)).not.toContain('Ebba Fjordvik');
  });

  it('makes one request of the same form sent eight times at one moment', async () => {
    const before = await sittings();
    const form = await filled({ name: 'Sigrid Hawksworth' });
    const all = await Promise.all(Array.from({ length: 8 }, () => owner.post(path, form)));
    expect(new Set(all.map((one) => one.location)).size).toBe(1);
    expect(await sittings()).toBe(before + 1);
    const other = await owner.post(path, { ...form, name: 'Somebody else' });
    expect(other.status).toBe(422);
    expect(wordsOf(other.html)).toContain('This was entered already.');
    expect(await sittings()).toBe(before + 1);
  });

  it('puts several people on each plate together, or each on plates of their own', async () => {
    const people = 'Ebba Fjordvik\n\n Corentin Maddock \r\n';
    const together = await owner.postAndFollow(path, await filled({ people, count: '2' }));
    expect(wordsOf(together.html).match(/Whole plate: Ebba Fjordvik, Corentin Maddock/g)).toHaveLength(2);
    const apart = await owner.postAndFollow(path, await filled({ people, count: '2', on: 'each' }));
    const words = wordsOf(apart.html);
    expect(words.match(/Whole plate: Ebba Fjordvik/g)).toHaveLength(2);
    expect(words.match(/Whole plate: Corentin Maddock/g)).toHaveLength(2);
  });

  it('records a yes that was told with the day and the version that was read out', async () => {
    const consents = ['contact:1', 'show:1'];
    const page = await owner.get(path);
    expect([...choicesOf(page.html, 'consents').keys()]).toEqual([
      'contact:1',
      'record:1',
      'archive:1',
      'show:1',
    ]);
    const told = await owner.postAndFollow(path, { ...fieldsOf(page.html, path), ...CALLER, consents });
    const words = wordsOf(told.html);
    expect(words.match(/told to Isaura Fenwick, in version 1 of these words/g)).toHaveLength(2);
    expect(words.match(/Agreed to on Wednesday 25 November 2026/g)).toHaveLength(2);
  });

  it('records no yes about plates for people who did not ring, and none to words that were not read', async () => {
    const before = await sittings();
    const others = await owner.post(path, await filled({ people: 'Corentin Maddock', consents: 'show:1' }));
    expect(others.status).toBe(422);
    expect(errorAt(others.html, 'consents')).toMatch(/^Whoever rings does not sit/);
    const unread = await owner.post(path, await filled({ consents: 'show:2' }));
    expect(errorAt(unread.html, 'consents')).toMatch(/^These words were changed in the meantime/);
    expect(await sittings()).toBe(before);
    const kept = await house.db.inStudio(studio.id, (tx) =>
      tx.many(
        z.object({ version: z.number() }),
        'select version from consent where studio_id = $1 and version = 2',
        [studio.id],
      ),
    );
    expect(kept).toEqual([]);
  });

  it('takes a voucher’s number, and leaves a surprise one', async () => {
    const vouchers = house.app.get(VouchersService);
    await vouchers.save(studio.id, studio.owner, null, { ...VOUCHER, number: '77' });
    const told = await owner.postAndFollow(path, await filled({ voucher: '77' }));
    expect(wordsOf(told.html)).toContain('Isaura Fenwick used a gift voucher on it: No. 77');
    const used = (await vouchers.list(studio.id)).vouchers.find((one) => one.number === '77');
    expect([used?.used !== null, used?.toldAt]).toEqual([true, null]);
    const again = await owner.post(path, await filled({ voucher: '77' }));
    expect(errorAt(again.html, 'voucher')).toBe('This voucher was used already.');
  });
});

describe('A mistake in it', () => {
  it.each<[string, Sent, string, RegExp]>([
    ['no name', { name: '' }, 'name', /^Please give the name of whoever rings/],
    ['no number', { telephone: '' }, 'telephone', /^Please give a telephone number/],
    ['no home', { home: '' }, 'home', /^Please say where they travel from/],
    ['a home of several', { home: 'Newport' }, 'homeId', /^Please choose which of these places/],
    ['no plates', { count: '' }, 'count', /^Please ask for at least one plate/],
    ['plates in words', { count: 'seven' }, 'count', /^Please give the number of plates in figures/],
    ['seven plates', { count: '7' }, 'count', /^At most six plates/],
    ['too many for each', { people: 'A\nB\nC', on: 'each', count: '3' }, 'count', /^At most six plates/],
    ['no size', { size: '' }, 'size', /^Please choose a plate size/],
    ['thirteen people', { people: Array(13).fill('A').join('\n') }, 'people', /^At most 12 people/],
    ['a day that is none', { 'suits/from-month': 'Smarch' }, 'suits/from', /^Please give a date/],
    ['no address for a letter', { reachBy: 'letter' }, 'postalAddress', /^Please give the address/],
    [
      'somebody under 18 without a guardian',
      { minor: 'yes' },
      'guardian/name',
      /^Please name a parent or guardian/,
    ],
    ['an unknown voucher', { voucher: 'NONE' }, 'voucher', /^No voucher has this number/],
  ])('%s is told beside the field, and nothing typed is lost', async (_what, change, field, words) => {
    const before = await sittings();
    const sent = await filled({ anything: 'By the afternoon boat.', ...change });
    const again = await owner.post(path, sent);
    expect(again.status).toBe(422);
    expect(errorAt(again.html, field)).toMatch(words);
    const shown = fieldsOf(again.html, path);
    expect(shown).toMatchObject({ anything: 'By the afternoon boat.' });
    for (const [name, value] of Object.entries(change)) if (value !== '') expect(shown[name]).toBe(value);
    expect(await sittings()).toBe(before);
  });

  it('does not lose what was typed when the form had been open for too long', async () => {
    const before = await sittings();
    const late = await owner.post(path, await filled({ people: 'Corentin Maddock', _form: 'old' }));
    expect(late.status).toBe(403);
    expect(await sittings()).toBe(before);
    const again = await owner.postAndFollow(path, fieldsOf(late.html, path));
    expect(wordsOf(again.html)).toContain('Corentin Maddock');
    expect(await sittings()).toBe(before + 1);
  });
});
