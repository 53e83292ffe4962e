// The day sheet as staff use it: who comes, ticks, endings with their mistakes, taking back, and the red screen.
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let assistant: Visitor;
let day: string;
let id: string;

beforeAll(async () => {
  house = await openTestHouse();
  house.clock.set('2027-03-25T10:00:00Z');
  studio = await foundTestStudio(house);
  day = `/s/${studio.slug}/desk/days/2027-04-02`;
  const asking = { name: 'Corin Ashby', anything: 'He is shy about his teeth.', hopes: 'A calm face' };
  id = (await askForSitting(house, studio, asking)).sittingId;
  await approve(house, studio, id, '2027-04-02T09:30');
  house.clock.set('2027-04-02T08:25:00Z'); // 09:25 in London
  owner = await signedIn(house, studio, 'owner');
  assistant = await signedIn(house, studio, 'assistant');
});
afterAll(() => house.close());

test('what they told the owner stands on the owner’s sheet and on no assistant’s', async () => {
  const own = (await owner.get(day)).html;
  expect(own).toContain('Corin Ashby');
  expect(own).toContain('He is shy about his teeth.');
  expect(own).toMatch(/Good light from \d\d:\d\d to \d\d:\d\d\./);
  expect(own).toMatch(
    /They hold still for \d+ to \d+\u00a0s under a clear sky, for up to \d+\u00a0s under a dull one\./,
  );
  expect(own).toContain('Corin Ashby can hold still for about 20\u00a0s.');
  expect(own).toMatch(
    /If the sky is dull, that is up to \d+\u00a0s and they hold 20\u00a0s: .*open the lens by one stop/,
  );
  expect(own).toContain('From the shelf: Iodised collodion from First Iodised collodion;');
  expect(own).not.toContain('no helper yet');
  const theirs = (await assistant.get(day)).html;
  expect(theirs).toContain('A calm face');
  expect(theirs).not.toContain('shy about his teeth');
});

test('the assistant ticks an arrival on the red screen, which has no white and no script, and comes back to it', async () => {
  const red = (await assistant.get(`${day}/red`)).html;
  expect(red).toMatch(/href="\/static\/red\.[0-9a-f]+\.css"/);
  expect(red).not.toContain('<script');
  expect(red).not.toContain('shy about his teeth');
  const { status, location } = await assistant.post(`${day}/${id}/arrived`, { here: 'yes', from: 'red' });
  expect([status, location]).toEqual([303, `${day}/red`]);
  expect((await assistant.get(day)).html).toContain('Here since 09:25');
});

test('links lead to the studio days beside it and past the days between', async () => {
  const { html } = await owner.get(day);
  const beside = [...html.matchAll(/href="[^"]*\/days\/([\d-]+)">The studio day (before|after)/g)];
  expect(beside.map(([, date, which]) => `${which} ${date}`)).toEqual([
    'before 2027-03-26',
    'after 2027-04-09',
  ]);
});

test('on paper there are three rows for the plate, with blank columns', async () => {
  const { html } = await owner.get(day);
  const rows = html.slice(html.indexOf('class="bench"')).split('<tbody>')[1]?.split('</tbody>')[0] ?? '';
  expect(rows.match(/<tr>/g)).toHaveLength(3);
  for (const column of ['Plate no.', 'Bottle', 'Bath', 'Seconds', 'Sky', 'Result'])
    expect(html).toContain(`<th scope="col">${column}</th>`);
});

test('an ending is told on the red screen too, which stays red', async () => {
  await owner.get(`${day}/red`);
  const told = await owner.post(`${day}/${id}/end`, { ending: 'made', from: 'red' });
  expect([told.status, told.location]).toEqual([303, `${day}/red`]);
  expect((await owner.get(`${day}/red`)).html).toContain('<p>Made</p>');
  await owner.get(day);
  expect((await owner.post(`${day}/${id}/undo`)).status).toBe(303);
});

test('an ending without a choice is told beside the field, and the note is kept', async () => {
  await owner.get(day);
  const { status, html } = await owner.post(`${day}/${id}/end`, { note: 'A kept word' });
  expect(status).toBe(422);
  expect(html).toContain('Please choose how it ended.');
  expect(html).toContain('value="A kept word"');
});

test('an ending is shown, and taken back', async () => {
  await owner.get(day);
  const ended = await owner.post(`${day}/${id}/end`, { ending: 'no plate/fog', note: '' });
  expect(ended.status).toBe(303);
  const shown = (await owner.get(day)).html;
  expect(shown).toContain('Came, no plate');
  expect(shown).toContain('They stand first on the list for another place.');
  expect((await owner.post(`${day}/${id}/undo`)).status).toBe(303);
  expect((await owner.get(day)).html).toContain('How it ended');
});

test('a day that is none is not found, and a day without sittings says so', async () => {
  const days = `/s/${studio.slug}/desk/days`;
  expect((await owner.get(`${days}/2027-02-30`)).status).toBe(404);
  expect((await owner.get(`${days}/tomorrow`)).status).toBe(404);
  expect((await owner.get(`${days}/2027-04-03`)).html).toContain('Nobody sits on this day.');
});

test('the desk asks the owner how past sittings ended, until somebody tells', async () => {
  const desk = `/s/${studio.slug}/desk`;
  expect((await owner.get(desk)).html).not.toContain('How did they end?');
  house.clock.set('2027-04-03T08:00:00Z');
  owner = await signedIn(house, studio, 'owner');
  const asking = (await owner.get(desk)).html;
  expect(asking).toContain('How did they end?');
  expect(asking).toContain(`${day}#sitting-${id}`);
  await owner.get(day);
  expect((await owner.post(`${day}/${id}/end`, { ending: 'made', note: '' })).status).toBe(303);
  expect((await owner.get(desk)).html).not.toContain('How did they end?');
});
