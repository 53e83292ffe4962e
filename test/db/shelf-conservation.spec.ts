// The same forty acts as in test/unit/shelf-conservation.spec.ts, here through the services on the database:
// what is kept there is what is true after each. A guard taken away is caught by the same checks.
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { SystemRandom } from '../../src/platform/clock.js';
import type { Tx } from '../../src/platform/db/tx.js';
import { AppError } from '../../src/platform/problems.js';
import { ItemsService } from '../../src/stock/items.service.js';
import { LotsStore } from '../../src/stock/lots.store.js';
import { lotRow, movementRow, toLot, toMovementLine } from '../../src/stock/lots.schemas.js';
import { PouringService } from '../../src/stock/pouring.service.js';
import { ReceiptsService } from '../../src/stock/receipts.service.js';
import { ShelfService } from '../../src/stock/shelf.service.js';
import { reservationRow, toHeld } from '../../src/stock/stock.schemas.js';
import { StockService } from '../../src/stock/stock.service.js';
import { StockStore } from '../../src/stock/stock.store.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { scale } from '../support/scale.js';
import { type Ran, SHELF_ITEMS, type ShelfDoor, steps } from '../support/shelf-acts.js';
import { around } from '../support/shelf-core.js';
import { dayOf, foundTestStudio, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
const random = new SystemRandom();

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house);
}, 60_000);
afterAll(() => house.close());

/** A shelf with items of its own, so that runs share a database and nothing else. */
async function openShelf(): Promise<ShelfDoor> {
  const { app, db, clock } = house;
  const [id, who] = [studio.id, studio.owner];
  const [shelf, pouring] = [app.get(ShelfService), app.get(PouringService)];
  const [stock, receipts] = [app.get(StockService), app.get(ReceiptsService)];
  const words = (value: number | null) => (value === null ? '' : String(value));
  const items: string[] = [];
  for (const one of SHELF_ITEMS) {
    const [ripenDays, leadDays] = [words(one.ripenDays), words(one.leadDays)];
    const [lifeDays, openedLifeDays] = [words(one.lifeDays), words(one.openedLifeDays)];
    const asked = { ...one, kind: 'chemical', unit: 'uL', ripenDays, leadDays, lifeDays, openedLifeDays };
    items.push(
      (await app.get(ItemsService).addItem(id, who, { ...asked, hazardNote: '', storage: '' })).itemId,
    );
  }
  const lots: string[] = [];
  const holders: string[] = [];
  const lot = (number: number) => around(lots, number) ?? random.id();
  const holder = (number: number) => around(holders, number) ?? random.id();
  const note = '';
  const done = async (act: Promise<unknown>): Promise<boolean> => {
    try {
      const made = await act;
      if (made !== null && typeof made === 'object' && 'lotId' in made) lots.push(String(made.lotId));
      return true;
    } catch (error) {
      if (
        error instanceof AppError &&
        ['bad_input', 'wrong_state', 'not_found', 'short_of_stock'].includes(error.code)
      )
        return false;
      throw error;
    }
  };
  const inTx = (act: (tx: Tx) => Promise<unknown>) => done(db.inStudio(id, act));
  const day = (days: number) => dayOf(house).add({ days });
  return {
    receive: (item, quantity, life, kind) => {
      const usableUntil = life === null ? '' : day(life).toString();
      return done(shelf.receive(id, who, { itemId: items[item], quantity, class: kind, usableUntil }));
    },
    count: (one, quantity) => done(shelf.count(id, who, lot(one), { quantity, reason: 'counted' })),
    take: (one, quantity) => done(shelf.take(id, who, lot(one), { quantity })),
    discard: (one) => done(shelf.discard(id, who, lot(one), {})),
    open: (one) => done(shelf.open(id, who, lot(one))),
    suspect: (one) => done(shelf.suspect(id, who, lot(one), { note: 'fog' })),
    foundGood: (one) => done(shelf.foundGood(id, who, lot(one))),
    blend: ([a, b], [some, more]) => {
      const parts = [
        { lotId: lot(a), quantity: some },
        { lotId: lot(b), quantity: more },
      ];
      return done(pouring.blend(id, who, { parts, label: 'blend', note }));
    },
    decant: (one, quantity) => done(pouring.decant(id, who, lot(one), { quantity, label: 'decanted', note })),
    thin: (one, solvent, quantity) => {
      const solventLotId = solvent === null ? '' : lot(solvent);
      return done(pouring.thin(id, who, lot(one), { solventLotId, quantity }));
    },
    mix: (quantity, from, part) => {
      const parts = [{ lotId: lot(from), quantity: part }];
      return done(pouring.mixBatch(id, who, { itemId: items[0], quantity, from: parts }));
    },
    order: (item, quantity, days) =>
      done(receipts.order(id, who, { itemId: items[item], quantity, expectedOn: day(days).toString() })),
    reserve: async (needs, inDays) => {
      const heldFor = random.id();
      const asked = needs.map(({ item, ...need }) => ({ ...need, itemId: items[item] ?? '' }));
      const given = await inTx((tx) => stock.reserve(tx, heldFor, asked, day(inDays), dayOf(house)));
      if (given) holders.push(heldFor);
      return given;
    },
    release: (one) => inTx((tx) => stock.release(tx, holder(one))),
    use: (one, of, quantity) => inTx((tx) => stock.use(tx, holder(one), [{ lotId: lot(of), quantity }])),
    choose: async (one, item, of) => {
      const held = await db.inStudio(id, (tx) => stock.setAside(tx, holder(one)));
      const need = held.find((found) => found.item.id === items[item]);
      if (!need) return false;
      const lotId = of === null ? '' : lot(of);
      const asked = { heldFor: holder(one), itemId: need.item.id, neededOn: need.neededOn.toString(), lotId };
      return done(shelf.choose(id, who, { ...asked, class: need.class }));
    },
    pass: async (days) => {
      clock.forward({ hours: 24 * days });
      return true;
    },
    facts: () =>
      db.inStudio(id, async (tx) => {
        const of = 'where item_id = any($1::uuid[])';
        const found = await tx.many(lotRow, `select * from lot ${of}`, [items]);
        const held = await tx.many(reservationRow, `select * from reservation ${of}`, [items]);
        const moved = await tx.many(
          movementRow,
          `select movement.* from movement join lot using (studio_id, lot_id) ${of}`,
          [items],
        );
        return {
          today: dayOf(house),
          lots: found.map(toLot),
          held: held.map(toHeld),
          movements: moved.map((row) => ({ ...toMovementLine(row), lotId: row.lot_id })),
        };
      }),
  };
}

async function run(numRuns: number): Promise<Ran> {
  const ran: Ran = { done: new Map() };
  const property = fc.asyncProperty(steps, async (acts) => {
    const real = await openShelf();
    await fc.asyncModelRun(() => ({ model: ran, real }), acts);
  });
  await fc.assert(property, { numRuns, endOnFailure: true });
  return ran;
}

describe('the shelf on the database', () => {
  it(
    'keeps account of all in any forty acts',
    async () => {
      const { done } = await run(scale(500, 20));
      const always = [
        'receive',
        'count',
        'take',
        'discard',
        'suspect',
        'decant',
        'reserve',
        'release',
        'pass',
      ];
      expect(always.filter((act) => !done.has(act))).toEqual([]);
    },
    scale(1_800_000, 90_000),
  );

  it('is caught moving something without a line in the ledger', async () => {
    const { insertMovements } = LotsStore.prototype;
    LotsStore.prototype.insertMovements = (tx, moves, act) =>
      insertMovements.call(
        new LotsStore(),
        tx,
        moves.filter((one) => one.kind !== 'counted'),
        act,
      );
    try {
      expect(await caught()).toContain('has another level than its movements');
    } finally {
      LotsStore.prototype.insertMovements = insertMovements;
    }
  }, 60_000);

  it('is caught writing reservations and not the level of their bottles', async () => {
    const { moveReserved } = StockStore.prototype;
    StockStore.prototype.moveReserved = async (_, lots) => lots.length;
    try {
      expect(await caught()).toContain('has set aside other than its reservations');
    } finally {
      StockStore.prototype.moveReserved = moveReserved;
    }
  }, 60_000);
});

const caught = () =>
  run(20).then(
    () => 'nothing',
    (error: Error) => (error.cause as Error).message,
  );
