// Forms of the desk about those who wait and sit, held by two at once: the second is told, and nothing is overwritten unseen.
import { setTimeout as sleep } from 'node:timers/promises';
import { editAlone } from '../../src/platform/db/alone.js';
import { SEEN_FIELD } from '../../src/platform/seen.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { enterBath } from '../support/prepared.js';
import { askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let one: Visitor;
let other: Visitor;
let desk: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  [one, other] = [await signedIn(house, studio, 'owner'), await signedIn(house, studio, 'owner')];
  desk = `/s/${studio.slug}/desk`;
});
afterAll(() => house.close());

it('the rule of the list is saved only over the rule that was seen before its preview', async () => {
  const rules = `${desk}/waiting/rules`;
  const preview = `${rules}/preview`;
  const shownTo = async (visitor: Visitor) => fieldsOf((await visitor.get(rules)).html, preview);
  const previewed = async (visitor: Visitor, points: string) => {
    const { html } = await visitor.post(preview, { ...(await shownTo(visitor)), asked: points });
    return fieldsOf(html, rules);
  };
  const [ones, others] = [await previewed(one, '7'), await previewed(other, '9')];
  expect((await one.post(rules, ones)).status).toBe(303);
  const told = await other.post(rules, others);
  expect([told.status, errorAt(told.html, 'asked')]).toEqual([409, 'Meanwhile it says: 7']);
  expect((await shownTo(one)).asked).toBe('7');
  // what was typed is still there, and goes once more through the preview
  const again = fieldsOf(told.html, preview);
  expect(again.asked).toBe('9');
  const { html } = await other.post(preview, again);
  expect((await other.post(rules, fieldsOf(html, rules))).status).toBe(303);
  expect((await shownTo(one)).asked).toBe('9');
  // without the mark the first is lost
  const { [SEEN_FIELD]: _, ...unmarked } = ones;
  expect((await one.post(rules, unmarked)).status).toBe(303);
  expect((await shownTo(one)).asked).toBe('7');
});

it('how sitters hold still is told in words, ticks too', async () => {
  const { sittingId } = await askForSitting(house, studio);
  const page = `${desk}/requests/${sittingId}`;
  const action = `${page}/sitters`;
  const shownTo = async (visitor: Visitor) => fieldsOf((await visitor.get(page)).html, action);
  const [ones, others] = [await shownTo(one), await shownTo(other)];
  const age = Object.keys(ones).find((name) => name.startsWith('age-')) ?? '';
  const rest = age.replace('age-', 'rest-');
  const { [rest]: _, ...unticked } = ones;
  expect((await one.post(action, { ...unticked, [age]: 'under 8' })).status).toBe(303);
  const told = await other.post(action, { ...others, [age]: '8 to 14' });
  expect([told.status, errorAt(told.html, age), errorAt(told.html, rest)]).toEqual([
    409,
    'Meanwhile it says: Under 8',
    'Meanwhile the tick was taken away.',
  ]);
  expect((await shownTo(one))[age]).toBe('under 8');
  expect((await other.post(action, fieldsOf(told.html, action))).status).toBe(303);
  expect((await shownTo(one))[age]).toBe('8 to 14');
});

it.each([
  ['mark of the list', 'priority', 'Came with the first class.', 'Waited out two storms.'],
  ['remedy of a fault', 'changed', 'Fresh developer.', 'Filtered the bath.'],
])(
  'of a %s the second is told, and puts theirs in its place only knowingly',
  async (what, field, ones, others) => {
    const [page, action] = what === 'mark of the list' ? await marks() : await fault();
    const shownTo = async (visitor: Visitor) => fieldsOf((await visitor.get(page)).html, action);
    const [shown, alsoShown] = [await shownTo(one), await shownTo(other)];
    expect((await one.post(action, { ...shown, [field]: ones })).status).toBe(303);
    const told = await other.post(action, { ...alsoShown, [field]: others });
    expect([told.status, errorAt(told.html, field)]).toEqual([409, `Meanwhile it says: ${ones}`]);
    expect((await shownTo(one))[field]).toBe(ones);
    const again = fieldsOf(told.html, action);
    expect(again[field]).toBe(others);
    expect((await other.post(action, again)).status).toBe(303);
    expect((await shownTo(one))[field]).toBe(others);
  },
);

async function marks(): Promise<[string, string]> {
  const { sittingId } = await askForSitting(house, studio);
  return [`${desk}/requests/${sittingId}`, `${desk}/waiting/${sittingId}/mark`];
}

async function fault(): Promise<[string, string]> {
  const off = `${desk}/shelf/baths/off`;
  const bath = await enterBath(house, studio, { name: 'Tall tank' });
  const form = fieldsOf((await one.get(`${off}?what=${encodeURIComponent(`bath:${bath}`)}`)).html, off);
  const sent = await one.post(off, { ...form, seen: 'fog', note: '' });
  const page = String(sent.header('location')).replace(/\?.*/, '');
  return [page, page];
}

it('a rhythm is begun once: the second at the first evening is told of it', async () => {
  const loft = await foundTestStudio(house, { slug: 'dunlin-loft', email: 'desk@dunlin-loft.example' });
  await house.db.inStudio(loft.id, (tx) => tx.run('delete from rhythm where studio_id = $1', [loft.id]));
  const step = '/s/dunlin-loft/desk/set-up/rhythm';
  const [first, second] = [await signedIn(house, loft, 'owner'), await signedIn(house, loft, 'owner')];
  const [ones, others] = await Promise.all(
    [first, second].map(async (visitor) => fieldsOf((await visitor.get(step)).html, step)),
  );
  expect((await first.post(step, { ...ones, weekday: '6' })).status).toBe(303);
  const told = await second.post(step, { ...others, weekday: '2' });
  expect(told.status).toBe(409);
  expect(wordsOf(told.html)).toContain('Meanwhile somebody else began the rhythm that is told below.');
  expect(wordsOf(told.html)).toContain('People sit on Saturday.');
});

it.each([
  ['the same thing', 'rule', ['in', 'out', 'in', 'out']],
  ['two things, which this test would see of the same without the lock', 'other', ['in', 'in', 'out', 'out']],
])('whoever edits what has no row of its own waits: %s', async (_what, second, order) => {
  const seen: string[] = [];
  const edit = (what: string) =>
    house.db.inStudio(studio.id, async (tx) => {
      await editAlone(tx, what);
      seen.push('in');
      await sleep(100);
      seen.push('out');
    });
  await Promise.all([edit('rule'), edit(second)]);
  expect(seen).toEqual(order);
});

it('a choice of a plate size is told by its name', async () => {
  const [page, action] = [`${desk}/prepare/rules`, `${desk}/prepare/takes`];
  const { whole, half } = studio.sizes;
  const shownTo = async (visitor: Visitor) => fieldsOf((await visitor.get(page)).html, action);
  await one.post(action, { ...(await shownTo(one)), testPlates: '1', testSizeId: whole.id });
  const [ones, others] = [await shownTo(one), await shownTo(other)];
  expect((await one.post(action, { ...ones, testSizeId: half.id })).status).toBe(303);
  const told = await other.post(action, { ...others, testPlates: '2' });
  expect([told.status, errorAt(told.html, 'testSizeId')]).toEqual([409, `Meanwhile it says: ${half.name}`]);
});
