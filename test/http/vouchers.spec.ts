// Gift vouchers through the owner's doors, as a browser without script would.
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, fieldsOf, wordsOf } from '../support/page-forms.js';
import { askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { signedIn, type Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let vouchers: string;
let request: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  vouchers = `/s/${studio.slug}/desk/vouchers`;
  request = (await askForSitting(house, studio, { name: 'Demelza Holt' })).sittingId;
  owner = await signedIn(house, studio, 'owner');
});
afterAll(() => house.close());

const until = (year: string) => ({
  'validUntil-day': '24',
  'validUntil-month': 'December',
  'validUntil-year': year,
});

test('a mistake stands beside its field and nothing typed is lost; then the voucher is written down', async () => {
  const form = fieldsOf((await owner.get(`${vouchers}?form=new`)).html, `${vouchers}/new`);
  expect(form).toMatchObject({ number: '1' });
  const typed = {
    ...form,
    forWhom: 'Demelza Holt',
    worth: 'One “whole” <plate>',
    surprise: 'yes',
    ...until('0'),
  };
  const wrong = await owner.post(`${vouchers}/new`, typed);
  expect(wrong.status).toBe(422);
  expect(errorAt(wrong.html, 'buyer')).toBe('Please say who bought it.');
  expect(errorAt(wrong.html, 'validUntil')).not.toBeNull();
  const again = fieldsOf(wrong.html, `${vouchers}/new`);
  expect(again).toMatchObject({ worth: 'One “whole” <plate>', surprise: 'yes', 'validUntil-day': '24' });
  const saved = await owner.postAndFollow(`${vouchers}/new`, {
    ...again,
    buyer: 'Perran Holt',
    ...until('2027'),
  });
  const words = wordsOf(saved.html);
  expect(words).toContain('One voucher is not used yet.');
  expect(words).toContain(
    'No. 1 a surprise Bought by Perran Holt For Demelza Holt Worth One “whole” <plate>',
  );
  expect(words).toContain('Good until Friday 24 December 2027');
});

test('it is used on a request by its number, tells what it holds back and from whom, and lets them know', async () => {
  const page = await owner.get(`${vouchers}?request=${request}`);
  const form = fieldsOf(page.html, `${vouchers}/use`);
  expect(form).toMatchObject({ request });
  const wrong = await owner.post(`${vouchers}/use`, { ...form, number: '99' });
  expect([wrong.status, errorAt(wrong.html, 'number')]).toEqual([422, 'No voucher has this number.']);
  const used = await owner.postAndFollow(`${vouchers}/use`, { ...form, number: '1' });
  expect(wordsOf(used.html)).toContain('Used on Wednesday 25 November 2026 on the request of Demelza Holt .');
  await house.work();
  const shown = await owner.get(vouchers);
  expect(wordsOf(shown.html)).toContain('one message held back so far; offers run out all the same.');
  expect(wordsOf((await owner.get(`/s/${studio.slug}/desk/mail`)).html)).toContain('held back, a surprise');
  const id = /id="voucher-([0-9a-f-]{36})"/.exec(shown.html)?.[1] ?? '';
  await owner.get(vouchers);
  const told = await owner.postAndFollow(`${vouchers}/${id}/told`);
  expect(wordsOf(told.html)).toContain('They may know now.');
  expect(wordsOf(told.html)).toContain('No. 1 they know now');
  await house.work();
  expect(house.mail.sent.at(-1)?.subject).toBe('Your request to sit at Sandpiper Loft');
  const twice = await owner.postAndFollow(`${vouchers}/${id}/told`);
  expect(wordsOf(twice.html)).toContain('This was done before');
  const back = await owner.postAndFollow(`${vouchers}/${id}/back`);
  expect(wordsOf(back.html)).toContain('The use is taken back.');
});

test('one that has run out is used only where that is said', async () => {
  house.clock.set('2027-12-26T10:00:00Z');
  owner = await signedIn(house, studio, 'owner');
  const form = fieldsOf((await owner.get(vouchers)).html, `${vouchers}/use`);
  expect(form.anyway).toBeUndefined();
  const wrong = await owner.post(`${vouchers}/use`, { ...form, number: '1', request });
  expect(errorAt(wrong.html, 'anyway')).toContain('This voucher has run out.');
  const again = fieldsOf(wrong.html, `${vouchers}/use`);
  expect(again).toMatchObject({ number: '1', request });
  const used = await owner.postAndFollow(`${vouchers}/use`, { ...again, anyway: 'yes' });
  expect(wordsOf(used.html)).toContain('The voucher is used on the request.');
});

test('the assistant sees no vouchers', async () => {
  const assistant = await signedIn(house, studio, 'assistant');
  expect((await assistant.get(vouchers)).status).toBe(403);
});
