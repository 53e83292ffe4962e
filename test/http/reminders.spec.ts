// Reminders through the doors of the owner, as a browser without script would: the rules, and all messages to one person.
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, wordsOf } from '../support/page-forms.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let rules: string;
let request: string;

beforeAll(async () => {
  house = await openTestHouse({ now: '2026-11-26T10:00:00Z' });
  studio = await foundTestStudio(house);
  rules = `/s/${studio.slug}/desk/mail/reminders`;
  const { sittingId } = await askForSitting(house, studio, { home: 'Whitby, United Kingdom' });
  request = `/s/${studio.slug}/desk/requests/${sittingId}`;
  owner = await signedIn(house, studio, 'owner');
});
afterAll(() => house.close());

const NEW = { kind: 'near', days: '2', hour: '18', forWhom: 'everyone', leastKm: '', leastLeadDays: '' };

test('the owner sees beforehand what somebody would be sent, and when', async () => {
  const day = '?day-day=2&day-month=april&day-year=2027';
  const words = wordsOf((await owner.get(`${request}/messages${day}`)).html);
  expect(words).toContain('For a place on Friday 2 April 2027, given today, on the clock of Europe/London');
  expect(words).toMatch(/A week before Friday 26 March( 2027)?, 10:00/);
  expect(words).toMatch(/The day before Thursday 1 April( 2027)?, 10:00/);
  const none = await owner.get(`${request}/messages?day-day=31&day-month=2&day-year=2027`);
  expect(errorAt(none.html, 'day')).toBe('Please give a day.');
});

test('after the yes the same stands there as planned, and the letters that went', async () => {
  await approve(house, studio, request.split('/').at(-1) ?? '', '2027-04-02T09:30');
  await house.work();
  const words = wordsOf((await owner.get(`${request}/messages`)).html);
  expect(words).toContain('Reminders, on the clock of Europe/London');
  expect(words).toMatch(/A week before Friday 26 March( 2027)?, 10:00 to come/);
  expect(words).toContain('You have a place');
  expect(words).not.toContain('If they got a place');
});

test('a rule is added and changed, and planned anew for whoever has a place', async () => {
  const wrong = await owner.post(`${rules}/new/sitting`, { ...NEW, days: '400', hour: '23' });
  expect(wrong.status).toBe(422);
  expect(errorAt(wrong.html, 'days')).toBe('Please give whole days, 0 to 365.');
  expect(errorAt(wrong.html, 'hour')).toBe('Please give a full hour, 8 to 20.');
  const added = wordsOf((await owner.postAndFollow(`${rules}/new/sitting`, NEW)).html);
  expect(added).toContain('It is saved. Planned anew for one place; what has gone stays as it is.');
  expect(added).toContain('2 days before, at 18:00, to everybody.');
  // of two rules of a kind the earlier goes
  expect(wordsOf((await owner.get(`${request}/messages`)).html)).toMatch(
    /How to prepare Tuesday 30 March( 2027)?, 10:00/,
  );
});

test('a rule is taken away, but not the last one', async () => {
  // the rules of sittings stand first; those of teaching days are their own
  let ids: string[] = [];
  const read = async () => {
    const { html } = await owner.get(rules);
    const [sittings = ''] = html.split('Before a teaching day');
    ids = [...sittings.matchAll(/reminders\?form=([0-9a-f-]{36})/g)].map(([, id]) => id ?? '');
  };
  await read();
  expect(ids).toHaveLength(8);
  for (const id of ids.slice(1)) await owner.postAndFollow(`${rules}/${id}/remove`, {});
  await read();
  expect(ids).toHaveLength(1);
  const last = wordsOf((await owner.postAndFollow(`${rules}/${ids[0]}/remove`, {})).html);
  expect(last).toContain('This is the last reminder. Switch it off instead.');
  expect((await owner.post(`${rules}/${crypto.randomUUID()}/remove`, {})).status).toBe(404);
});
