// A request in full at the API: ages, a guardian, what helps, what they bring, a voucher; taken once, and described.
import { countSittings } from '../support/ask-form.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { wordsOf } from '../support/page-forms.js';
import { foundTestStudio, requestBody, type TestStudio } from '../support/studio.js';
import { signedIn } from '../support/visitor.js';
import { VouchersService } from '../../src/vouchers/vouchers.service.js';
import { VOUCHER } from '../support/vouchers.js';

let house: TestHouse;
let studio: TestStudio;
let url: string;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
  url = `/api/v1/s/${studio.slug}/requests`;
  const { surprise: _none, ...plain } = VOUCHER;
  await house.app.get(VouchersService).save(studio.id, studio.owner, null, { ...plain, number: 'KY 12' });
});
afterAll(() => house.close());

interface Answered {
  sittingId: string;
  errors?: { pointer: string; detail: string }[];
}

async function ask(body: Record<string, unknown>, key: string) {
  const answer = await house.app.inject({
    method: 'POST',
    url,
    headers: { 'idempotency-key': key },
    payload: body,
  });
  return { status: answer.statusCode, body: answer.json<Answered>() };
}

const IN_FULL = {
  bands: ['under 8'],
  guardian: { name: 'Wilhelmina Harrow', relation: 'grandmother', reach: '01632 960412' },
  access: 'A low chair.',
  brings: 'A spaniel.',
  voucher: 'ky 12',
};

it('a request in full is taken once at the API, with its voucher, and the owner sees all of it', async () => {
  const before = await countSittings(house, studio);
  const body = { ...requestBody(house, studio), ...IN_FULL };
  const all = await Promise.all([1, 2, 3].map(() => ask(body, 'in full 1')));
  all.push(await ask(body, 'in full 1'));
  expect(all.map((one) => one.status)).toEqual([201, 201, 201, 201]);
  const [id, ...others] = new Set(all.map((one) => one.body.sittingId));
  expect(others).toEqual([]);
  expect(await countSittings(house, studio)).toBe(before + 1);
  const owner = await signedIn(house, studio, 'owner');
  const told = wordsOf((await owner.get(`/s/${studio.slug}/desk/requests/${id}`)).html);
  for (const words of [
    'A low chair.',
    'A spaniel.',
    'Wilhelmina Harrow (grandmother), 01632 960412',
    'used a gift voucher on it: No. KY 12',
  ])
    expect(told).toContain(words);
});

it.each([
  ['an age', { bands: ['8 to 14'] }],
  ['what was said', { minor: true }],
])('somebody under 18, by %s, is not taken at the API without a guardian', async (by, change) => {
  const before = await countSittings(house, studio);
  const { status, body } = await ask(
    { ...requestBody(house, studio), ...change, guardian: null },
    `minor ${by}`,
  );
  expect(status).toBe(422);
  expect(body.errors).toEqual([
    expect.objectContaining({
      pointer: '/guardian/name',
      detail: 'Please name a parent or guardian: somebody who sits is under 18.',
    }),
  ]);
  expect(await countSittings(house, studio)).toBe(before);
});

it('each field of a request in full is described', async () => {
  const answer = await house.app.inject({ url: '/api/openapi.json' });
  const described = JSON.stringify(answer.json().paths['/api/v1/s/{slug}/requests']);
  for (const field of Object.keys(IN_FULL)) expect(described).toContain(`"${field}":`);
});
