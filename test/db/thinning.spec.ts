// A solvent poured into a bottle is taken from what days had set aside of it: those days get it from elsewhere at
// once. What cannot be used today is refused at the field of the solvent.
import { afterAll, beforeAll, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { DaysService } from '../../src/stock/days.service.js';
import { PouringService } from '../../src/stock/pouring.service.js';
import { StockService } from '../../src/stock/stock.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, askForSitting, foundTestStudio } from '../support/studio.js';

let house: TestHouse;
beforeAll(async () => {
  house = await openTestHouse();
});
afterAll(() => house.close());

it('plans the days anew that the solvent was set aside for, and takes none that has run out', async () => {
  const studio = await foundTestStudio(house, { slug: 'thinning', email: 'desk@thinning.example' });
  const stock = house.app.get(StockService);
  const day = (text: string) => Temporal.PlainDate.from(text);
  const { ether, first, second, old } = await house.db.inStudio(studio.id, async (tx) => {
    const lives = { leadDays: 14, ripenDays: null, lifeDays: null, plateSizeId: null };
    const item = await stock.enterItem(tx, { name: 'Ether', kind: 'chemical', unit: 'uL', ...lives });
    const bottle = (label: string, until: string) =>
      stock.receive(
        tx,
        { itemId: item.id, label, usableFrom: day('2026-01-01'), usableUntil: day(until) },
        20_000n,
      );
    return {
      ether: item,
      first: await bottle('First', '2027-06-01'),
      second: await bottle('Second', '2027-12-01'),
      old: await bottle('Old', '2026-11-01'),
    };
  });
  const takes = { testPlates: '0', testSizeId: '', [`item-${ether.id}`]: '15 mL' };
  await house.app.get(DaysService).saveTakes(studio.id, studio.owner, takes);
  const { sittingId } = await askForSitting(house, studio);
  await approve(house, studio, sittingId, '2027-04-02T09:30');
  const setAside = () =>
    house.db.inStudio(studio.id, async (tx) => {
      const lots = await stock.lots(tx);
      return [first, second].map((id) => lots.find((lot) => lot.id === id)?.reserved);
    });
  expect(await setAside()).toEqual([15_000n, 0n]);

  const thin = (solventLotId: string) =>
    house.app.get(PouringService).thin(studio.id, studio.owner, studio.lots.collodion, {
      solventLotId,
      quantity: '18 mL',
      reason: '',
    });
  await expect(thin(old)).rejects.toMatchObject({
    fields: [
      { field: 'solventLotId', message: 'This has run out or is not ripe yet; please choose another.' },
    ],
  });
  await thin(first);
  expect(await setAside()).toEqual([2_000n, 13_000n]);
});
