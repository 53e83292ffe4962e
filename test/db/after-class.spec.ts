// What is written down after a teaching day: stock, figures and sign-ups follow, once, and can be corrected or taken back.
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { ActualsService } from '../../src/chemistry/actuals.service.js';
import { StockService } from '../../src/stock/stock.service.js';
import type { Attendance, ToldAfter } from '../../src/teaching/after.schemas.js';
import { AfterService } from '../../src/teaching/after.service.js';
import { SessionsService } from '../../src/teaching/sessions.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { offering } from '../support/offering.js';
import { signUp, teachingDay } from '../support/teaching.js';

let house: TestHouse;
let at: Awaited<ReturnType<typeof offering>>;
const DAY = Temporal.PlainDate.from('2027-04-07');
const AFTER = '2027-04-07T17:00:00Z';

beforeAll(async () => {
  house = await openTestHouse();
});
afterAll(() => house.close());
beforeEach(async () => {
  at = await offering(house);
});

/** Ada, Bo and Cy (who came with Bo) on one day, by name. */
async function classOfThree(change: Record<string, unknown> = {}) {
  const { sessionId } = await teachingDay(house, at.studio, change);
  const ada = await signUp(house, at.studio, sessionId, { students: [{ name: 'Ada' }] });
  const two = await signUp(house, at.studio, sessionId, { students: [{ name: 'Bo' }, { name: 'Cy' }] });
  const found = await at.rows<{ name: string; student_id: string }>(
    `select name, student_id from student join sign_up using (studio_id, sign_up_id) where session_id = $1`,
    [sessionId],
  );
  const ids = Object.fromEntries(found.map((one) => [one.name, one.student_id])) as Record<string, string>;
  return { sessionId, ids, signUps: [ada.signUpId, two.signUpId] };
}

const tell = (
  ids: Record<string, string>,
  how: Record<string, Attendance> = {},
  rest: Partial<Omit<ToldAfter, 'attendance'>> = {},
): ToldAfter => ({
  attendance: new Map(Object.entries(ids).map(([name, id]) => [id, how[name] ?? 'present'])),
  plates: [],
  used: {},
  note: '',
  ...rest,
});
const write = (sessionId: string, told: ToldAfter) =>
  house.app.get(AfterService).write(at.studio.id, at.studio.owner, sessionId, told);
const undo = (sessionId: string) =>
  house.app.get(AfterService).undo(at.studio.id, at.studio.owner, sessionId);

/** What is in the bottles, by kind of item. */
async function onHand(): Promise<Record<string, bigint>> {
  const rows = await at.rows<{ kind: string; quantity: string }>(
    `select i.kind || coalesce(p.name, '') as kind, sum(l.on_hand)::text as quantity from lot l
     join item i using (studio_id, item_id) left join plate_size p using (studio_id, plate_size_id) group by 1`,
  );
  return Object.fromEntries(rows.map((one) => [one.kind, BigInt(one.quantity)]));
}
/** What is set aside for whom of which bottle, students by name. */
const setAside = () =>
  at.rows(
    `select coalesce(s.name, r.held_for::text) as who, r.item_id, r.lot_id, r.quantity::text as quantity
     from reservation r left join student s on s.student_id = r.held_for order by 1, 2, 3`,
  );
/** Every bottle holds what its movements say, and has set aside what its reservations say. */
async function conserved(): Promise<void> {
  const wrong = await at.rows(
    `select l.label from lot l where l.on_hand <>
       (select coalesce(sum(m.quantity), 0) from movement m
        where m.lot_id = l.lot_id and m.kind not in ('reserved', 'released'))
     or l.reserved <> (select coalesce(sum(r.quantity), 0) from reservation r where r.lot_id = l.lot_id)
     or l.reserved > l.on_hand`,
  );
  expect(wrong).toEqual([]);
}
const states = async (signUps: string[]) =>
  (
    await at.rows<{ state: string }>(
      'select state from sign_up where sign_up_id = any($1) order by array_position($1, sign_up_id)',
      [signUps],
    )
  ).map(({ state }) => state);
const stateOf = async (sessionId: string) =>
  (
    await at.rows<{ state: string }>('select state from teaching_session where session_id = $1', [sessionId])
  )[0]?.state;
const learnt = async () => {
  const days = await house.db.inStudio(at.studio.id, (tx) => house.app.get(ActualsService).days(tx));
  return days.filter(({ madeBy }) => madeBy === 'beginners');
};

describe('a class that was held', () => {
  it('takes what was measured out of the bottles, frees the rest, and tells the figures of learners', async () => {
    const { sessionId, ids, signUps } = await classOfThree();
    const before = await onHand();
    house.clock.set(AFTER);
    const half = at.studio.sizes.half.id;
    await write(
      sessionId,
      tell(
        ids,
        { Bo: 'late', Ada: 'did_not_come' },
        {
          plates: [
            { maker: ids.Bo ?? '', plateSizeId: half, tries: 5, keepers: 3 },
            { maker: ids.Cy ?? '', plateSizeId: half, tries: 4, keepers: 1 },
          ],
          used: { collodion: 90_000n, silver: 4000n },
        },
      ),
    );
    const after = await onHand();
    expect((before.collodion ?? 0n) - (after.collodion ?? 0n)).toBe(90_000n);
    expect((before['glassHalf plate'] ?? 0n) - (after['glassHalf plate'] ?? 0n)).toBe(9n);
    expect(after.developer).toBeLessThan(before.developer ?? 0n);
    expect((await setAside()).filter(({ who }) => ['Ada', 'Bo', 'Cy', sessionId].includes(who))).toEqual([]);
    await conserved();
    expect(await states(signUps)).toEqual(['did_not_come', 'attended']);
    expect(await stateOf(sessionId)).toBe('run');
    expect(await learnt()).toMatchObject([
      { plates: [{ plateSizeId: half, tries: 9, keepers: 4 }], used: { collodion: 90_000n, silver: 4000n } },
    ]);
  });

  it('takes what was set aside for those who came where nothing was measured', async () => {
    const { sessionId, ids } = await classOfThree();
    const [held] = await at.rows<{ quantity: string }>(
      `select sum(r.quantity)::text as quantity from reservation r join item i using (studio_id, item_id)
       where i.kind = 'developer' and r.held_for = any($1)`,
      [[sessionId, ids.Bo, ids.Cy]],
    );
    const before = await onHand();
    house.clock.set(AFTER);
    await write(sessionId, tell(ids, { Ada: 'did_not_come' }));
    const after = await onHand();
    expect((before.developer ?? 0n) - (after.developer ?? 0n)).toBe(BigInt(held?.quantity ?? 0));
    await conserved();
    expect(await learnt()).toEqual([]);
  });

  it('stands as if written once when it is written twice, and as the last page says when that differs', async () => {
    const { sessionId, ids, signUps } = await classOfThree();
    house.clock.set(AFTER);
    const half = at.studio.sizes.half.id;
    const told = tell(
      ids,
      {},
      {
        plates: [{ maker: sessionId, plateSizeId: half, tries: 10, keepers: 6 }],
        used: { collodion: 60_000n, developer: 200_000n },
      },
    );
    await write(sessionId, told);
    const once = await onHand();
    await write(sessionId, told);
    expect(await onHand()).toEqual(once);
    expect(await learnt()).toHaveLength(1);
    const corrected = tell(ids, { Ada: 'did_not_come' }, { used: { collodion: 65_000n }, note: 'Fogged.' });
    await write(sessionId, corrected);
    const last = await onHand();
    expect((once.collodion ?? 0n) - (last.collodion ?? 0n)).toBe(5000n);
    expect(await states(signUps)).toEqual(['did_not_come', 'attended']);
    expect(await learnt()).toMatchObject([{ plates: [], used: { collodion: 65_000n } }]);
    await write(sessionId, told);
    expect(await onHand()).toEqual(once);
    expect(await states(signUps)).toEqual(['attended', 'attended']);
    await conserved();
  });

  it('is on the shelf as it was before when it is taken back the same day, and not on a later one', async () => {
    const { sessionId, ids, signUps } = await classOfThree({ most: 3 });
    const [bottles, held] = [await onHand(), await setAside()];
    house.clock.set(AFTER);
    const told = tell(ids, { Ada: 'did_not_come' }, { used: { collodion: 80_000n } });
    await write(sessionId, told);
    expect(await onHand()).not.toEqual(bottles);
    await undo(sessionId);
    expect([await onHand(), await setAside()]).toEqual([bottles, held]);
    expect([await states(signUps), await stateOf(sessionId)]).toEqual([['signed', 'signed'], 'full']);
    expect(await learnt()).toEqual([]);
    await conserved();
    await expect(undo(sessionId)).rejects.toMatchObject({ code: 'wrong_state' });
    await write(sessionId, told);
    house.clock.set('2027-04-08T09:00:00Z');
    await expect(undo(sessionId)).rejects.toMatchObject({ code: 'wrong_state' });
  });

  it('can be written and taken back days later too', async () => {
    const { sessionId, ids } = await classOfThree();
    const bottles = await onHand();
    house.clock.set('2027-04-10T09:00:00Z');
    await write(sessionId, tell(ids, {}, { used: { collodion: 80_000n } }));
    await undo(sessionId);
    expect(await onHand()).toEqual(bottles);
    await conserved();
  });

  it('moves no stock that was settled for the day before', async () => {
    const { sessionId, ids } = await classOfThree();
    house.clock.set('2027-04-08T09:00:00Z');
    const today = DAY.add({ days: 1 });
    await house.db.inStudio(at.studio.id, (tx) =>
      house.app.get(StockService).settle(tx, DAY, 'used', { today, who: 'Wren' }),
    );
    const bottles = await onHand();
    await write(sessionId, tell(ids, {}, { used: { collodion: 80_000n } }));
    expect(await onHand()).toEqual(bottles);
    await undo(sessionId);
    expect(await onHand()).toEqual(bottles);
  });
});

describe('what cannot be', () => {
  it('is more than the bottles hold, told at its field with nothing changed', async () => {
    const { sessionId, ids } = await classOfThree();
    const before = [await onHand(), await setAside()];
    house.clock.set(AFTER);
    await expect(write(sessionId, tell(ids, {}, { used: { collodion: 90_000_000n } }))).rejects.toMatchObject(
      { code: 'bad_input', fields: [{ field: 'collodion' }] },
    );
    expect([await onHand(), await setAside()]).toEqual(before);
    expect(await stateOf(sessionId)).toBe('open');
  });

  it('is a day that has not begun, is a draft or was called off, or a student without a word', async () => {
    const { sessionId, ids } = await classOfThree();
    await expect(write(sessionId, tell(ids))).rejects.toMatchObject({ code: 'wrong_state' });
    house.clock.set(AFTER);
    const { Ada: ada = '', ...others } = ids;
    await expect(write(sessionId, tell(others))).rejects.toMatchObject({
      fields: [{ field: `how-${ada}` }],
    });
    const half = at.studio.sizes.half.id;
    const plates = [{ maker: ada, plateSizeId: half, tries: 1, keepers: 1 }];
    await expect(write(sessionId, tell(ids, { Ada: 'did_not_come' }, { plates }))).rejects.toMatchObject({
      fields: [{ field: `how-${ada}` }],
    });
    house.clock.set('2026-11-25T12:00:00Z');
    await house.app.get(SessionsService).callOff(at.studio.id, at.studio.owner, sessionId, '');
    house.clock.set(AFTER);
    await expect(write(sessionId, tell(ids))).rejects.toMatchObject({ code: 'wrong_state' });
  });

  it('is written over what the owner wrote of learners by hand', async () => {
    const { sessionId, ids } = await classOfThree();
    house.clock.set(AFTER);
    const byHand = { day: DAY, madeBy: 'beginners', used: { collodion: 1000n } } as const;
    await house.db.inStudio(at.studio.id, (tx) =>
      house.app.get(ActualsService).record(tx, at.studio.owner, byHand),
    );
    await expect(write(sessionId, tell(ids, {}, { used: { collodion: 5000n } }))).rejects.toMatchObject({
      code: 'wrong_state',
    });
    await write(sessionId, tell(ids));
    await undo(sessionId);
    expect(await learnt()).toMatchObject([{ used: { collodion: 1000n } }]);
  });
});

it('adds the classes of one day up for the figures', async () => {
  const parts = [{ title: 'Plates', minutes: 120, where: 'darkroom' }];
  const morning = await classOfThree({ parts, start: '2027-04-07T09:00' });
  const later = await classOfThree({ parts, start: '2027-04-07T13:00' });
  house.clock.set(AFTER);
  const half = at.studio.sizes.half.id;
  const made = (maker: string, tries: number) => [{ maker, plateSizeId: half, tries, keepers: 2 }];
  await write(
    morning.sessionId,
    tell(
      morning.ids,
      {},
      { plates: made(morning.sessionId, 5), used: { collodion: 30_000n, developer: 9000n } },
    ),
  );
  await write(
    later.sessionId,
    tell(later.ids, {}, { plates: made(later.sessionId, 7), used: { collodion: 40_000n } }),
  );
  // the developer of the afternoon is not known, so that of the morning is not set against the plates of both
  expect(await learnt()).toMatchObject([
    { plates: [{ tries: 12, keepers: 4 }], used: { collodion: 70_000n } },
  ]);
  expect((await learnt())[0]?.used.developer).toBeUndefined();
  await undo(later.sessionId);
  expect(await learnt()).toMatchObject([
    { plates: [{ tries: 5, keepers: 2 }], used: { collodion: 30_000n, developer: 9000n } },
  ]);
  await conserved();
});
