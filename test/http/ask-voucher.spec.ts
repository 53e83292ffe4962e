// The number of a gift voucher given with a request: on the form and at the API, bound with the request or refused
// beside the field.
import { z } from 'zod';
import { VouchersService } from '../../src/vouchers/vouchers.service.js';
import { askPath, countSittings, filledForm, ofStep, sendForm } from '../support/ask-form.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, type Sent, wordsOf } from '../support/page-forms.js';
import { askForSitting, foundTestStudio, requestBody, type TestStudio } from '../support/studio.js';
import { signedIn, Visitor } from '../support/visitor.js';
import { VOUCHER } from '../support/vouchers.js';

let house: TestHouse;
let studio: TestStudio;
let numbers = 0;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
});
afterAll(() => house.close());

async function voucher(more: Partial<typeof VOUCHER> = {}): Promise<string> {
  const number = `KY ${++numbers}`;
  const { surprise: _none, ...plain } = VOUCHER;
  await house.app.get(VouchersService).save(studio.id, studio.owner, null, { ...plain, number, ...more });
  return number;
}

async function ofNumber(number: string) {
  const { vouchers } = await house.app.get(VouchersService).list(studio.id);
  return vouchers.find((one) => one.number === number);
}

async function sent(more: Sent) {
  const { visitor, answers } = await filledForm(house, studio, more);
  const at = await sendForm(visitor, studio, answers);
  return { at, visitor };
}

it('a voucher’s number is bound to the request in whatever way it is written, and the owner sees it', async () => {
  const number = await voucher();
  const { at, visitor } = await sent({ voucher: `  ${number.toLowerCase()} ` });
  expect(wordsOf((await visitor.get(at.location)).html)).toContain('Your request has reached the studio.');
  const used = (await ofNumber(number))?.used;
  const owner = await signedIn(house, studio, 'owner');
  const request = await owner.get(`/s/${studio.slug}/desk/requests/${used?.sittingId}`);
  expect(wordsOf(request.html)).toContain(`Linnea Harrow used a gift voucher on it: No. ${number}`);
});

it.each([
  ['unknown', async () => 'NONE', /^No voucher has this number/],
  [
    'run out',
    () => voucher({ validUntil: '2026-11-01' }),
    /^This voucher was valid until Sunday 1 November 2026/,
  ],
  ['too long', async () => 'N'.repeat(21), /at most 20 characters/],
  [
    'used',
    async () => {
      const number = await voucher();
      await askForSitting(house, studio, { voucher: number });
      return number;
    },
    /^This voucher was used already/,
  ],
])(
  'a voucher that is %s is told beside the field, at the step and at the API, and asks nothing',
  async (_is, make, told) => {
    const number = await make();
    const before = await countSittings(house, studio);
    const { at } = await sent({ voucher: number, hopes: 'Kept.' });
    expect(at.status).toBe(422);
    expect(errorAt(at.html, 'voucher')).toMatch(told);
    expect(at.html).toContain('Kept.');
    const answer = await house.app.inject({
      method: 'POST',
      url: `/api/v1/s/${studio.slug}/requests`,
      headers: { 'idempotency-key': `voucher ${number}` },
      payload: { ...requestBody(house, studio), voucher: number },
    });
    expect(answer.statusCode).toBe(422);
    expect(answer.json().errors).toEqual([expect.objectContaining({ pointer: '/voucher' })]);
    expect(await countSittings(house, studio)).toBe(before);
  },
);

it('one voucher given with eight requests at one moment is used on one, and the others are refused', async () => {
  const number = await voucher();
  const before = await countSittings(house, studio);
  const all = await Promise.allSettled(
    Array.from({ length: 8 }, () => askForSitting(house, studio, { voucher: number })),
  );
  expect(all.filter((one) => one.status === 'fulfilled')).toHaveLength(1);
  expect(await countSittings(house, studio)).toBe(before + 1);
});

it('a voucher used up while somebody looked their answers over is told there, and nothing is asked', async () => {
  const number = await voucher();
  const { visitor, answers } = await filledForm(house, studio, { voucher: number });
  let path = askPath(studio);
  for (const step of ['you', 'people', 'days', 'more'])
    path = (await visitor.post(path, ofStep(step, answers))).location;
  expect(wordsOf((await visitor.get(path)).html)).toContain(`Gift voucher ${number}`);
  await askForSitting(house, studio, { voucher: number });
  const late = await visitor.post(path.replace(/check$/, 'send'));
  expect(late.status).toBe(422);
  expect(wordsOf(late.html)).toContain('This voucher was used already.');
});

it('a request that was withdrawn has not used its voucher up', async () => {
  const number = await voucher();
  const first = await askForSitting(house, studio, { voucher: number });
  const visitor = new Visitor(house);
  await visitor.get(`/s/${studio.slug}/place/${first.token}`);
  await visitor.post(`/s/${studio.slug}/place/${first.token}/give-up`);
  const second = await askForSitting(house, studio, { voucher: number });
  expect((await ofNumber(number))?.used?.sittingId).toBe(second.sittingId);
});

it('whoever gives the number of a surprise themselves is written to: it is none to them', async () => {
  const number = await voucher({ surprise: 'yes' });
  const { sittingId } = await askForSitting(house, studio, {
    voucher: number,
    email: 'demelza@post.example',
  });
  await house.work();
  const states = await house.db.inStudio(studio.id, (tx) =>
    tx.many(
      z.object({ state: z.string() }),
      'select state from mail where studio_id = $1 and about_id = $2',
      [studio.id, sittingId],
    ),
  );
  expect(states.length).toBeGreaterThan(0);
  expect(states.filter(({ state }) => state !== 'sent')).toEqual([]);
});
