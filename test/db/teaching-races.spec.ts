// Many people at the last places of a teaching day at the same moment. Each guard is also taken away once, to see the
// harm it prevents.
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { AppError } from '../../src/platform/problems.js';
import { SessionsStore } from '../../src/teaching/sessions.store.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { foundTestStudio, type TestStudio } from '../support/studio.js';
import { signUp, teachingDay } from '../support/teaching.js';

const CLIENTS = 50;

let house: TestHouse;
let studio: TestStudio;
let owner: pg.Client;
let sessionId: string;

beforeEach(async () => {
  house = await openTestHouse({ pool: CLIENTS });
  studio = await foundTestStudio(house, { shelf: { halfGlass: 400n } });
  owner = new pg.Client({ connectionString: house.database.url });
  await owner.connect();
  await owner.query(`select set_config('app.studio_id', $1, false)`, [studio.id]);
  ({ sessionId } = await teachingDay(house, studio, { most: 2 }));
}, 60_000);
afterEach(async () => {
  await owner.end();
  await house.close();
});

async function rush(change: Record<string, unknown> = {}): Promise<Record<string, number>> {
  const ends = await Promise.allSettled(
    Array.from({ length: CLIENTS }, (_, at) =>
      signUp(house, studio, sessionId, { email: `one-${at}@post.example`, ...change }),
    ),
  );
  const told = ends.map((end) => {
    if (end.status === 'fulfilled') return 'entered';
    return end.reason instanceof AppError ? end.reason.code : String(end.reason);
  });
  return Object.fromEntries(
    [...new Set(told)].sort().map((one) => [one, told.filter((x) => x === one).length]),
  );
}

/** Students with a place, what the day counts, and for how many of them something is set aside. */
async function standing() {
  const { rows } = await owner.query(
    `select taken, (select count(*)::int from sign_up where state = 'signed') as signed,
       (select count(*)::int from sign_up where state = 'waiting') as waiting,
       (select count(distinct held_for)::int from reservation r join student s on s.student_id = r.held_for) as held
     from teaching_session`,
  );
  return rows[0];
}

/** How far each bottle's and box's running total is from its reservations. */
const wrongLots = async () =>
  (
    await owner.query(
      `select l.label from lot l where l.reserved <> coalesce((select sum(quantity) from reservation r
         where r.studio_id = l.studio_id and r.lot_id = l.lot_id), 0)`,
    )
  ).rows;

describe('fifty people at the last two places of a day', () => {
  it('are two with a place, all others are told of the waiting list, and the shelf holds for two', async () => {
    expect(await rush()).toEqual({ entered: 2, place_taken: CLIENTS - 2 });
    expect(await standing()).toEqual({ taken: 2, signed: 2, waiting: 0, held: 2 });
    expect(await wrongLots()).toEqual([]);
  }, 60_000);

  it('who would wait are two with a place and the rest on the list, none lost', async () => {
    expect(await rush({ orWait: true })).toEqual({ entered: CLIENTS });
    expect(await standing()).toEqual({ taken: 2, signed: 2, waiting: CLIENTS - 2, held: 2 });
    expect(await wrongLots()).toEqual([]);
  }, 60_000);
});

describe('the guards of the last places', () => {
  const { byId, seat, lockAll } = SessionsStore.prototype;
  afterEach(() => {
    Object.assign(SessionsStore.prototype, { byId, seat, lockAll });
  });
  /** Nobody locks the day, as a careless change of the store would have it. */
  const withoutLock = () => {
    SessionsStore.prototype.lockAll = async () => {};
    SessionsStore.prototype.byId = function (tx, id) {
      return byId.call(this, tx, id, false);
    };
  };

  it('without the lock of the day the guarded count still gives no more than two', async () => {
    withoutLock();
    const ends = await rush();
    expect(ends.entered).toBe(2);
    expect(await standing()).toMatchObject({ taken: 2, signed: 2 });
  }, 60_000);

  it('without lock and guarded count the table itself refuses a third', async () => {
    withoutLock();
    SessionsStore.prototype.seat = unguarded;
    const ends = await rush();
    expect(ends.entered).toBe(2);
    expect(await standing()).toMatchObject({ taken: 2, signed: 2 });
  }, 60_000);

  it('without all three the day is overfull, which this test sees', async () => {
    withoutLock();
    SessionsStore.prototype.seat = unguarded;
    await owner.query('alter table teaching_session drop constraint teaching_session_never_overfull');
    await rush();
    expect((await standing()).signed).toBeGreaterThan(2);
  }, 60_000);
});

const unguarded: SessionsStore['seat'] = async (tx, id, students) =>
  (await tx.run('update teaching_session set taken = taken + $3 where studio_id = $1 and session_id = $2', [
    tx.studioId,
    id,
    students,
  ])) === 1;
