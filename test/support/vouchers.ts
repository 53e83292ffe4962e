// A gift voucher, for tests.
import { SystemRandom } from '../../src/platform/clock.js';
import type { Tx } from '../../src/platform/db/tx.js';
import { VouchersService } from '../../src/vouchers/vouchers.service.js';
import { VouchersStore } from '../../src/vouchers/vouchers.store.js';
import type { TestHouse } from './house.js';
import { dayOf, type TestStudio } from './studio.js';

export const VOUCHER = {
  number: '1',
  buyer: 'Perran Holt',
  buyerReach: '01632 960191',
  forWhom: 'Demelza Holt',
  worth: 'One whole plate',
  validUntil: '2028-12-31',
  surprise: 'yes',
};

/** A surprise voucher used on a request. @param number as it stands on the paper */
export async function surprise(
  house: TestHouse,
  { id, owner }: TestStudio,
  request: string,
  number: string,
): Promise<string> {
  const vouchers = house.app.get(VouchersService);
  await vouchers.save(id, owner, null, { ...VOUCHER, number });
  await vouchers.use(id, owner, { number, request });
  const used = (await vouchers.list(id)).vouchers.find((one) => one.number === number);
  if (!used) throw new Error('The voucher is gone.');
  return used.id;
}

/** The same in the rows only, for a sitting of any state. */
export async function giveSurprise(house: TestHouse, tx: Tx, sittingId: string): Promise<void> {
  const id = new SystemRandom().id();
  const used = { sittingId, on: dayOf(house) };
  const voucher = { ...VOUCHER, id, validUntil: null, surprise: true, toldAt: null, used };
  await new VouchersStore().add(tx, voucher, house.clock.now());
  await new VouchersStore().change(tx, voucher);
}
