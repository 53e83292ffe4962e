// The day of a sitting and its endings: what becomes of stock, who is owed a return, and what can be taken back.
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import type pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { UsedService } from '../../src/desk/shelf/used.service.js';
import { EndingsService } from '../../src/sittings/endings.service.js';
import { DaysService } from '../../src/stock/days.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { rowsOf } from '../support/rows.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';

const START = '2027-04-02T09:30';

let house: TestHouse;
let studio: TestStudio;
let endings: EndingsService;
let sitting: string;
let count = 0;
beforeAll(async () => {
  house = await openTestHouse();
  endings = house.app.get(EndingsService);
});
beforeEach(async () => {
  house.clock.set('2026-11-25T10:00:00Z');
  studio = await foundTestStudio(house, { slug: `endings-${++count}` });
  sitting = (await askForSitting(house, studio)).sittingId;
  await approve(house, studio, sitting, START);
  house.clock.set('2027-04-02T08:20:00Z'); // 09:20 in London
});
afterAll(() => house.close());

const rows = <T extends pg.QueryResultRow>(sql: string, values: unknown[] = []) =>
  rowsOf<T>(house, studio.id, sql, values);
const state = async () =>
  (await rows<{ state: string }>('select state from sitting where sitting_id = $1', [sitting]))[0]?.state;
const kept = async () =>
  (await rows<{ n: number }>('select count(*)::int as n from reservation where held_for = $1', [sitting]))[0]
    ?.n;
/** All that is on hand, bottle by bottle. */
const shelf = async () =>
  (await rows<{ label: string; on_hand: string }>('select label, on_hand::text from lot order by label')).map(
    (one) => `${one.label} ${one.on_hand}`,
  );
const returns = () =>
  rows<{ state: string; owed: boolean; same: boolean; plates: number }>(
    `select r.state, r.return_owed as owed, r.asked_at = s.asked_at as same,
       (select count(*)::int from plate p where p.sitting_id = r.sitting_id) as plates
     from sitting r join sitting s on s.sitting_id = r.return_of where r.return_of = $1`,
    [sitting],
  );
const end = (input: unknown) => endings.end(studio.id, studio.owner, sitting, input);
const undo = () => endings.undo(studio.id, studio.owner, sitting);

describe('the endings of a sitting', () => {
  it('use up what was set aside once it is made, exactly that, and once', async () => {
    const before = await shelf();
    const set = await rows<{ label: string; left: string }>(
      `select l.label, (l.on_hand - coalesce(sum(r.quantity) filter (where r.held_for = $1), 0))::text as left
       from lot l left join reservation r on r.lot_id = l.lot_id group by l.lot_id, l.label, l.on_hand
       order by l.label`,
      [sitting],
    );
    expect(await kept()).toBeGreaterThan(0);
    await end({ how: 'made' });
    expect(await state()).toBe('made');
    expect(await kept()).toBe(0);
    const after = await shelf();
    expect(after).toEqual(set.map((one) => `${one.label} ${one.left}`));
    expect(after).not.toEqual(before);
    expect(await returns()).toEqual([]);
    await expect(end({ how: 'made' })).rejects.toMatchObject({ code: 'wrong_state' });
    expect(await shelf()).toEqual(after);
  });

  it('owe a return, first on the list and asked when it was asked, to whoever came for no plate', async () => {
    await end({ how: 'no plate', reason: 'chemistry' });
    expect(await state()).toBe('came_no_plate');
    expect(await kept()).toBe(0);
    expect(await returns()).toEqual([{ state: 'waiting', owed: true, same: true, plates: 1 }]);
  });

  it('owe one to the stranded and not to others who did not come, and take nothing from the shelf', async () => {
    const before = await shelf();
    await end({ how: 'missed', reason: 'not heard of' });
    expect(await state()).toBe('did_not_come');
    expect(await returns()).toEqual([]);
    await undo();
    await end({ how: 'missed', reason: 'stranded' });
    expect(await returns()).toMatchObject([{ state: 'waiting', owed: true }]);
    expect(await shelf()).toEqual(before);
    expect(await kept()).toBe(0);
  });

  it('can be taken back the same day, with all that came of them, and not the day after', async () => {
    const before = { shelf: await shelf(), kept: await kept() };
    await end({ how: 'no plate', reason: 'fog', note: 'The bath.' });
    await undo();
    expect({ shelf: await shelf(), kept: await kept() }).toEqual(before);
    expect(await state()).toBe('confirmed');
    expect(await returns()).toMatchObject([{ state: 'withdrawn' }]);
    await expect(undo()).rejects.toMatchObject({ code: 'wrong_state' });
    await end({ how: 'made' });
    house.clock.set('2027-04-02T23:30:00Z'); // the 3rd, 00:30 in London
    await expect(undo()).rejects.toMatchObject({ code: 'wrong_state' });
    expect(await state()).toBe('made');
  });

  it.each(['used', 'not used'] as const)(
    'that are told late and taken back leave the shelf as it was settled, where all was %s',
    async (became) => {
      house.clock.set('2027-04-04T10:00:00Z');
      const friday = Temporal.PlainDate.from('2027-04-02');
      const full = await shelf();
      await house.app.get(UsedService).settle(studio.id, studio.owner, friday, became);
      const settled = await shelf();
      expect(settled.join() === full.join()).toBe(became === 'not used');
      await end({ how: 'made' });
      await undo();
      expect(await shelf()).toEqual(settled);
      expect(await kept()).toBe(0);
    },
  );

  it('told late and taken back after the rest of the day was settled set only their own aside again', async () => {
    await house.app.get(DaysService).saveTakes(studio.id, studio.owner, {
      testPlates: '2',
      testSizeId: studio.sizes.half.id,
      [`item-${studio.items.varnish.id}`]: '20 mL',
    });
    const held = () => rows('select distinct held_for from reservation');
    expect(await held()).toHaveLength(2);
    house.clock.set('2027-04-04T10:00:00Z');
    const before = await kept();
    await end({ how: 'made' });
    const friday = Temporal.PlainDate.from('2027-04-02');
    await house.app.get(UsedService).settle(studio.id, studio.owner, friday, 'used');
    await undo();
    expect(await kept()).toBe(before);
    expect(await held()).toEqual([{ held_for: sitting }]);
  });

  it('cannot be told before the day, nor without a reason where one is asked for', async () => {
    await expect(end({ how: 'missed' })).rejects.toMatchObject({ fields: [{ field: 'reason' }] });
    house.clock.set('2027-04-01T12:00:00Z');
    await expect(end({ how: 'made' })).rejects.toMatchObject({ code: 'wrong_state' });
    await expect(endings.arrived(studio.id, studio.owner, sitting, true)).rejects.toMatchObject({
      code: 'wrong_state',
    });
  });

  it('tick an arrival and take the tick back', async () => {
    const here = () =>
      house.db.inStudio(studio.id, async (tx) =>
        (await endings.of(tx, [sitting])).get(sitting)?.arrivedAt?.toString(),
      );
    await endings.arrived(studio.id, studio.assistant, sitting, true);
    expect(await here()).toBe('2027-04-02T08:20:00Z');
    await endings.arrived(studio.id, studio.assistant, sitting, false);
    expect(await here()).toBeUndefined();
  });

  it('are put off by a delay to another place, also after the hour has come', async () => {
    house.clock.set('2027-04-02T09:00:00Z');
    await endings.delay(studio.id, studio.owner, sitting, Temporal.PlainDateTime.from('2027-04-09T11:15'));
    expect(await state()).toBe('confirmed');
    expect(
      await rows('select wall_start::text as at from occupancy where held_for = $1 and holds', [sitting]),
    ).toEqual([{ at: '2027-04-09 11:15:00' }]);
  });
});
