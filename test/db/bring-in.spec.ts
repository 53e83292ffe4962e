// Bringing in where something else happens at the same moment: once however often it is sent, and whole or not at all.
import { afterAll, afterEach, beforeAll, expect, jest, test } from '@jest/globals';
import { z } from 'zod';
import { BringInService } from '../../src/desk/bring-in/bring-in.service.js';
import { BringInStore } from '../../src/desk/bring-in/bring-in.store.js';
import { Tx } from '../../src/platform/db/tx.js';
import { DecisionsService } from '../../src/sittings/decisions.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
let bringIn: BringInService;

beforeAll(async () => {
  house = await openTestHouse({ now: '2026-11-26T10:00:00Z' });
  studio = await foundTestStudio(house);
  bringIn = house.app.get(BringInService);
});
afterEach(() => {
  jest.restoreAllMocks();
});
afterAll(() => house.close());

const rows = (table: string) =>
  house.db.inStudio(studio.id, async (tx) => {
    const sql = `select count(*)::int as n from ${table} where studio_id = $1`;
    return (await tx.one(z.object({ n: z.number() }), sql, [studio.id])).n;
  });
const TABLES = ['contact', 'sitting', 'occupancy', 'reservation', 'reminder', 'bring_in'];
const counts = () => Promise.all(TABLES.map(rows));

/** A draft as it was looked at. */
async function looked(text: string): Promise<{ id: string; seen: string; tells: (string | undefined)[] }> {
  const id = await bringIn.begin(studio.id, 'diary', text, false);
  const { seen, lines } = await bringIn.check(studio.id, studio.owner, id);
  return { id, seen, tells: lines.map(({ tells }) => tells) };
}
const diary = (name: string, promised = '') =>
  `Name,E-mail,Promised\n${name} Ruff,${name}@example.org,${promised}\n${name} Teal,${name}2@example.org,`;

/** The same draft confirmed four times at one moment. @returns how many sittings came of it */
async function fourTimes(name: string): Promise<number> {
  const { id, seen } = await looked(diary(name));
  const before = await rows('sitting');
  const four = [1, 2, 3, 4].map(() => bringIn.confirm(studio.id, studio.owner, id, seen).catch(() => null));
  const done = await Promise.all(four);
  expect(done.filter((one) => one !== null).length).toBeGreaterThan(0);
  return (await rows('sitting')) - before;
}

test('a draft comes in once, however often it is sent at one moment', async () => {
  expect(await fourTimes('ann')).toBe(2);
});

test('without the lock of the draft it comes in more than once', async () => {
  const draft = BringInStore.prototype.draft;
  jest.spyOn(BringInStore.prototype, 'draft').mockImplementation(function (this: BringInStore, tx, id) {
    return draft.call(this, tx, id, false);
  });
  expect(await fourTimes('bo')).toBeGreaterThan(2);
});

test('a place that was taken since it was looked at stops all of it, and looking again tells of it', async () => {
  const { id, seen, tells } = await looked(diary('cy', '2 April 2027 09:30'));
  expect(tells).toEqual(['Friday 2 April 2027, 09:30', undefined]);
  const other = await askForSitting(house, studio);
  await approve(house, studio, other.sittingId, '2027-04-02T09:30');
  const before = await counts();
  expect(await bringIn.confirm(studio.id, studio.owner, id, seen)).toBeNull();
  expect(await counts()).toEqual(before);
  const again = await bringIn.check(studio.id, studio.owner, id);
  expect(again.lines[0]?.problems.map(({ why }) => why)).toEqual([
    '09:30 that day is Linnea Harrow’s already; open are 11:15, 13:00 and 14:45.',
  ]);
});

test('another hour than was seen stops it too: of a day alone the first open place is meant', async () => {
  const { id, seen, tells } = await looked(diary('dee', '9 April 2027'));
  expect(tells[0]).toBe('Friday 9 April 2027, 09:30');
  const other = await askForSitting(house, studio);
  await approve(house, studio, other.sittingId, '2027-04-09T09:30');
  const before = await counts();
  expect(await bringIn.confirm(studio.id, studio.owner, id, seen)).toBeNull();
  expect(await counts()).toEqual(before);
  const again = await bringIn.check(studio.id, studio.owner, id);
  expect(again.lines[0]?.tells).toBe('Friday 9 April 2027, 11:15');
  expect(await bringIn.confirm(studio.id, studio.owner, id, again.seen)).not.toBeNull();
});

test('looking writes nothing; without taking it back it would', async () => {
  const before = await counts();
  await looked(`${diary('eve', '16 April 2027')}\nHal Knot,hal@example.org,Monday 19 April 2027`);
  expect(await counts()).toEqual(before); // whatever was refused after it
  jest.spyOn(Tx.prototype, 'part').mockImplementation((act) => act());
  await looked(diary('fay', '23 April 2027'));
  expect((await counts())[0]).toBeGreaterThan(before[0] ?? 0);
});

test('undone while somebody decides about one of its people: either the one or the other', async () => {
  const { id, seen } = await looked(diary('gil'));
  const done = (await bringIn.confirm(studio.id, studio.owner, id, seen)) ?? '';
  const sittingId = await house.db.inStudio(studio.id, async (tx) => {
    const sql = 'select became_id as id from bring_in_line where studio_id = $1 and bring_in_id = $2 limit 1';
    return (await tx.one(z.object({ id: z.uuid() }), sql, [studio.id, done])).id;
  });
  const decline = house.app.get(DecisionsService).decline(studio.id, studio.owner, sittingId, 'Sorry.');
  const [touched, declined] = await Promise.all([
    bringIn.undo(studio.id, studio.owner, done),
    decline.then(
      () => true,
      () => false,
    ),
  ]);
  expect(touched.length > 0).toBe(declined);
});
