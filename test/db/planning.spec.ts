// The look ahead reads what there is in four statements, however much that is, and agrees with what is set aside.
import { Temporal } from 'temporal-polyfill';
import type { Tx } from '../../src/platform/db/tx.js';
import { dayNumber } from '../../src/stock/plan.calc.js';
import { outlooks } from '../../src/stock/outlook.calc.js';
import { PlanningService } from '../../src/stock/planning.service.js';
import { projectionOf } from '../../src/stock/projection.calc.js';
import { StockService } from '../../src/stock/stock.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';

const TODAY = Temporal.PlainDate.from('2026-11-25');
const on = (day: number) => TODAY.add({ days: day });
const place = (number: number) => `00000000-0000-4000-8000-${String(number).padStart(12, '0')}`;

let house: TestHouse;
let studio: TestStudio;

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, { shelf: { collodion: 300_000n, developer: 0n } });
});
afterAll(() => house.close());

const inStudio = <T>(act: (tx: Tx) => Promise<T>) => house.db.inStudio(studio.id, act);

/** A transaction that counts what is asked of it. */
function counting(tx: Tx): { tx: Tx; asked: string[] } {
  const asked: string[] = [];
  const counted = new Proxy(tx, {
    get(target, name, receiver) {
      const found: unknown = Reflect.get(target, name, receiver);
      if (typeof found !== 'function' || !['many', 'maybe', 'one', 'run'].includes(String(name)))
        return found;
      return (...given: unknown[]) => {
        // maybe and one call many themselves, on the transaction within
        asked.push(String(given.find((one) => typeof one === 'string')));
        return (found as (...given: unknown[]) => unknown).apply(target, given);
      };
    },
  });
  return { tx: counted, asked };
}

const horizon = (tx: Tx) => house.app.get(PlanningService).horizon(tx, TODAY);

async function mixDeveloper(tx: Tx): Promise<string> {
  const copperas = await house.app.get(StockService).enterItem(tx, {
    name: 'Copperas',
    kind: 'chemical',
    unit: 'mg',
    plateSizeId: null,
    leadDays: 9,
    ripenDays: null,
    lifeDays: null,
  });
  const formula = [tx.studioId, place(901)];
  await tx.run(
    `insert into formula (studio_id, formula_id, item_kind, name, current_version)
     values ($1, $2, 'developer', 'Iron developer', 2)`,
    formula,
  );
  for (const [version, quantity] of [
    [1, 99n],
    [2, 20_000n],
  ] as const) {
    await tx.run(
      `insert into formula_version (studio_id, formula_id, version, created_at, who, batch_quantity, ripen_days)
       values ($1, $2, $3, '2026-11-01', 'Isaura', 500000, 1)`,
      [...formula, version],
    );
    await tx.run(
      `insert into formula_line (studio_id, formula_id, version, position, ingredient, item_id, quantity, unit)
       values ($1, $2, $3, 1, 'Copperas', $4, $5, 'mg'), ($1, $2, $3, 2, 'Water', null, 480000, 'uL')`,
      [...formula, version, copperas.id, quantity],
    );
  }
  await tx.run('update item set formula_id = $2 where studio_id = $1 and item_id = $3', [
    ...formula,
    studio.items.developer.id,
  ]);
  return copperas.id;
}

it('tells how each place stands, down to the raw chemical, by formulas as they are mixed now', async () => {
  await inStudio(async (tx) => {
    const copperasId = await mixDeveloper(tx);
    const stock = house.app.get(StockService);
    const developer = { itemId: studio.items.developer.id, quantity: 100_000n };
    await stock.reserve(tx, place(1), [developer], on(20), TODAY);
    await stock.reserve(tx, place(2), [{ ...developer, quantity: 600_000n }], on(60), TODAY);
    const found = await horizon(tx);
    const told = outlooks(found);
    expect(told.get(place(1))).toMatchObject({ state: 'order by', by: on(10) });
    expect(told.get(place(1))?.reasons.map((one) => [one.item, one.into])).toEqual([
      ['Copperas', 'Iron developer'],
      ['Iron developer', null],
    ]);
    expect(told.get(place(2))?.state).toBe('nothing to do yet');
    // 100 mL are one batch, of 20 g; 600 mL, of which 400 are left over, are one more
    const needed = [...(found.items.get(copperasId)?.needs.values() ?? [])].map((one) => [
      one.day,
      one.quantity,
    ]);
    expect(needed).toEqual([
      [on(19), 20_000n],
      [on(59), 20_000n],
    ]);
    await tx.run(
      `insert into receipt (studio_id, receipt_id, item_id, quantity, ordered_on, expected_on)
       values ($1, $2, $3, 50000, '2026-11-24', '2026-11-30')`,
      [tx.studioId, place(902), copperasId],
    );
    expect(outlooks(await horizon(tx)).get(place(1))).toMatchObject({
      state: 'nothing to do yet',
      by: on(19),
    });
  });
});

it('agrees with what is set aside, bottle by bottle, and leaves out what waits for days past', async () => {
  await inStudio(async (tx) => {
    const stock = house.app.get(StockService);
    const collodion = { itemId: studio.items.collodion.id, quantity: 70_000n };
    for (const day of [3, 9, 30]) await stock.reserve(tx, place(10 + day), [collodion], on(day), TODAY);
    await tx.run('update reservation set needed_on = $2 where studio_id = $1 and held_for = $3', [
      tx.studioId,
      on(-2),
      place(13),
    ]);
    const { items } = await horizon(tx);
    const ahead = items.get(collodion.itemId);
    if (!ahead) throw new Error('The collodion is gone.');
    const { days } = projectionOf(ahead, TODAY, on(60));
    expect(days.map((one) => [one.day, one.onHand, one.setAside, one.used])).toEqual([
      [TODAY, 230_000n, 140_000n, 0n],
      [on(9), 160_000n, 70_000n, 70_000n],
      [on(30), 90_000n, 0n, 70_000n],
    ]);
    const held = (await stock.setAside(tx, place(19))).map((one) => [one.lotId, one.quantity]);
    expect(ahead.netted.given.filter((one) => one.needKey.startsWith(place(19)))).toMatchObject([
      { lotId: held[0]?.[0], quantity: held[0]?.[1] },
    ]);
  });
});

it('asks four statements, however much there is', async () => {
  await inStudio(async (tx) => {
    const few = counting(tx);
    await horizon(few.tx);
    expect(few.asked).toHaveLength(4);
    const extra = Array.from({ length: 300 }, (_, at) => place(2000 + at));
    await tx.run(
      `insert into item (studio_id, item_id, name, kind, unit, lead_days)
       select $1, id, 'Item ' || id, 'supply', 'piece', 5 from unnest($2::uuid[]) as id`,
      [tx.studioId, extra],
    );
    await tx.run(
      `insert into reservation (studio_id, reservation_id, held_for, item_id, quantity, needed_on)
       select $1, md5(id::text || day)::uuid, $4, id, 1, $3::date + day
       from unnest($2::uuid[]) as id, generate_series(1, 10) as day`,
      [tx.studioId, extra, TODAY, place(99)],
    );
    const many = counting(tx);
    const found = await horizon(many.tx);
    expect(many.asked).toHaveLength(4);
    expect([...found.items.values()].reduce((sum, { needs }) => sum + needs.size, 0)).toBeGreaterThan(3000);
    const order = [...found.items.values()].map(({ item }) => item.name);
    expect(order).toEqual((await house.app.get(StockService).items(tx)).map((item) => item.name));
    const days = (found.items.get(extra[0] ?? '')?.netted.planned ?? []).map((one) =>
      dayNumber(one.releaseOn),
    );
    expect(days.length).toBeGreaterThan(0);
  });
});
