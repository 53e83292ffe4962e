// The first glass and solutions, typed in on the first evening, at once or a little at a time: what was typed is on the
// shelf, or the page says why not.
import pg from 'pg';
import { ClaimService } from '../../src/desk/set-up/claim.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { PASSWORD } from '../support/studio.js';
import { Visitor } from '../support/visitor.js';

let house: TestHouse;
let superuser: pg.Client;
let owner: Visitor;
let path: string;

beforeEach(async () => {
  house = await openTestHouse();
  superuser = new pg.Client({ connectionString: house.database.adminUrl });
  await superuser.connect();
  owner = new Visitor(house);
  const setUp = new URL((await house.app.get(ClaimService).address()) ?? '').pathname;
  await owner.get(setUp);
  const answer = await owner.post(setUp, {
    name: 'Isaura Fenwick',
    email: 'owner@sandpiper-loft.example',
    password: PASSWORD,
    studio: 'Sandpiper Loft',
    place: '54.49, -0.61',
    zone: 'Europe/London',
  });
  path = `${answer.location.replace(/\/desk.*/, '')}/desk/set-up/shelf`;
  await owner.get(path);
}, 60_000);
afterEach(async () => {
  await superuser.end();
  await house.close();
});

const put = (amounts: Record<string, string>) => owner.post(path, amounts);
/** What is on hand of each item of which there is anything. */
const onHand = async () => {
  const { rows } = await superuser.query<{ name: string; all: string }>(
    'select name, sum(on_hand) as all from lot join item using (studio_id, item_id) group by name order by name',
  );
  return Object.fromEntries(rows.map(({ name, all }) => [name, Number(all)]));
};
const GLASS = 'Clear glass, Whole plate 6 1/2 x 8 1/2 in';

it('without any size nothing is entered, and the form says so', async () => {
  const answer = await put({ 'ml-collodion': '600' });
  expect(answer.status).toBe(422);
  expect(errorAt(answer.html, 'sheets-quarter')).toMatch(/^Please give a number for one size at least/);
  expect(fieldsOf(answer.html, path)['ml-collodion']).toBe('600');
  expect(await onHand()).toEqual({});
});

it('a solution that was left empty is entered later, into the item there is', async () => {
  expect((await put({ 'sheets-whole': '12' })).status).toBe(303);
  expect((await put({ 'ml-collodion': '600', 'ml-fixer': '2500' })).status).toBe(303);
  expect(await onHand()).toEqual({ [GLASS]: 12, 'Iodised collodion': 600_000, 'Hypo fixer': 2_500_000 });
});

it('what is there is told, and asked for no more', async () => {
  await put({ 'sheets-whole': '12', 'ml-fixer': '2500' });
  const { html } = await owner.get(path);
  expect(wordsOf(html)).toContain('There already: Whole plate 6 1/2 x 8 1/2 in; Hypo fixer.');
  const fields = Object.keys(fieldsOf(html, path));
  expect(fields).toEqual(expect.arrayContaining(['sheets-quarter', 'ml-collodion']));
  expect(fields).not.toEqual(expect.arrayContaining(['sheets-whole']));
  expect(fields).not.toEqual(expect.arrayContaining(['ml-fixer']));
});

it('what is there already is not entered twice: all that was typed comes back with the reason', async () => {
  const amounts = { 'sheets-whole': '12', 'ml-fixer': '2500' };
  await put(amounts);
  const answer = await put({ ...amounts, 'ml-collodion': '600' });
  expect(answer.status).toBe(422);
  expect(errorAt(answer.html, 'sheets-whole')).toMatch(/is on the shelf already/);
  expect(errorAt(answer.html, 'ml-fixer')).toMatch(/is on the shelf already/);
  expect(fieldsOf(answer.html, path)).toMatchObject({ ...amounts, 'ml-collodion': '600' });
  expect(await onHand()).toEqual({ [GLASS]: 12, 'Hypo fixer': 2_500_000 });
});

it('two clicks at once enter it once', async () => {
  const amounts = { 'sheets-whole': '12', 'ml-fixer': '2500' };
  const answers = await Promise.all([put(amounts), put(amounts)]);
  expect(answers.map(({ status }) => status).sort()).toEqual([303, 422]);
  expect(await onHand()).toEqual({ [GLASS]: 12, 'Hypo fixer': 2_500_000 });
});
