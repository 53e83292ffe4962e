// Running numbers when several people type in at the same moment: no gap, no double. The lock is also taken away once,
// to see the harm it prevents.
import { afterAll, beforeAll, beforeEach, describe, expect, it, jest } from '@jest/globals';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { SystemRandom } from '../../src/platform/clock.js';
import { MadeFeeds } from '../../src/plates/made-feeds.service.js';
import { MadeService } from '../../src/plates/made.service.js';
import { MadeStore } from '../../src/plates/made.store.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';

const FRIDAY = Temporal.PlainDate.from('2026-11-20');
const random = new SystemRandom();
let house: TestHouse;
let studio: TestStudio;
let made: MadeService;
let count = 0;

beforeAll(async () => {
  house = await openTestHouse();
  made = house.app.get(MadeService);
});
beforeEach(async () => {
  jest.restoreAllMocks();
  studio = await foundTestStudio(house, { slug: `numbers-${++count}` });
});
afterAll(() => house.close());

/** Test plates of a day so many weeks before. */
const type = (weeks: number, plates: number) =>
  made.save(studio.id, studio.owner, FRIDAY.subtract({ weeks }), {
    first: 1,
    plates: Array.from({ length: plates }, () => ({
      id: random.id(),
      plateSizeId: studio.sizes.half.id,
      keeper: false,
    })),
  });
async function numbers(): Promise<number[]> {
  const days = [0, 1, 2, 3, 4, 5, 6, 7].map((weeks) => made.day(studio.id, FRIDAY.subtract({ weeks })));
  return (await Promise.all(days))
    .flatMap((day) => day.plates.map((one) => one.number))
    .sort((a, b) => a - b);
}

/** Two who type in at once, both past the giving of numbers as far as they get before either has written a plate. */
async function twoAtOnce(): Promise<PromiseSettledResult<unknown>[]> {
  const [holder, looker] = [0, 1].map(() => new pg.Client({ connectionString: house.database.url })) as [
    pg.Client,
    pg.Client,
  ];
  await holder.connect();
  await looker.connect();
  await holder.query('begin');
  await holder.query('lock table plate_made in share mode'); // may be read, not written
  const both = Promise.allSettled([type(0, 2), type(1, 3)]);
  const waiting = `select from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'`;
  while ((await looker.query(waiting)).rows.length < 2) await new Promise((done) => setTimeout(done, 5));
  await holder.query('commit');
  await holder.end();
  await looker.end();
  return both;
}

describe('running numbers given at the same moment', () => {
  it('of two who type in: each its own, and none left out', async () => {
    await type(2, 1);
    expect((await twoAtOnce()).map((one) => one.status)).toEqual(['fulfilled', 'fulfilled']);
    expect(await numbers()).toEqual([1, 2, 3, 4, 5, 6]);
  });

  it('of two who begin the book', async () => {
    expect((await twoAtOnce()).map((one) => one.status)).toEqual(['fulfilled', 'fulfilled']);
    expect(await numbers()).toEqual([1, 2, 3, 4, 5]);
  });

  it('of eight who type in several times', async () => {
    const all = [0, 1, 2, 3, 4, 5, 6, 7].flatMap((week) => [type(week, 2), type(week, 1), type(week, 3)]);
    expect((await Promise.allSettled(all)).every((one) => one.status === 'fulfilled')).toBe(true);
    expect(await numbers()).toEqual(Array.from({ length: 48 }, (_, index) => index + 1));
  });

  it('leave no gap for what was not kept', async () => {
    await type(0, 1);
    const feeds = jest.spyOn(MadeFeeds.prototype, 'follow').mockRejectedValueOnce(new Error('cut off'));
    await expect(type(1, 2)).rejects.toThrow('cut off');
    expect(feeds).toHaveBeenCalled();
    await type(1, 2);
    expect(await numbers()).toEqual([1, 2, 3]);
  });

  it('would clash without the lock: one of the two loses what they typed', async () => {
    await type(2, 1);
    jest.spyOn(MadeStore.prototype, 'lockNext').mockImplementation(function (this: MadeStore, tx) {
      return this.next(tx);
    });
    const results = await twoAtOnce();
    expect(results.map((one) => one.status).sort()).toEqual(['fulfilled', 'rejected']);
  });
});
