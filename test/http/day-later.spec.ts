// Somebody comes later on their day: staff give them another open place, today without any notice, and they are told.
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf } from '../support/page-forms.js';
import { rowsOf } from '../support/rows.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let assistant: Visitor;
let day: string;
let late: string;

beforeAll(async () => {
  house = await openTestHouse();
  house.clock.set('2027-03-25T10:00:00Z');
  studio = await foundTestStudio(house);
  day = `/s/${studio.slug}/desk/days/2027-04-02`;
  late = (await askForSitting(house, studio, { name: 'Corin Ashby' })).sittingId;
  await approve(house, studio, late, '2027-04-02T09:30');
  const other = await askForSitting(house, studio, { name: 'Adaeze Nwosu' });
  await approve(house, studio, other.sittingId, '2027-04-02T14:45');
  house.clock.set('2027-04-02T09:00:00Z'); // 10:00 in London
  await house.work();
  house.mail.sent.splice(0);
  assistant = await signedIn(house, studio, 'assistant');
});
afterAll(() => house.close());

const later = () => `${day}/${late}/later`;
const starts = (html: string) =>
  [...html.matchAll(/name="start" value="([^"]+)"/g)].map(([, start]) => start);
const standing = () =>
  rowsOf(
    house,
    studio.id,
    `select wall_start::text as at, (select min(needed_on)::text from reservation r where r.held_for = o.held_for) as shelf
     from occupancy o where held_for = $1 and holds`,
    [late],
  );

test('what is open is offered, today first: no hour that has passed, nobody else’s, not their own', async () => {
  expect((await assistant.get(day)).html).toContain(`href="${later()}"`);
  const { html } = await assistant.get(later());
  expect(starts(html).slice(0, 3)).toEqual(['2027-04-02T11:15', '2027-04-02T13:00', '2027-04-09T09:30']);
  expect(html).toContain('Today, 11:15 to 12:30');
  expect(starts(html).at(-1)).toMatch(/^2027-04-16/);
});

test('a refusal stands beside the question with what is open now, and nothing is moved', async () => {
  await assistant.get(later());
  const none = await assistant.post(later());
  expect([none.status, errorAt(none.html, 'start')]).toEqual([422, 'Please choose one of the places.']);
  const passed = await assistant.post(later(), { start: '2027-04-02T09:30' });
  expect([passed.status, errorAt(passed.html, 'start')]).toEqual([422, 'That hour has passed.']);
  const taken = await assistant.post(later(), { start: '2027-04-02T14:45' });
  expect(taken.status).toBe(422);
  expect(errorAt(taken.html, 'start')).not.toBe('');
  expect(await standing()).toEqual([{ at: '2027-04-02 09:30:00', shelf: '2027-04-02' }]);
});

test('they have the later hour instead, on the sheet and in their letter, and another day just so', async () => {
  await assistant.get(later());
  const done = await assistant.postAndFollow(later(), { start: '2027-04-02T13:00' });
  expect(done.html).toContain('They have this place instead, and are told.');
  expect(done.html).toMatch(/13:00 to 14:15: Corin Ashby/);
  await house.work();
  expect(house.mail.sent.filter((one) => one.to.name === 'Corin Ashby').map((one) => one.subject)).toEqual([
    expect.stringContaining('moved to Friday 2 April 2027, 13:00'),
  ]);
  await assistant.get(later());
  expect((await assistant.post(later(), { start: '2027-04-09T09:30' })).location).toContain(
    '/days/2027-04-09?',
  );
  expect((await assistant.get(later())).status).toBe(409); // that day has not come
  expect(await standing()).toEqual([{ at: '2027-04-09 09:30:00', shelf: '2027-04-09' }]);
});

test('two who give another hour: the second is told of the first, and their sitter is not moved twice unseen', async () => {
  house.clock.set('2027-03-25T10:00:00Z');
  const loft = await foundTestStudio(house, { slug: 'knot-loft', email: 'desk@knot-loft.example' });
  const { sittingId } = await askForSitting(house, loft);
  await approve(house, loft, sittingId, '2027-04-02T09:30');
  house.clock.set('2027-04-02T09:00:00Z');
  const path = `/s/knot-loft/desk/days/2027-04-02/${sittingId}/later`;
  const [one, other] = [await signedIn(house, loft, 'assistant'), await signedIn(house, loft, 'owner')];
  const [ones, others] = await Promise.all(
    [one, other].map(async (visitor) => fieldsOf((await visitor.get(path)).html, path)),
  );
  expect((await one.post(path, { ...ones, start: '2027-04-02T13:00' })).status).toBe(303);
  const told = await other.post(path, { ...others, start: '2027-04-02T11:15' });
  expect([told.status, errorAt(told.html, 'start')]).toEqual([
    409,
    'Meanwhile it says: Friday 2 April, 13:00',
  ]);
  const again = fieldsOf(told.html, path);
  expect(again.start).toBe('2027-04-02T11:15');
  expect((await other.post(path, again)).status).toBe(303);
});
