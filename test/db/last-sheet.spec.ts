// Fifty owners' hands on the last sheet of glass at the same moment: one place gets it, all others are told in
// plain words. And what happens at the shelf itself while somebody sets aside: the second waits for the first.
import { randomUUID } from 'node:crypto';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import type { Tx } from '../../src/platform/db/tx.js';
import { AppError } from '../../src/platform/problems.js';
import { ActsService } from '../../src/stock/acts.service.js';
import { poured } from '../../src/stock/acts.calc.js';
import type { Item } from '../../src/stock/stock.schemas.js';
import { StockService } from '../../src/stock/stock.service.js';
import { StockStore } from '../../src/stock/stock.store.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { enterSittings } from '../support/many-sittings.js';
import { approve, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { type Act, firstAndSecond } from '../support/two-sessions.js';

const CLIENTS = 50;
const FIRST = '00000000-0000-4000-8000-000000000001';
const SECOND = '00000000-0000-4000-8000-000000000002';
const day = Temporal.PlainDate.from('2026-12-04');
const today = Temporal.PlainDate.from('2026-11-25');

let house: TestHouse;
let studio: TestStudio;
let owner: pg.Client;

async function open(wholeGlass: bigint): Promise<void> {
  house = await openTestHouse({ pool: CLIENTS });
  studio = await foundTestStudio(house, { shelf: { wholeGlass } });
  owner = new pg.Client({ connectionString: house.database.url });
  await owner.connect();
  await owner.query(`select set_config('app.studio_id', $1, false)`, [studio.id]);
  await owner.query(`update item set lead_days = null where kind = 'glass'`);
}
afterEach(async () => {
  await owner.end();
  await house.close();
});

describe('fifty clients at the last sheet', () => {
  beforeEach(() => open(1n), 60_000);

  /** Each gives a request of its own another place; what each was told. */
  async function rush(): Promise<string[]> {
    const asking = await enterSittings(house, studio, CLIENTS);
    const starts = await openStarts(house, studio, { from: '2027-04-02', until: '2027-07-30' });
    await owner.query(`update item set lead_days = 0 where kind <> 'glass'`);
    const ends = await Promise.allSettled(
      asking.map((one, at) => approve(house, studio, one.sittingId, starts[at] ?? '')),
    );
    return ends.map((end) => {
      if (end.status === 'fulfilled') return 'given';
      return end.reason instanceof AppError ? end.reason.detail : String(end.reason);
    });
  }

  it('are one winner, and all others are told that there is not enough', async () => {
    const told = await rush();
    const words = new Set(told.filter((one) => one !== 'given'));
    expect(told.filter((one) => one === 'given')).toHaveLength(1);
    for (const one of words)
      expect(one).toMatch(/^(There is not enough|What there is of) Clear glass, whole plate/);
    const { rows } = await owner.query(
      `select lot.reserved::int, count(reservation_id)::int as held from lot
       join reservation using (lot_id) where lot_id = $1 group by 1`,
      [studio.lots.wholeGlass],
    );
    expect(rows).toEqual([{ reserved: 1, held: 1 }]);
  }, 60_000);

  it('are all winners when nobody is locked out and the level is not guarded', async () => {
    await owner.query('alter table lot drop constraint lot_never_oversold');
    const { lockItems, moveReserved } = StockStore.prototype;
    const everybodyHasLooked = barrier(CLIENTS);
    StockStore.prototype.lockItems = lookWithoutLock;
    StockStore.prototype.moveReserved = async (tx, [one]) => {
      await everybodyHasLooked();
      return tx.run('update lot set reserved = reserved + 1 where lot_id = $1', [one?.lotId]);
    };
    const needs = [{ itemId: studio.items.wholeGlass.id, quantity: 1n }];
    const stock = house.app.get(StockService);
    try {
      await Promise.all(
        Array.from({ length: CLIENTS }, () =>
          house.db.inStudio(studio.id, (tx) => stock.reserve(tx, randomUUID(), needs, day, today)),
        ),
      );
    } finally {
      Object.assign(StockStore.prototype, { lockItems, moveReserved });
    }
    const { rows } = await owner.query('select on_hand::int, reserved::int from lot where reserved > 0');
    expect(rows).toEqual([{ on_hand: 1, reserved: CLIENTS }]);
  }, 60_000);
});

describe('an act at the shelf while somebody sets aside of the same item', () => {
  beforeEach(() => open(4n), 60_000);
  const reserve =
    (heldFor: string, quantity: bigint): Act =>
    (tx) => {
      const needs = [{ itemId: studio.items.wholeGlass.id, quantity }];
      return house.app.get(StockService).reserve(tx, heldFor, needs, day, today);
    };
  const breakSheets =
    (quantity: bigint): Act =>
    (tx) =>
      house.app.get(ActsService).act(tx, {
        items: [studio.items.wholeGlass.id],
        change: ([lot]) => {
          const acted = lot && poured(lot, quantity, 'used', 'broken');
          if (!acted?.ok) throw new Error('The box has not so many.');
          return acted.changes;
        },
      });
  const rows = async (sql: string) => (await owner.query(sql)).rows;

  it('waits, and plans with what was set aside in the meantime', async () => {
    const ends = await firstAndSecond(house, studio.id, reserve(FIRST, 3n), breakSheets(2n));
    expect(ends.map((end) => end.status)).toEqual(['fulfilled', 'fulfilled']);
    expect(await rows('select on_hand::int, reserved::int from lot where on_hand < 10')).toEqual([
      { on_hand: 2, reserved: 2 },
    ]);
    expect(await rows('select quantity::int, lot_id is null as missing from reservation order by 2')).toEqual(
      [
        { quantity: 2, missing: false },
        { quantity: 1, missing: true },
      ],
    );
  });

  it('is waited for: who sets aside after it finds what is left', async () => {
    const [broken, refused] = await firstAndSecond(house, studio.id, breakSheets(2n), reserve(SECOND, 3n));
    expect(broken.status).toBe('fulfilled');
    expect(refused).toMatchObject({ status: 'rejected', reason: { code: 'short_of_stock' } });
  });

  it('that does not lock the items plans with what is there no more, and only the guard refuses it', async () => {
    const { lockItems } = StockStore.prototype;
    StockStore.prototype.lockItems = lookWithoutLock;
    try {
      const [, second] = await firstAndSecond(house, studio.id, reserve(FIRST, 3n), reserve(SECOND, 3n));
      expect(second).toMatchObject({
        status: 'rejected',
        reason: { code: 'short_of_stock', detail: 'It was set aside for someone else a moment ago.' },
      });
    } finally {
      StockStore.prototype.lockItems = lockItems;
    }
  });
});

async function lookWithoutLock(this: StockStore, tx: Tx, ids: string[]): Promise<Item[]> {
  return (await this.items(tx)).filter((item) => ids.includes(item.id));
}

/** Waits until so many wait. */
function barrier(count: number): () => Promise<void> {
  let waiting = 0;
  let open = () => {};
  const opened = new Promise<void>((done) => {
    open = done;
  });
  return () => {
    if (++waiting === count) open();
    return opened;
  };
}
