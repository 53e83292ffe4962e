// The log of faults stays open to its last entry, and each bath shows its own, however many came later elsewhere.
import { afterAll, beforeAll, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { BathsService } from '../../src/stock/baths.service.js';
import type { Fault } from '../../src/stock/baths.schemas.js';
import { BathsStore } from '../../src/stock/baths.store.js';
import { FaultsService } from '../../src/stock/faults.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { enterBath } from '../support/prepared.js';
import { foundTestStudio } from '../support/studio.js';

let house: TestHouse;
beforeAll(async () => {
  house = await openTestHouse();
});
afterAll(() => house.close());

it('tells of an old fault, at its own address and at its bath, after a thousand others of another bath', async () => {
  const studio = await foundTestStudio(house, { slug: 'many-faults', email: 'desk@many-faults.example' });
  const [old, busy] = [await enterBath(house, studio), await enterBath(house, studio, { name: 'Tank B' })];
  const id = (n: number) => `00000000-0000-4000-8000-${n.toString().padStart(12, '0')}`;
  const about = {
    lotId: null,
    seen: 'fog',
    note: '',
    changed: '',
    helped: 'not known yet',
    who: 'Etta',
  } as const;
  const faults = Array.from(
    { length: 1001 },
    (_, n): Fault => ({
      ...about,
      id: id(n),
      bathId: n === 0 ? old : busy,
      day: Temporal.PlainDate.from(n === 0 ? '2026-01-05' : '2026-11-02'),
    }),
  );
  await house.db.inStudio(studio.id, async (tx) => {
    const store = new BathsStore();
    for (const one of faults) await store.addFault(tx, one, house.clock.now());
  });
  const { fault } = await house.app.get(FaultsService).one(studio.id, id(0));
  expect(fault.day.toString()).toBe('2026-01-05');
  const shown = await house.app.get(BathsService).one(studio.id, old);
  expect(shown.faults.map((one) => one.id)).toEqual([id(0)]);
});
