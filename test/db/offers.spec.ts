// Offers of a place from being made to their end: what they hold, whom they are told to, until when they are honoured,
// and two people at once. The clock stands still until a test moves it.
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { ListService } from '../../src/sittings/list.service.js';
import { OffersService } from '../../src/sittings/offers.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { DEFAULT_WAITING_RULES, type Mode } from '../../src/waiting/rules.schemas.js';
import type { Message } from '../../src/platform/mailer.js';
import { WaitingService } from '../../src/waiting/waiting.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, type Asking, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';

/** A Friday over eight weeks ahead: offers are open until Monday 7 December, 18:00. */
const START = '2027-04-02T09:30';
const OTHER = '2027-04-02T11:15';

let house: TestHouse;
let studio: TestStudio;
let offers: OffersService;

/** One house for all; each test has a studio of its own, and the same morning. */
let count = 0;
let desk: string;
beforeAll(async () => {
  house = await openTestHouse();
  offers = house.app.get(OffersService);
});
beforeEach(async () => {
  house.clock.set('2026-11-25T10:00:00Z');
  desk = `desk-${++count}@sandpiper-loft.example`;
  studio = await foundTestStudio(house, { slug: `loft-${count}`, email: desk });
  house.mail.sent.splice(0);
});
afterAll(() => house.close());

type Asked = Awaited<ReturnType<typeof askForSitting>>;

async function waiter(asking: Asking = {}): Promise<Asked> {
  const one = await askForSitting(house, studio, asking);
  await house.app.get(ListService).wait(studio.id, studio.owner, one.sittingId);
  house.clock.forward({ minutes: 1 });
  return one;
}
const offer = (one: Asked, start = START) =>
  offers.make(studio.id, studio.owner, one.sittingId, Temporal.PlainDateTime.from(start));
const accept = (one: Asked) => offers.accept(studio.id, { token: one.token });
const refuse = (one: Asked) => offers.refuse(studio.id, { token: one.token });
const setMode = (mode: Mode) =>
  house.app.get(WaitingService).saveRules(studio.id, studio.owner, { ...DEFAULT_WAITING_RULES, mode });

async function rows<T extends pg.QueryResultRow>(sql: string, values: unknown[] = []): Promise<T[]> {
  const client = new pg.Client({ connectionString: house.database.url });
  await client.connect();
  await client.query(`select set_config('app.studio_id', $1, false)`, [studio.id]);
  try {
    return (await client.query<T>(sql, values)).rows;
  } finally {
    await client.end();
  }
}

/** "offered, tentative at 2027-04-02 09:30:00, 5 set aside". */
async function stands({ sittingId }: Asked): Promise<string> {
  const [one] = await rows<{ state: string; place: string | null; tentative: boolean | null; kept: string }>(
    `select s.state, o.wall_start::text as place, o.tentative,
       (select count(*) from reservation r where r.held_for = s.sitting_id)::text as kept
     from sitting s left join occupancy o on o.held_for = s.sitting_id and o.holds where s.sitting_id = $1`,
    [sittingId],
  );
  if (!one?.place) return `${one?.state}, ${one?.kept} set aside`;
  return `${one.state}, ${one.tentative ? 'tentative' : 'firm'} at ${one.place}, ${one.kept} set aside`;
}

/** What this studio sent since the last look, in order; the queue works for all of them. */
async function sent(): Promise<Message[]> {
  await house.work();
  return house.mail.sent.splice(0).filter((message) => message.replyTo === desk);
}
const letters = async () => (await sent()).map((message) => `${message.to.name}: ${message.subject}`);

describe('an offer', () => {
  it('holds room and stock like a place, and is told with the day and until when it is open', async () => {
    const one = await waiter();
    await letters();
    await offer(one);
    expect(await stands(one)).toBe('offered, tentative at 2027-04-02 09:30:00, 5 set aside');
    await expect(approve(house, studio, (await waiter()).sittingId, START)).rejects.toMatchObject({
      code: 'place_taken',
    });
    const letter = (await sent()).find(({ subject }) => subject.startsWith('A place for you'));
    expect(letter?.text).toContain('held for you until Monday 7 December 2026, 18:00 (studio time)');
    expect(letter?.invitation).toBeUndefined();
  });

  it('becomes a firm place when it is accepted, with a calendar entry; once more is no mistake', async () => {
    const one = await waiter();
    await offer(one);
    await letters();
    await accept(one);
    await accept(one);
    expect(await stands(one)).toBe('confirmed, firm at 2027-04-02 09:30:00, 5 set aside');
    expect((await sent()).map(({ subject, invitation }) => [subject, invitation?.method])).toEqual([
      ['Your place at Sandpiper Loft: Friday 2 April 2027, 09:30', 'REQUEST'],
    ]);
  });

  it('frees all when it is refused, and the turn on the list is kept', async () => {
    const one = await waiter();
    await offer(one);
    await refuse(one);
    expect(await stands(one)).toBe('waiting, 0 set aside');
    await expect(accept(one)).rejects.toMatchObject({ code: 'wrong_state' });
    await offer(await waiter());
  });

  it('is one at a time: a second is refused, and a place asked for meanwhile too', async () => {
    const one = await waiter();
    await offer(one);
    await expect(offer(one, OTHER)).rejects.toMatchObject({ code: 'wrong_state' });
    await expect(approve(house, studio, one.sittingId, OTHER)).rejects.toMatchObject({ code: 'wrong_state' });
  });

  it('can be followed by another, and each is told', async () => {
    const one = await waiter();
    const told: string[] = [];
    for (const start of [START, OTHER]) {
      await offer(one, start);
      told.push(...(await letters()));
      await refuse(one);
    }
    expect(told.filter((subject) => subject.includes('A place for you'))).toEqual([
      'Linnea Harrow: A place for you at Sandpiper Loft: Friday 2 April 2027, 09:30',
      'Linnea Harrow: A place for you at Sandpiper Loft: Friday 2 April 2027, 11:15',
    ]);
  });

  it('that is over before its letter goes is told to nobody', async () => {
    const one = await waiter();
    await letters();
    await offer(one);
    await refuse(one);
    const told = await letters();
    expect(told.some((subject) => subject.includes('A place for you'))).toBe(false);
  });

  it('is not made to somebody who needs longer notice than there is', async () => {
    const far = await waiter({ home: 'Reykjavík', name: 'Ari' });
    await expect(offer(far, '2026-12-11T11:15')).rejects.toMatchObject({
      code: 'not_an_opening',
      detail: 'They need longer notice than there is until that place, so they are not asked.',
    });
    expect(await stands(far)).toBe('waiting, 0 set aside');
  });

  it('under two weeks ahead asks the owner to telephone', async () => {
    const one = await waiter({ telephone: '01632 960777' });
    await letters();
    await offer(one, '2026-12-04T11:15');
    expect(await letters()).toContain(
      'Sandpiper Loft: Please telephone Linnea Harrow about Friday 4 December 2026, 11:15',
    );
  });

  it('goes to the studio to be passed on where somebody has no e-mail', async () => {
    const one = await waiter({
      name: 'Old Bartram',
      reachBy: 'telephone',
      email: '',
      telephone: '01632 960778',
    });
    await letters();
    await offer(one);
    const [letter] = await sent();
    expect(letter?.to.address).toBe(desk);
    expect(letter?.text).toContain('Please telephone 01632 960778 and tell them this:');
    expect(letter?.text).not.toContain('/place/');
  });

  it('answered on the telephone is noted by the owner', async () => {
    const one = await waiter();
    await offer(one);
    await offers.accept(studio.id, { who: studio.owner, sittingId: one.sittingId });
    const [line] = await rows(
      `select who, event from history where about_id = $1 order by history_id desc limit 1`,
      [one.sittingId],
    );
    expect(line).toEqual({ who: 'Isaura Fenwick', event: 'accept' });
  });
});

describe('an offer that runs out', () => {
  const EXPIRY = '2026-12-07T18:00:00Z';

  it('is honoured to the last moment', async () => {
    const one = await waiter();
    await offer(one);
    house.clock.set('2026-12-07T17:59:59.999Z');
    await accept(one);
    expect(await stands(one)).toContain('confirmed, firm');
  });

  it('is not honoured at that moment, whether the job has run or not, and the answer says so', async () => {
    const one = await waiter();
    await offer(one);
    house.clock.set(EXPIRY);
    await expect(accept(one)).rejects.toMatchObject({ code: 'offer_ran_out' });
    expect(await stands(one)).toBe('waiting, 0 set aside');
    await expect(accept(one)).rejects.toMatchObject({ code: 'offer_ran_out' });
    expect(await letters()).toContain('Linnea Harrow: Our offer has run out: Friday 2 April 2027, 09:30');
  });

  it('lapses by its job', async () => {
    const one = await waiter();
    await offer(one);
    await house.work();
    expect(await stands(one)).toContain('offered, tentative');
    house.clock.set(EXPIRY);
    await house.work();
    expect(await stands(one)).toBe('waiting, 0 set aside');
  });

  it('lapses before anybody else takes a place, though no job ever ran', async () => {
    const [one, two] = [await waiter(), await waiter()];
    await offer(one);
    house.clock.set(EXPIRY);
    await approve(house, studio, two.sittingId, START);
    expect([await stands(one), await stands(two)]).toEqual([
      'waiting, 0 set aside',
      'confirmed, firm at 2027-04-02 09:30:00, 5 set aside',
    ]);
  });

  it('a second time takes them off the list, and one act puts them back with the first date of asking', async () => {
    const one = await waiter();
    await offer(one);
    house.clock.set(EXPIRY);
    await offer(one);
    house.clock.set('2026-12-21T18:00:00Z');
    await house.work();
    expect(await stands(one)).toBe('lapsed, 0 set aside');
    expect(await letters()).toContain('Linnea Harrow: Do you still want to sit at Sandpiper Loft?');
    await expect(offer(one)).rejects.toMatchObject({ code: 'wrong_state' });
    await house.app.get(ListService).reopen(studio.id, { token: one.token });
    expect(await stands(one)).toBe('waiting, 0 set aside');
    const [row] = await rows(`select asked_at, offers_unanswered from sitting where sitting_id = $1`, [
      one.sittingId,
    ]);
    expect(row).toEqual({ asked_at: new Date('2026-11-25T10:00:00Z'), offers_unanswered: 0 });
  });

  it('counts again from none after an answer', async () => {
    const one = await waiter();
    await offer(one);
    house.clock.set(EXPIRY);
    await offer(one);
    await refuse(one);
    await offer(one, OTHER);
    house.clock.set('2026-12-30T18:00:00Z');
    await house.work();
    expect(await stands(one)).toBe('waiting, 0 set aside');
  });
});

describe('a place that came free', () => {
  it('goes to the next on the list at once where the studio passes on by rule', async () => {
    await setMode('automatic');
    const [first, second, third] = [
      await waiter({ name: 'First' }),
      await waiter({ name: 'Second', suits: { kind: 'these', days: ['2027-04-09'] } }),
      await waiter({ name: 'Third' }),
    ];
    await offer(first);
    await refuse(first);
    await house.work();
    expect(await stands(third)).toContain('offered, tentative at 2027-04-02 09:30:00');
    expect(await stands(second)).toBe('waiting, 0 set aside');
    await refuse(third); // nobody is left: the first has said no to it
    await house.work();
    expect(await stands(first)).toBe('waiting, 0 set aside');
  });

  it('is proposed, and nobody is asked, where the owner confirms or asks by hand', async () => {
    for (const mode of ['propose', 'by hand'] as const) {
      await setMode(mode);
      const [first, second] = [await waiter({ name: 'First' }), await waiter({ name: 'Second' })];
      await offer(first);
      await refuse(first);
      await house.work();
      expect(await stands(second)).toBe('waiting, 0 set aside');
      const { freed } = await house.app.get(ListService).page(studio.id);
      expect(freed[0]?.wallStart.toString()).toBe('2027-04-02T09:30:00');
      expect(freed[0]?.candidates.order).toContain(second.sittingId);
      expect(freed[0]?.candidates.notAsked).toContainEqual({ id: first.sittingId, why: 'said no to it' });
    }
  });

  it('by asking another day keeps the date of asking, and takes the day out of their calendar', async () => {
    const one = await waiter();
    await offer(one);
    await accept(one);
    await letters();
    house.clock.forward({ hours: 24 * 30 });
    await offers.askAnotherDay(studio.id, { token: one.token });
    expect(await stands(one)).toBe('waiting, 0 set aside');
    expect((await sent()).map(({ subject, invitation }) => [subject, invitation?.method])).toContainEqual([
      'You wait for another day at Sandpiper Loft',
      'CANCEL',
    ]);
    house.clock.set('2027-04-02T08:30:00Z');
    await approve(house, studio, one.sittingId, '2027-04-16T09:30');
    await offers.askAnotherDay(studio.id, { token: one.token });
    await approve(house, studio, one.sittingId, '2027-04-16T09:30');
    house.clock.set('2027-04-16T08:30:00Z'); // 09:30 in London
    await expect(offers.askAnotherDay(studio.id, { token: one.token })).rejects.toMatchObject({
      code: 'wrong_state',
    });
  });

  it('by withdrawing from an open offer settles the offer too', async () => {
    const one = await waiter();
    await offer(one);
    await house.app.get(RequestsService).giveUp(studio.id, one.token);
    expect(await stands(one)).toBe('withdrawn, 0 set aside');
    expect(await rows('select answer, answered_by from offer where for_id = $1', [one.sittingId])).toEqual([
      { answer: 'withdrawn', answered_by: 'contact' },
    ]);
  });
});

describe('two people at once', () => {
  /** Holds a sitting's row until `free` is called, so that acts on it queue up in order. */
  async function hold({ sittingId }: Asked): Promise<{ free: () => Promise<void> }> {
    const client = new pg.Client({ connectionString: house.database.url });
    await client.connect();
    await client.query('begin');
    await client.query(`select set_config('app.studio_id', $1, true)`, [studio.id]);
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
    while ((await rows(sql)).length < count) await new Promise((done) => setTimeout(done, 5));
  }
  const codeOf = (result: PromiseSettledResult<unknown>) =>
    result.status === 'fulfilled' ? 'yes' : (result.reason as { code: string }).code;

  it('who want the last place at once: who answered in time has it, the other is told it was taken', async () => {
    const [one, two] = [await waiter(), await waiter()];
    await offer(one);
    const held = await hold(one);
    house.clock.set('2026-12-07T17:59:59Z');
    const answered = accept(one); // in time, but others stand before it
    await untilWaiting(1);
    house.clock.set('2026-12-07T18:00:01Z');
    const taken = approve(house, studio, two.sittingId, START);
    await untilWaiting(2);
    const both = Promise.allSettled([answered, taken]);
    await held.free();
    expect((await both).map(codeOf)).toEqual(['yes', 'place_taken']);
    expect([await stands(one), await stands(two)]).toEqual([
      'confirmed, firm at 2027-04-02 09:30:00, 5 set aside',
      'waiting, 0 set aside',
    ]);
  });

  it('who want the last place at once: who answers too late is told that the offer ran out', async () => {
    const [one, two] = [await waiter(), await waiter()];
    await offer(one);
    const held = await hold(one);
    house.clock.set('2026-12-07T18:00:00Z');
    const taken = approve(house, studio, two.sittingId, START);
    await untilWaiting(1);
    const answered = accept(one);
    await untilWaiting(2);
    const both = Promise.allSettled([answered, taken]);
    await held.free();
    expect((await both).map(codeOf)).toEqual(['offer_ran_out', 'yes']);
    expect([await stands(one), await stands(two)]).toEqual([
      'waiting, 0 set aside',
      'confirmed, firm at 2027-04-02 09:30:00, 5 set aside',
    ]);
  });

  it('who are offered the last place at once: one has it, the other keeps waiting', async () => {
    const [one, two] = [await waiter(), await waiter()];
    const both = await Promise.allSettled([offer(one), offer(two)]);
    expect(both.map(codeOf).sort()).toEqual(['place_taken', 'yes']);
    const answers = await Promise.allSettled([accept(one), accept(two)]);
    expect(answers.map(codeOf).sort()).toEqual(['wrong_state', 'yes']);
    expect([await stands(one), await stands(two)].sort()).toEqual([
      'confirmed, firm at 2027-04-02 09:30:00, 5 set aside',
      'waiting, 0 set aside',
    ]);
  });

  it('who answer one offer from two devices at once make one turn and one letter', async () => {
    const one = await waiter();
    await offer(one);
    await letters();
    await Promise.all([accept(one), accept(one)]);
    expect(await letters()).toEqual([
      'Linnea Harrow: Your place at Sandpiper Loft: Friday 2 April 2027, 09:30',
    ]);
  });

  it('of whom one takes and one refuses the same offer: the first counts, the second is told', async () => {
    const one = await waiter();
    await offer(one);
    const both = await Promise.allSettled([accept(one), refuse(one)]);
    expect(both.map(codeOf).sort()).toEqual(['wrong_state', 'yes']);
  });

  it('are kept apart by the database itself: no second open offer, none taken after its time', async () => {
    const one = await waiter();
    await offer(one);
    const again = `insert into offer (studio_id, offer_id, for_id, made_at, expires_at, who)
      select studio_id, gen_random_uuid(), for_id, made_at, expires_at, who from offer where answer is null`;
    await expect(rows(again)).rejects.toThrow('offer_one_live');
    await expect(
      rows(`update offer set answer = 'accepted', answered_at = expires_at where answer is null`),
    ).rejects.toThrow('offer_accepted_in_time');
    await expect(
      rows(
        `update offer set answer = 'lapsed', answered_at = expires_at - interval '1 second' where answer is null`,
      ),
    ).rejects.toThrow('offer_lapsed_in_time');
  });

  it('would both be told yes if an offer did not hold the room', async () => {
    // the last test of this file: the house is not whole after it
    await rows('alter table occupancy drop constraint occupancy_no_overlap');
    const [one, two] = [await waiter(), await waiter()];
    const held = [await hold(one), await hold(two)];
    const offered = Promise.allSettled([offer(one), offer(two)]);
    await untilWaiting(2);
    for (const each of held) await each.free();
    await offered;
    const stand = [await stands(one), await stands(two)];
    const answers = await Promise.allSettled([accept(one), accept(two)]);
    // Both saw the room free before either had it; only the constraint tells them apart.
    expect([stand.filter((each) => each.startsWith('offered')).length, answers.map(codeOf)]).toEqual([
      2,
      ['yes', 'yes'],
    ]);
  });
});
