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
  expect(text(done.html)).toContain(
    'Done for 2 of 2. They are told by e-mail, or stand under “To telephone”.',
  );
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

describe('another start, typed', () => {
  const fields = (start: { day?: string; month?: string; year?: string; time?: string }) => {
    const id = asked['Perdita Vale'] ?? '';
    return {
      ...STORM,
      [`from-${id}`]: '2027-04-02T13:00',
      [`do-${id}`]: 'other',
      [`other-${id}-day`]: start.day ?? '',
      [`other-${id}-month`]: start.month ?? '',
      [`other-${id}-year`]: start.year ?? '',
      [`time-${id}`]: start.time ?? '',
    };
  };
  const APRIL_9 = { day: '9', month: 'April', year: '2027' };
  const send = (start: Parameters<typeof fields>[0], more = {}) =>
    owner.post(`${move}/confirm`, { ...fields(start), ...more });

  test.each([
    ['no day', { time: '11:15' }, 'Please give a date with day, month and year.'],
    ['no time', { ...APRIL_9 }, 'Please give a time like 11:15.'],
    ['a time that is none', { ...APRIL_9, time: '25:00' }, 'Please give a time like 11:15.'],
    ['no start of the day', { ...APRIL_9, time: '11:20' }, 'No sitting starts at that time. Open that day: '],
    [
      'a day without sittings',
      { ...APRIL_9, day: '10', time: '11:15' },
      'Saturday 10 April 2027 is no day of sittings.',
    ],
    [
      'the place they have',
      { day: '2', month: '4', year: '2027', time: '13.00' },
      'This is the place that they have.',
    ],
    ['a day too far', { day: '7', month: 'April', year: '2028', time: '11:15' }, 'Places are given until'],
  ])('with %s is told beside the field, with everything kept', async (_what, start, message) => {
    await owner.get(move);
    const { status, html } = await send(start);
    const id = asked['Perdita Vale'] ?? '';
    expect(status).toBe(422);
    expect(text(html)).toContain(message);
    expect(html).toMatch(new RegExp(`<p[^>]*id="f-(other|time)-${id}-error"`));
    expect(html).toMatch(new RegExp(`name="do-${id}" value="other" checked`));
    for (const typed of Object.values(start)) expect(html).toContain(`value="${typed}"`);
    expect((await standing())['Perdita Vale']).toBe('confirmed 2027-04-02T13:00');
  });

  test('that somebody has is told, and so is one that is typed and not chosen', async () => {
    const { sittingId } = await askForSitting(house, studio, {
      suits: { kind: 'any', from: '2027-04-02', until: '2027-06-30' },
    });
    await approve(house, studio, sittingId, '2027-04-16T09:30');
    await owner.get(move);
    const there = { day: '16', month: 'April', year: '2027', time: '9:30' };
    expect(text((await send(there)).html)).toContain(
      'Not open: the room is taken in that time. Open that day: ',
    );
    const id = asked['Perdita Vale'] ?? '';
    const left = await send(there, { [`do-${id}`]: 'leave' });
    expect([left.status, (await standing())['Perdita Vale']]).toEqual([422, 'confirmed 2027-04-02T13:00']);
    expect(text(left.html)).toContain('You typed another start: choose it here, or leave it empty.');
  });

  test('that is open is taken, whatever else was proposed, and they are told once it is done', async () => {
    await house.work();
    house.mail.sent.splice(0);
    await owner.get(move);
    const { status, html } = await send({ ...APRIL_9, day: '23', time: '11:15' });
    expect(status).toBe(200);
    expect(text(html)).toContain('Perdita Vale : moved to Friday 23 April 2027, 11:15');
    expect((await standing())['Perdita Vale']).toBe('confirmed 2027-04-23T11:15');
    await house.work();
    expect(house.mail.sent.map(({ subject }) => subject)).toEqual([
      'Your place at Sandpiper Loft is moved to Friday 23 April 2027, 11:15',
    ]);
  });
});
