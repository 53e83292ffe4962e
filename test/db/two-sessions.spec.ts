// Two people, one thing, step by step: the second waits for the first and then gets a clear answer.
// No chance is involved, and each guard is also taken away once to see the harm it prevents.
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { LinksService } from '../../src/accounts/links.service.js';
import { once } from '../../src/platform/idempotency.js';
import { RoomService } from '../../src/room/room.service.js';
import { StockService } from '../../src/stock/stock.service.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { type Act, firstAndSecond } from '../support/two-sessions.js';

const FIRST = '00000000-0000-4000-8000-000000000001';
const SECOND = '00000000-0000-4000-8000-000000000002';
const today = Temporal.PlainDate.from('2026-11-25');
const day = Temporal.PlainDate.from('2026-12-01');

let house: TestHouse;
let studio: TestStudio;

let studios = 0;

const open = async () => {
  house = await openTestHouse();
};
beforeAll(open);
beforeEach(async () => {
  studio = await foundTestStudio(house, {
    slug: `sandpiper-loft-${++studios}`,
    shelf: { wholeGlass: 1n },
  });
});
afterAll(() => house.close());

async function asOwner(sql: string): Promise<unknown[]> {
  const client = new pg.Client({ connectionString: house.database.url });
  await client.connect();
  await client.query(`select set_config('app.studio_id', $1, false)`, [studio.id]);
  const { rows } = await client.query(sql);
  await client.end();
  return rows;
}

describe('the last place of a day', () => {
  const take =
    (heldFor: string, wallStart: Temporal.PlainDateTime): Act =>
    async (tx) => {
      const facts = await house.app.get(StudiosService).load(tx);
      await house.app.get(RoomService).take(tx, facts, { wallStart, plates: 1, heldFor });
    };
  const overlaps = `select from occupancy a join occupancy b on a.occupancy_id < b.occupancy_id and a.during && b.during`;
  let start: Temporal.PlainDateTime;
  beforeEach(async () => {
    const [open] = await openStarts(house, studio, { from: '2027-04-02', until: '2027-04-02' });
    start = Temporal.PlainDateTime.from(open ?? '');
  });

  it('goes to the first; the second is told that it was taken', async () => {
    const [one, two] = await firstAndSecond(house, studio.id, take(FIRST, start), take(SECOND, start));
    expect(one.status).toBe('fulfilled');
    expect(two).toMatchObject({ status: 'rejected', reason: { code: 'place_taken' } });
  });

  it('goes to both when the exclusion constraint is gone', async () => {
    await asOwner('alter table occupancy drop constraint occupancy_no_overlap');
    await firstAndSecond(house, studio.id, take(FIRST, start), take(SECOND, start));
    expect(await asOwner(overlaps)).toHaveLength(1);
    // the others have the constraint
    await house.close();
    await open();
  });
});

describe('the last sheet of glass', () => {
  const reserve =
    (heldFor: string): Act =>
    (tx) =>
      house.app
        .get(StockService)
        .reserve(tx, heldFor, [{ itemId: studio.items.wholeGlass.id, quantity: 1n }], day, today);

  it('is set aside for the first; the second is told that it cannot be had in time', async () => {
    const [one, two] = await firstAndSecond(house, studio.id, reserve(FIRST), reserve(SECOND));
    expect(one.status).toBe('fulfilled');
    expect(two).toMatchObject({ status: 'rejected', reason: { code: 'short_of_stock' } });
    expect(await asOwner(`select held_for from reservation`)).toEqual([{ held_for: FIRST }]);
  });

  it('is refused by the database itself where code would set it aside twice', async () => {
    await house.db.inStudio(studio.id, reserve(FIRST));
    const twice = house.db.inStudio(studio.id, (tx) =>
      tx.run('update lot set reserved = reserved + 1 where lot_id = $1', [studio.lots.wholeGlass]),
    );
    await expect(twice).rejects.toMatchObject({ code: 'short_of_stock' });
  });
});

describe('one request sent twice at the same moment', () => {
  it('is done once, and both get the same answer', async () => {
    let done = 0;
    const answers: number[] = [];
    const act: Act = async (tx) => {
      const keyed = { name: 'test', key: 'the same key', request: { a: 1 } };
      answers.push(await once(tx, house.clock, keyed, z.number(), async () => ++done));
    };
    await firstAndSecond(house, studio.id, act, act);
    expect(answers).toEqual([1, 1]);
  });
});

describe('a calendar link asked for twice at the same moment', () => {
  it('is one link, the same for both', async () => {
    const made: string[] = [];
    const act: Act = async (tx) => {
      made.push((await house.app.get(LinksService).ensure(tx, 'feed', FIRST, 'owner')).id);
    };
    await firstAndSecond(house, studio.id, act, act);
    expect(made[1]).toBe(made[0]);
    expect(await asOwner(`select from link where subject_id = '${FIRST}'`)).toHaveLength(1);
  });

  it('is made anew where the one there was has expired, which is not shown any more', async () => {
    const links = house.app.get(LinksService);
    await house.db.inStudio(studio.id, async (tx) => {
      const ends = house.clock.now().add({ minutes: 1 });
      const old = await links.make(tx, 'feed', FIRST, ends, 'owner');
      expect((await links.find(tx, 'feed', FIRST, 'owner'))?.id).toBe(old.id);
      house.clock.forward({ minutes: 1 });
      expect(await links.find(tx, 'feed', FIRST, 'owner')).toBeNull();
      expect((await links.ensure(tx, 'feed', FIRST, 'owner')).id).not.toBe(old.id);
    });
  });
});

describe('a transaction that PostgreSQL asks to repeat', () => {
  it('is repeated whole after a deadlock, and both acts end well', async () => {
    const lock =
      (first: string, second: string): Act =>
      async (tx) => {
        await tx.run('update lot set on_hand = on_hand + 1 where lot_id = $1', [first]);
        await new Promise((done) => setTimeout(done, 100));
        await tx.run('update lot set on_hand = on_hand + 1 where lot_id = $1', [second]);
      };
    const { wholeGlass, halfGlass } = studio.lots;
    await Promise.all([
      house.db.inStudio(studio.id, lock(wholeGlass, halfGlass)),
      house.db.inStudio(studio.id, lock(halfGlass, wholeGlass)),
    ]);
    expect(
      await asOwner(
        `select on_hand::int from lot where lot_id in ('${wholeGlass}', '${halfGlass}') order by 1`,
      ),
    ).toEqual([{ on_hand: 3 }, { on_hand: 42 }]);
  });

  it('is not nested: a second transaction inside one is refused', async () => {
    const nested = house.db.inStudio(studio.id, () => house.db.inStudio(studio.id, async () => {}));
    await expect(nested).rejects.toThrow('A transaction is open already');
  });
});
