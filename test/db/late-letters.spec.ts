// A change that is told long after the page of its sitting has run out: there is nothing left to tell.
import { afterAll, beforeAll, expect, it } from '@jest/globals';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
});
afterAll(() => house.close());

it('writes no letter, and its job is done and not tried again', async () => {
  const { sittingId } = await askForSitting(house, studio);
  const touched = await house.db.inStudio(studio.id, (tx) =>
    tx.run(`update link set expires_at = '2026-01-01Z' where purpose = 'place' and subject_id = $1`, [
      sittingId,
    ]),
  );
  expect(touched).toBe(1);
  await house.work();
  expect(house.mail.sent).toEqual([]);
  const fresh = await askForSitting(house, studio);
  await house.work();
  expect(fresh.sittingId).not.toBe(sittingId);
  expect(house.mail.sent).toHaveLength(2);
});
