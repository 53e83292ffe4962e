// Gift vouchers: numbers that are there once, using one on a request, and taking that back.
import { afterAll, beforeAll, beforeEach, expect, it } from '@jest/globals';
import { DecisionsService } from '../../src/sittings/decisions.service.js';
import { VouchersService } from '../../src/vouchers/vouchers.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { VOUCHER } from '../support/vouchers.js';

let house: TestHouse;
let studio: TestStudio;
let vouchers: VouchersService;
let request: string;
let count = 0;

beforeAll(async () => {
  house = await openTestHouse();
  vouchers = house.app.get(VouchersService);
});
beforeEach(async () => {
  house.clock.set('2026-11-25T10:00:00Z');
  studio = await foundTestStudio(house, { slug: `vouchers-${++count}` });
  request = (await askForSitting(house, studio)).sittingId;
});
afterAll(() => house.close());

const save = (more: object = {}, id: string | null = null) =>
  vouchers.save(studio.id, studio.owner, id, { ...VOUCHER, ...more });
const use = (input: object) => vouchers.use(studio.id, studio.owner, input);
const all = async () => (await vouchers.list(studio.id)).vouchers;
const wrongAt = (field: string) => ({ code: 'bad_input', fields: [{ field }] });

it('a number is there once, however it is typed, and the next is proposed', async () => {
  await save({ number: 'ky 12' });
  await expect(save({ number: ' KY  12' })).rejects.toMatchObject(wrongAt('number'));
  await save({ number: '41' });
  const { nextNumber, vouchers: kept } = await vouchers.list(studio.id);
  expect(nextNumber).toBe('42');
  expect(kept.map((one) => one.number).sort()).toEqual(['41', 'KY 12']);
  const id = kept.find((one) => one.number === '41')?.id ?? '';
  await expect(save({ number: 'KY 12' }, id)).rejects.toMatchObject(wrongAt('number'));
  await save({ number: '41', worth: 'Two plates' }, id);
  expect((await all()).find((one) => one.id === id)?.worth).toBe('Two plates');
});

it('two that are written down under one number at one moment are one voucher and one clear answer', async () => {
  const done = await Promise.allSettled([save({ number: '7' }), save({ number: '7' })]);
  expect(done.map((one) => one.status).sort()).toEqual(['fulfilled', 'rejected']);
  expect(done.find((one) => one.status === 'rejected')).toMatchObject({ reason: wrongAt('number') });
  expect(await all()).toHaveLength(1);
});

it('each mistake is told at its field', async () => {
  await expect(save({ number: ' ', buyer: '', validUntil: '31 June' })).rejects.toMatchObject({
    fields: [{ field: 'number' }, { field: 'buyer' }, { field: 'validUntil' }],
  });
});

it('a voucher is used on one request by its number, once, and again when that was taken back', async () => {
  await save();
  await expect(use({ number: '2', request })).rejects.toMatchObject(wrongAt('number'));
  await use({ number: '1', request });
  const [voucher] = await all();
  expect(voucher?.used).toMatchObject({ sittingId: request });
  expect(voucher?.used?.on.toString()).toBe('2026-11-25');
  await expect(use({ number: '1', request })).rejects.toMatchObject(wrongAt('number'));
  await vouchers.takeBack(studio.id, studio.owner, voucher?.id ?? '');
  await expect(vouchers.takeBack(studio.id, studio.owner, voucher?.id ?? '')).rejects.toMatchObject({
    code: 'wrong_state',
  });
  await use({ number: '1', request });
});

it('of a request that was declined it is used on another, and is a surprise there again', async () => {
  await save({ surprise: 'yes' });
  await use({ number: '1', request });
  await vouchers.tell(studio.id, studio.owner, (await all())[0]?.id ?? '');
  await house.app.get(DecisionsService).decline(studio.id, studio.owner, request, 'Not this year.');
  const other = (await askForSitting(house, studio)).sittingId;
  await use({ number: '1', request: other });
  expect(await all()).toMatchObject([{ used: { sittingId: other }, toldAt: null }]);
  const third = (await askForSitting(house, studio)).sittingId;
  await expect(use({ number: '1', request: third })).rejects.toMatchObject(wrongAt('number'));
});

it('two requests want one voucher at one moment: one has it', async () => {
  await save();
  const other = (await askForSitting(house, studio)).sittingId;
  const done = await Promise.allSettled([
    use({ number: '1', request }),
    use({ number: '1', request: other }),
  ]);
  expect(done.map((one) => one.status).sort()).toEqual(['fulfilled', 'rejected']);
});

it('counts on its last day by the studio’s own clock, and after it only where it is honoured all the same', async () => {
  await save({ validUntil: '2027-06-10' });
  await save({ number: '2', validUntil: '2027-06-10' });
  house.clock.set('2027-06-10T22:30:00Z'); // 23:30 in London
  await use({ number: '1', request });
  house.clock.set('2027-06-10T23:30:00Z'); // the 11th, 00:30
  await expect(use({ number: '2', request })).rejects.toMatchObject(wrongAt('anyway'));
  await use({ number: '2', request, anyway: 'yes' });
});

it('is used on no request that is not known, nor told of twice', async () => {
  await save();
  const nobody = '00000000-0000-4000-8000-000000000009';
  await expect(use({ number: '1', request: nobody })).rejects.toMatchObject(wrongAt('request'));
  const [voucher] = await all();
  await vouchers.tell(studio.id, studio.owner, voucher?.id ?? '');
  await expect(vouchers.tell(studio.id, studio.owner, voucher?.id ?? '')).rejects.toMatchObject({
    code: 'wrong_state',
  });
  await expect(vouchers.tell(studio.id, studio.owner, nobody)).rejects.toMatchObject({ code: 'not_found' });
});
