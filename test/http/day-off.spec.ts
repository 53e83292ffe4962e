// "The chemistry is off" in the middle of a day: told on the red screen, seen on the sheet, and led to moving the day.
// Nobody is written to before the owner says so.
import { openTestHouse, type TestHouse } from '../support/house.js';
import { fieldsOf } from '../support/page-forms.js';
import { enterBath } from '../support/prepared.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let assistant: Visitor;
let day: string;
let here: string;
let toCome: string;

beforeAll(async () => {
  house = await openTestHouse();
  house.clock.set('2027-03-25T10:00:00Z');
  studio = await foundTestStudio(house);
  day = `/s/${studio.slug}/desk/days/2027-04-02`;
  here = (await askForSitting(house, studio, { name: 'Corin Ashby' })).sittingId;
  await approve(house, studio, here, '2027-04-02T09:30');
  toCome = (await askForSitting(house, studio, { name: 'Adaeze Nwosu' })).sittingId;
  await approve(house, studio, toCome, '2027-04-02T13:00');
  await enterBath(house, studio, { plateSizeId: studio.sizes.whole.id });
  await enterBath(house, studio, { name: 'Tank B', plateSizeId: studio.sizes.whole.id });
  await house.work();
  house.mail.sent.splice(0);
  house.clock.set('2027-04-02T08:45:00Z'); // 09:45 in London
  owner = await signedIn(house, studio, 'owner');
  assistant = await signedIn(house, studio, 'assistant');
  await house.work();
  house.mail.sent.splice(0);
});
afterAll(() => house.close());

const text = (html: string) =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('\u00a0', ' ')
    .replace(/\s+/g, ' ');
const targets = (html: string) => [...html.matchAll(/off\?what=[^"]*">([^<]*)</g)].map(([, name]) => name);
const linkTo = (html: string, name: string) =>
  new RegExp(`href="([^"]*off\\?what=[^"]*)">${name}<`).exec(html)?.[1]?.replaceAll('&amp;', '&') ?? '';

test('the red screen names both baths, the bottles that the day pours from, and the test plate', async () => {
  expect((await assistant.get(`${day}/red`)).html).toContain(`href="${day}/red/off"`);
  const { html } = await assistant.get(`${day}/red/off`);
  expect(html).toMatch(/href="\/static\/red\.[0-9a-f]+\.css"/);
  const [first, second, ...others] = targets(html);
  expect([first, second, others.pop()]).toEqual([
    'Tank A',
    'Tank B',
    'The test plate failed, nobody knows yet why',
  ]);
  expect(others.sort()).toEqual([
    'First Hypo fixer',
    'First Iodised collodion',
    'First Iron developer',
    'First Sandarac varnish',
  ]);
});

test('a second target puts the bath aside: who comes today is listed, the other bath takes it, nobody is written to', async () => {
  const { html } = await assistant.get(linkTo((await assistant.get(`${day}/red/off`)).html, 'Tank A'));
  expect(text(html)).toContain('Fog. Put Tank A aside');
  const form = { ...fieldsOf(html, `${day}/red/off`), seen: 'fog' };
  const done = await assistant.postAndFollow(`${day}/red/off`, form);
  expect(text(done.html)).toContain('Tank A: fog');
  expect(text(done.html)).toContain('Tank B takes today’s plates.');
  expect(text(done.html)).toContain('09:30 Corin Ashby 13:00 Adaeze Nwosu');
  expect(text(done.html)).not.toContain('move or call them off');
  expect(done.html).not.toContain('<script');
  await assistant.get(`${day}/red`);
  expect((await assistant.post(`${day}/red/off`, form)).location).toMatch(/\/red\/off\/[0-9a-f-]{36}$/);
  await house.work();
  expect(house.mail.sent).toEqual([]);
  const sheet = text((await owner.get(day)).html);
  expect(sheet.match(/The chemistry was off/g)).toHaveLength(1);
  expect(sheet).toContain('written down at 09:45 by');
  expect(sheet).toMatch(/fog, Tank A/);
  expect(sheet).toContain('Its plates go through Tank B');
});

test('a target that is no suspect leads back to the list and writes nothing', async () => {
  await assistant.get(`${day}/red`);
  const wrong = await assistant.post(`${day}/red/off`, { what: 'bath:nothing', seen: 'fog' });
  expect([wrong.status, wrong.location]).toEqual([303, `${day}/red/off`]);
  expect(text((await owner.get(day)).html).match(/The chemistry was off/g)).toHaveLength(1);
});

test('a failed test plate is written down alone, and leads the owner to the day’s letters with their own words', async () => {
  const off = `/s/${studio.slug}/desk/shelf/baths/off`;
  await owner.get(off);
  const { html } = await owner.postAndFollow(off, {
    what: 'test plate',
    seen: 'something else',
    note: 'Black.',
  });
  expect(text(html)).toContain('the test plate, nobody knows yet why');
  expect(text(html)).toContain('Nothing is put aside yet');
  expect(text(html)).toContain('09:30 Corin Ashby 13:00 Adaeze Nwosu');
  const link = /href="([^"]*\/desk\/move\?[^"]*)"/.exec(html)?.[1]?.replaceAll('&amp;', '&') ?? '';
  const move = `/s/${studio.slug}/desk/move`;
  const asked = fieldsOf((await owner.get(link)).html, `${move}/preview`);
  expect(asked).toMatchObject({ 'from-day': '2', reason: 'chemistry' });
  const preview = await owner.post(`${move}/preview`, asked);
  expect(preview.html).toContain(`name="do-${toCome}"`);
  expect(preview.html).not.toContain(`name="do-${here}"`); // whose hour has come
  await house.work();
  expect(house.mail.sent).toEqual([]);
  await owner.post(`${move}/confirm`, {
    ...asked,
    [`from-${toCome}`]: '2027-04-02T13:00',
    [`do-${toCome}`]: 'again',
  });
  await house.work();
  const letters = house.mail.sent.filter((one) => one.to.name === 'Adaeze Nwosu');
  expect(letters.map((one) => one.text).join()).toContain(
    'The chemistry is off: the test plates of the day fail, and no plate of yours would come out as it should.',
  );
});

test('whoever is here already is told as came, no plate, and is owed another place', async () => {
  await assistant.get(`${day}/red`);
  await assistant.post(`${day}/${here}/end`, { ending: 'no plate/chemistry', from: 'red' });
  const shown = text((await owner.get(day)).html);
  expect(shown).toContain('Came, no plate : The chemistry was off');
  expect(shown).toContain('They stand first on the list for another place.');
});

test('a place owed is told once the day is over: by letter, on their page and on the list, with the day they first asked', async () => {
  await house.work();
  const owed = () => house.mail.sent.filter((one) => one.to.name === 'Corin Ashby');
  expect(owed()).toEqual([]); // as long as the ending can be taken back
  house.clock.set('2027-04-03T06:00:00Z');
  await house.work();
  const [letter, ...more] = owed();
  expect([letter?.subject, more.length]).toEqual(['A place is owed to you at Sandpiper Loft', 0]);
  expect(letter?.text).toContain('with the date on which you first asked, Thursday 25 March 2027,');
  const own = /\/s\/\S+\/place\/\S+/.exec(letter?.text ?? '')?.[0] ?? '';
  const page = text((await assistant.get(own)).html);
  expect(page).toContain('The studio owes you a place: you come first on the list');
  expect(page).toContain('first asked, Thursday 25 March 2027,');
  owner = await signedIn(house, studio, 'owner');
  const list = text((await owner.get(`/s/${studio.slug}/desk/waiting`)).html);
  expect(list).toMatch(/\d\. Corin Ashby a return place is owed.*first asked on Thursday 25 March 2027/);
  expect(text((await owner.get(`/s/${studio.slug}/desk`)).html)).toMatch(
    /Corin Ashby asked on Thursday 25 March/,
  );
});
