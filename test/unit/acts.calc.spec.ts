// Bottles are mixed and thinned only of what is usable on the day, and a suspect one stays so until it is found good.
import { Temporal } from 'temporal-polyfill';
import { counted, discarded, foundGood, mixed, suspected, thinned } from '../../src/stock/acts.calc.js';
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

test.each([
  ['2027-05-14', '2027-05-14', true],
  ['2027-05-15', null, false],
  ['2027-01-01', '2027-05-13', false],
])('a solvent usable from %s until %s thins a bottle on 14 May: %s', (from, until, ok) => {
  const solvent = { ...bottle(from, until), id: 'solvent' };
  const acted = thinned(bottle('2027-05-01', null), [{ lot: solvent, quantity: 100n }], 0n, {
    reason: '',
    day,
  });
  expect(acted).toMatchObject(ok ? { ok } : { ok, reason: 'out of its days' });
});

test('a suspect bottle that is emptied and found again is suspect, and good only once it is found good', () => {
  const good = bottle('2027-05-01', null);
  const lotOf = (acted: ReturnType<typeof suspected>) => {
    const lot = acted.ok ? acted.changes[0]?.lot : undefined;
    if (!lot) throw new Error('It was not done.');
    return lot;
  };
  const again = (lot: Lot) => counted(lotOf(discarded(lot, '')), 5n, '').lot;
  const suspect = lotOf(suspected(good, 'fog'));
  expect(again(suspect)).toMatchObject({ state: 'suspect', stateNote: 'fog', onHand: 5n });
  expect(counted(counted(suspect, 0n, '').lot, 5n, '').lot.state).toBe('suspect');
  expect(again(lotOf(foundGood(suspect))).state).toBe('good');
  expect(again(good).state).toBe('good');
});
