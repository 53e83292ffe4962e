// Moving days as the owner does it: who is there, what is proposed, what is chosen for each, and who is told.
import { SittingViews } from '../../src/sittings/views.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

const DAY = { 'from-day': '2', 'from-month': 'April', 'from-year': '2027' };
const STORM = { ...DAY, reason: 'storm', words: 'The harbour road will be closed.' };

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let move: string;
const asked: Record<string, string> = {};

beforeAll(async () => {
  house = await openTestHouse();
  house.clock.set('2027-03-30T10:00:00Z');
  studio = await foundTestStudio(house);
  owner = await signedIn(house, studio, 'owner');
  move = `/s/${studio.slug}/desk/move`;
  const suits = { kind: 'any', from: '2027-04-02', until: '2027-06-30' } as const;
  const people = [
    { name: 'Corin Ashby', start: '2027-04-02T09:30', home: 'Whitby, United Kingdom' },
    { name: 'Adaeze Nwosu', start: '2027-04-02T11:15', home: 'Boston, Massachusetts' },
    { name: 'Perdita Vale', start: '2027-04-02T13:00', home: 'York, United Kingdom' },
  ];
  for (const { name, start, home } of people) {
    const { sittingId } = await askForSitting(house, studio, { name, home, suits });
    await approve(house, studio, sittingId, start);
    asked[name] = sittingId;
  }
  await house.work();
  house.mail.sent.splice(0);
});
afterAll(() => house.close());

const text = (html: string) =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('\u00a0', ' ')
    .replace(/\s+/g, ' ');
const proposed = (html: string, sittingId: string) =>
  new RegExp(`name="do-${sittingId}" value="(to [^"]+)"`).exec(html)?.[1] ?? '';
const views = () => house.app.get(SittingViews).some(studio.id, Object.values(asked));
const standing = async () =>
  Object.fromEntries(
    (await views()).map(({ contact, sitting, place }) => [
      contact.name,
      `${sitting.state} ${place?.holds ? place.wallStart.toString({ smallestUnit: 'minute' }) : ''}`.trim(),
    ]),
  );

test('a mistake is told beside its field, and what was typed is still there', async () => {
  await owner.get(move);
  const { status, html } = await owner.post(`${move}/preview`, {
    ...DAY,
    'from-day': '31',
    words: 'Kept words',
  });
  expect(status).toBe(422);
  expect(text(html)).toContain('Please give a date with day, month and year.');
  expect(text(html)).toContain('Kept words');
  const turned = await owner.post(`${move}/preview`, {
    ...STORM,
    'until-day': '1',
    'until-month': 'April',
    'until-year': '2027',
  });
  expect(text(turned.html)).toContain('The last day must not be before the first.');
});

test('the preview shows who is there, the most pressing first, and tells nobody', async () => {
  await owner.get(move);
  const { status, html } = await owner.post(`${move}/preview`, STORM);
  expect(status).toBe(200);
  const words = text(html);
  expect(words).toContain('3 sittings');
  expect(words).toContain('telephone now');
  expect(words.indexOf('Adaeze Nwosu')).toBeLessThan(words.indexOf('Corin Ashby'));
  for (const id of Object.values(asked)) expect(html).toContain(`name="from-${id}"`);
  await house.work();
  expect(house.mail.sent).toEqual([]);
  expect(await standing()).toEqual({
    'Corin Ashby': 'confirmed 2027-04-02T09:30',
    'Adaeze Nwosu': 'confirmed 2027-04-02T11:15',
    'Perdita Vale': 'confirmed 2027-04-02T13:00',
  });
});

test('each is done what was chosen, told once, and sending it again does nothing more', async () => {
  await owner.get(move);
  const preview = await owner.post(`${move}/preview`, STORM);
  const [corin = '', adaeze = '', perdita = ''] = ['Corin Ashby', 'Adaeze Nwosu', 'Perdita Vale'].map(
    (name) => asked[name],
  );
  const to = proposed(preview.html, corin);
  expect(to).toMatch(/^to 2027-0[4-6]-\d\dT/);
  const choices = {
    ...STORM,
    [`from-${corin}`]: '2027-04-02T09:30',
    [`do-${corin}`]: to,
    [`from-${adaeze}`]: '2027-04-02T11:15',
    [`do-${adaeze}`]: 'again',
    [`from-${perdita}`]: '2027-04-02T13:00',
    [`do-${perdita}`]: 'leave',
  };
  const done = await owner.post(`${move}/confirm`, choices);
  expect(text(done.html)).toContain('Done for 2 of 2. They are being told.');
  expect(await standing()).toEqual({
    'Corin Ashby': `confirmed ${to.slice(3)}`,
    'Adaeze Nwosu': 'waiting',
    'Perdita Vale': 'confirmed 2027-04-02T13:00',
  });
  await house.work();
  const letters = house.mail.sent.splice(0);
  expect(letters.map(({ to: { name } }) => name).sort()).toEqual(['Adaeze Nwosu', 'Corin Ashby']);
  for (const letter of letters) expect(letter.text).toContain('The harbour road will be closed.');

  const again = await owner.post(`${move}/confirm`, choices);
  expect(text(again.html)).toContain('Done for 0 of 2.');
  await house.work();
  expect(house.mail.sent).toEqual([]);
});

test('a choice that is none is told, and nothing is done', async () => {
  await owner.get(move);
  const perdita = asked['Perdita Vale'] ?? '';
  const sent = { ...STORM, [`from-${perdita}`]: '2027-04-02T13:00', [`do-${perdita}`]: 'to the moon' };
  const again = await owner.post(`${move}/confirm`, sent);
  expect(again.status).toBe(422);
  expect(text(again.html)).toContain('Please choose one of these.');
  expect(again.html).toContain(`name="do-${perdita}"`); // the same people, to choose again
  expect((await standing())['Perdita Vale']).toBe('confirmed 2027-04-02T13:00');
});
