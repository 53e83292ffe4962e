// What a studio day takes besides is set aside with its first sitting and given back with its last, also when both
// happen at one moment; no sheet of it is lost or held twice.
import { afterAll, beforeAll, beforeEach, describe, expect, it, jest } from '@jest/globals';
import { z } from 'zod';
import { DeskService } from '../../src/desk/desk.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { DaysService } from '../../src/stock/days.service.js';
import { PreparationStore } from '../../src/stock/preparation.store.js';
import { StockService } from '../../src/stock/stock.service.js';
import { StockStore } from '../../src/stock/stock.store.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
let number = 0;

beforeAll(async () => {
  house = await openTestHouse({ pool: 20 });
});
afterAll(() => house.close());
beforeEach(async () => {
  const slug = `days-${++number}`;
  studio = await foundTestStudio(house, { slug, email: `desk@${slug}.example` });
});

const takes = (said: Record<string, string>) =>
  house.app.get(DaysService).saveTakes(studio.id, studio.owner, { testPlates: '0', testSizeId: '', ...said });
const twoTests = () => takes({ testPlates: '2', testSizeId: studio.sizes.half.id });

/** Sheets of half-plate glass set aside for days themselves, by date. */
const testSheets = () =>
  house.db.inStudio(studio.id, async (tx) => {
    const rows = await tx.many(
      z.object({ day: z.string(), sheets: z.bigint() }),
      `select d.day::text as day, sum(r.quantity)::bigint as sheets from studio_day d
       join reservation r on r.studio_id = d.studio_id and r.held_for = d.day_id and r.item_id = $2
       where d.studio_id = $1 group by d.day order by 1`,
      [tx.studioId, studio.items.halfGlass.id],
    );
    return rows.map((row) => `${row.day}: ${row.sheets}`);
  });

const reserved = (item: 'halfGlass' | 'developer') =>
  house.db.inStudio(studio.id, async (tx) => {
    const lots = await house.app.get(StockService).lots(tx);
    return lots.find((lot) => lot.id === studio.lots[item])?.reserved;
  });

const starts = (date: string) => openStarts(house, studio, { from: date, until: date });
async function sit(start: string): Promise<string> {
  const { sittingId, token } = await askForSitting(house, studio);
  await approve(house, studio, sittingId, start);
  return token;
}
const giveUp = (token: string) => house.app.get(RequestsService).giveUp(studio.id, token);

describe('what a day takes', () => {
  it('is set aside with the first sitting of a day, once, and given back with the last', async () => {
    await twoTests();
    const [first = '', second = ''] = await starts('2027-04-02');
    const one = await sit(first);
    expect(await testSheets()).toEqual(['2027-04-02: 2']);
    const two = await sit(second);
    expect(await testSheets()).toEqual(['2027-04-02: 2']);
    await giveUp(one);
    expect(await testSheets()).toEqual(['2027-04-02: 2']);
    await giveUp(two);
    expect(await testSheets()).toEqual([]);
    expect([await reserved('halfGlass'), await reserved('developer')]).toEqual([0n, 0n]);
  });

  it('is nothing until the owner says so, and comes to the days that are given already', async () => {
    const [first = ''] = await starts('2027-04-02');
    await sit(first);
    const before = await reserved('developer');
    expect(await testSheets()).toEqual([]);
    await takes({ [`item-${studio.items.developer.id}`]: '100 mL' });
    expect(await reserved('developer')).toBe((before ?? 0n) + 100_000n);
    await twoTests();
    expect(await testSheets()).toEqual(['2027-04-02: 2']);
    await takes({});
    expect([await testSheets(), await reserved('developer')]).toEqual([[], before]);
  });

  it('is refused with a sentence at the field where an amount cannot be read', async () => {
    const field = `item-${studio.items.developer.id}`;
    await expect(takes({ [field]: '100' })).rejects.toMatchObject({
      code: 'bad_input',
      fields: [{ field, message: 'Please write how much with its unit, like 250 ml.' }],
    });
    await expect(takes({ testPlates: '2' })).rejects.toMatchObject({
      fields: [{ field: 'testSizeId', message: 'Please choose a plate size.' }],
    });
  });

  it('is there once and no more however many come and go on a day at one moment', async () => {
    await twoTests();
    for (const date of ['2027-04-09', '2027-04-16', '2027-04-23']) {
      const [first = '', second = '', third = ''] = await starts(date);
      const leaving = await sit(first);
      const coming = await Promise.all([askForSitting(house, studio), askForSitting(house, studio)]);
      await Promise.all([
        giveUp(leaving),
        approve(house, studio, coming[0].sittingId, second),
        approve(house, studio, coming[1].sittingId, third),
      ]);
      expect((await testSheets()).at(-1)).toBe(`${date}: 2`);
      await Promise.all(coming.map(({ token }) => giveUp(token)));
      expect((await testSheets()).filter((line) => line.startsWith(date))).toEqual([]);
    }
    expect(await reserved('halfGlass')).toBe(0n);
  });

  it('is set aside anew for all days under locks taken in the order in which everybody takes them', async () => {
    const item = (name: 'developer' | 'collodion') => studio.items[name].id;
    const [low = '', high = ''] = [item('developer'), item('collodion')].sort();
    await takes({ [`item-${high}`]: '1 mL' });
    for (const date of ['2027-04-02', '2027-04-09']) await sit((await starts(date))[0] ?? '');
    const locks: string[] = [];
    const days = jest.spyOn(PreparationStore.prototype, 'lockDay');
    const items = jest.spyOn(StockStore.prototype, 'lockItems');
    try {
      await takes({ [`item-${low}`]: '1 mL' });
      const order = (mock: { invocationCallOrder: number[] }) => mock.invocationCallOrder;
      for (const [at, [, ids]] of items.mock.calls.entries())
        locks.push(...ids.filter((id) => !locks.includes(id)).map((id) => (at === 0 ? id : `late ${id}`)));
      expect(locks).toEqual([low, high]);
      expect(order(days.mock)).toHaveLength(2);
      expect(Math.max(...order(days.mock))).toBeLessThan(Math.min(...order(items.mock)));
    } finally {
      jest.restoreAllMocks();
    }
  });

  it('does not follow a request that never had a day', async () => {
    await twoTests();
    const { token } = await askForSitting(house, studio);
    await giveUp(token);
    const days = await house.db.inStudio(studio.id, (tx) => tx.run('select from studio_day'));
    expect(days).toBe(0);
  });
});

describe('a day that cannot have it', () => {
  const date = '2027-04-02';
  beforeEach(async () => {
    await twoTests();
    await house.db.inStudio(studio.id, (tx) =>
      tx.run('update item set lead_days = 300 where studio_id = $1', [tx.studioId]),
    );
  });

  const sheets = (count: number) =>
    house.db.inStudio(studio.id, (tx) =>
      tx.run('update lot set on_hand = $3 where studio_id = $1 and lot_id = $2', [
        tx.studioId,
        studio.lots.halfGlass,
        count,
      ]),
    );
  const asks = async () => {
    const suits = { kind: 'these' as const, days: [date] };
    const plates = [{ plateSizeId: studio.sizes.half.id, sitters: [0] }];
    return askForSitting(house, studio, { suits, plates });
  };
  const told = async ({ sittingId }: { sittingId: string }) => {
    const { choices } = await house.app.get(DeskService).request(studio.id, sittingId);
    return choices?.map(({ stock }) => stock.state);
  };

  it('gives no place, and leaves nothing behind', async () => {
    await sheets(1);
    const [first = ''] = await starts(date);
    const { sittingId } = await asks();
    await expect(approve(house, studio, sittingId, first)).rejects.toMatchObject({ code: 'short_of_stock' });
    expect(await testSheets()).toEqual([]);
  });

  it('is told so before a place is given: a first place brings with it what the day takes', async () => {
    await sheets(40);
    const [first = '', second = ''] = await starts(date);
    const [one, two] = [await asks(), await asks()];
    expect(await told(one)).toEqual(['enough']);
    await approve(house, studio, one.sittingId, first);
    const each = Number(await reserved('halfGlass')) - 2;
    await sheets(2 + 2 * each); // the tests are set aside: a second place needs none
    expect(await told(two)).toEqual(['enough']);
    await approve(house, studio, two.sittingId, second);
    await giveUp(one.token);
    await giveUp(two.token);
    const three = await asks();
    await sheets(each + 1);
    expect(await told(three)).toEqual(['cannot be had']);
    await expect(approve(house, studio, three.sittingId, first)).rejects.toMatchObject({
      code: 'short_of_stock',
    });
    await sheets(each + 2);
    expect(await told(three)).toEqual(['enough']);
    await approve(house, studio, three.sittingId, first);
  });
});
