// A batch is mixed only of bottles that are usable on its day.
import { Temporal } from 'temporal-polyfill';
import { mixed } from '../../src/stock/acts.calc.js';
import { type Lot, withLotExtras } from '../../src/stock/stock.schemas.js';

const day = Temporal.PlainDate.from('2027-05-14');
const bottle = (from: string, until: string | null): Lot => ({
  ...withLotExtras({
    itemId: 'ether',
    label: 'Ether',
    usableFrom: Temporal.PlainDate.from(from),
    usableUntil: until === null ? null : Temporal.PlainDate.from(until),
  }),
  id: 'lot',
  onHand: 500n,
  reserved: 0n,
});
const batch = {
  id: 'batch',
  lot: { itemId: 'collodion', label: 'Batch', usableFrom: day, usableUntil: null },
};
const mixOf = (lot: Lot) => mixed({ ...batch, quantity: 100n, day }, [{ lot, quantity: 100n }]);

test.each([
  ['2027-05-14', '2027-05-14', true],
  ['2027-05-01', null, true],
  ['2027-05-15', null, false],
  ['2027-01-01', '2027-05-13', false],
])('a bottle usable from %s until %s on 14 May: %s', (from, until, ok) => {
  expect(mixOf(bottle(from, until))).toMatchObject(ok ? { ok } : { ok, reason: 'out of its days' });
});
