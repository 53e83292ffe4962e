// Two people, or one person twice, at the same moment over one offered place: one place, one clear answer each. Each
// guard is also taken away once, to see the harm it prevents.
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { type Asked, type Offering, offering, START } from '../support/offering.js';
import { approve } from '../support/studio.js';

let house: TestHouse;
let at: Offering;

beforeAll(async () => {
  house = await openTestHouse();
});
beforeEach(async () => {
  at = await offering(house);
});
afterAll(() => house.close());

describe('two people at once', () => {
  /** Holds a sitting's row until `free` is called, so that acts on it queue up in order. */
  async function hold({ sittingId }: Asked): Promise<{ free: () => Promise<void> }> {
    const client = new pg.Client({ connectionString: house.database.url });
    await client.connect();
    await client.query('begin');
    await client.query(`select set_config('app.studio_id', $1, true)`, [at.studio.id]);
    await client.query('select from sitting where sitting_id = $1 for update', [sittingId]);
    return {
      free: async () => {
        await client.query('commit');
        await client.end();
      },
    };
  }
  async function untilWaiting(count: number): Promise<void> {
    const sql = `select from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'`;
    while ((await at.rows(sql)).length < count) await new Promise((done) => setTimeout(done, 5));
  }
  const codeOf = (result: PromiseSettledResult<unknown>) =>
    result.status === 'fulfilled' ? 'yes' : (result.reason as { code: string }).code;

  it('who want the last place at once: who answered in time has it, the other is told it was taken', async () => {
    const [one, two] = [await at.waiter(), await at.waiter()];
    await at.offer(one);
    const held = await hold(one);
    house.clock.set('2026-12-07T17:59:59Z');
    const answered = at.accept(one); // in time, but others stand before it
    await untilWaiting(1);
    house.clock.set('2026-12-07T18:00:01Z');
    const taken = approve(house, at.studio, two.sittingId, START);
    await untilWaiting(2);
    const both = Promise.allSettled([answered, taken]);
    await held.free();
    expect((await both).map(codeOf)).toEqual(['yes', 'place_taken']);
    expect([await at.stands(one), await at.stands(two)]).toEqual([
      'confirmed, firm at 2027-04-02 09:30:00, 5 set aside',
      'waiting, 0 set aside',
    ]);
  });

  it('who want the last place at once: who answers too late is told that the offer ran out', async () => {
    const [one, two] = [await at.waiter(), await at.waiter()];
    await at.offer(one);
    const held = await hold(one);
    house.clock.set('2026-12-07T18:00:00Z');
    const taken = approve(house, at.studio, two.sittingId, START);
    await untilWaiting(1);
    const answered = at.accept(one);
    await untilWaiting(2);
    const both = Promise.allSettled([answered, taken]);
    await held.free();
    expect((await both).map(codeOf)).toEqual(['offer_ran_out', 'yes']);
    expect([await at.stands(one), await at.stands(two)]).toEqual([
      'waiting, 0 set aside',
      'confirmed, firm at 2027-04-02 09:30:00, 5 set aside',
    ]);
  });

  it('who are offered the last place at once: one has it, the other keeps waiting', async () => {
    const [one, two] = [await at.waiter(), await at.waiter()];
    const both = await Promise.allSettled([at.offer(one), at.offer(two)]);
    expect(both.map(codeOf).sort()).toEqual(['place_taken', 'yes']);
    const answers = await Promise.allSettled([at.accept(one), at.accept(two)]);
    expect(answers.map(codeOf).sort()).toEqual(['wrong_state', 'yes']);
    expect([await at.stands(one), await at.stands(two)].sort()).toEqual([
      'confirmed, firm at 2027-04-02 09:30:00, 5 set aside',
      'waiting, 0 set aside',
    ]);
  });

  it('who answer one offer from two devices at once make one turn and one letter', async () => {
    const one = await at.waiter();
    await at.offer(one);
    await at.letters();
    await Promise.all([at.accept(one), at.accept(one)]);
    expect(await at.letters()).toEqual([
      'Linnea Harrow: Your place at Sandpiper Loft: Friday 2 April 2027, 09:30',
    ]);
  });

  it('of whom one takes and one refuses the same offer: the first counts, the second is told', async () => {
    const one = await at.waiter();
    await at.offer(one);
    const both = await Promise.allSettled([at.accept(one), at.refuse(one)]);
    expect(both.map(codeOf).sort()).toEqual(['wrong_state', 'yes']);
  });

  it('are kept apart by the database itself: no second open offer, none taken after its time', async () => {
    const one = await at.waiter();
    await at.offer(one);
    const again = `insert into offer (studio_id, offer_id, for_id, made_at, expires_at, who)
      select studio_id, gen_random_uuid(), for_id, made_at, expires_at, who from offer where answer is null`;
    await expect(at.rows(again)).rejects.toThrow('offer_one_live');
    await expect(
      at.rows(`update offer set answer = 'accepted', answered_at = expires_at where answer is null`),
    ).rejects.toThrow('offer_accepted_in_time');
    await expect(
      at.rows(
        `update offer set answer = 'lapsed', answered_at = expires_at - interval '1 second' where answer is null`,
      ),
    ).rejects.toThrow('offer_lapsed_in_time');
  });

  it('would both be told yes if an offer did not hold the room', async () => {
    // the last test of this file: the house is not whole after it
    await at.rows('alter table occupancy drop constraint occupancy_no_overlap');
    const [one, two] = [await at.waiter(), await at.waiter()];
    const held = [await hold(one), await hold(two)];
    const offered = Promise.allSettled([at.offer(one), at.offer(two)]);
    await untilWaiting(2);
    for (const each of held) await each.free();
    await offered;
    const stand = [await at.stands(one), await at.stands(two)];
    const answers = await Promise.allSettled([at.accept(one), at.accept(two)]);
    // Both saw the room free before either had it; only the constraint tells them apart.
    expect([stand.filter((each) => each.startsWith('offered')).length, answers.map(codeOf)]).toEqual([
      2,
      ['yes', 'yes'],
    ]);
  });
});
