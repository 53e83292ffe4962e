// Offers of a place from being made to their end: what they hold, whom they are told to, until when they are honoured.
// The clock stands still until a test moves it. Two people at once stand in offers-at-once.spec.ts.
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { ListService } from '../../src/sittings/list.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { type Offering, OTHER, offering, START } from '../support/offering.js';
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

describe('an offer', () => {
  it('holds room and stock like a place, and is told with the day and until when it is open', async () => {
    const one = await at.waiter();
    await at.letters();
    await at.offer(one);
    expect(await at.stands(one)).toBe('offered, tentative at 2027-04-02 09:30:00, 5 set aside');
    await expect(approve(house, at.studio, (await at.waiter()).sittingId, START)).rejects.toMatchObject({
      code: 'place_taken',
    });
    const letter = (await at.sent()).find(({ subject }) => subject.startsWith('A place for you'));
    expect(letter?.text).toContain('held for you until Monday 7 December 2026, 18:00 (studio time)');
    expect(letter?.invitation).toBeUndefined();
  });

  it('becomes a firm place when it is accepted, with a calendar entry; once more is no mistake', async () => {
    const one = await at.waiter();
    await at.offer(one);
    await at.letters();
    await at.accept(one);
    await at.accept(one);
    expect(await at.stands(one)).toBe('confirmed, firm at 2027-04-02 09:30:00, 5 set aside');
    expect((await at.sent()).map(({ subject, invitation }) => [subject, invitation?.method])).toEqual([
      ['Your place at Sandpiper Loft: Friday 2 April 2027, 09:30', 'REQUEST'],
    ]);
  });

  it('frees all when it is refused, and the turn on the list is kept', async () => {
    const one = await at.waiter();
    await at.offer(one);
    await at.refuse(one);
    expect(await at.stands(one)).toBe('waiting, 0 set aside');
    await expect(at.accept(one)).rejects.toMatchObject({ code: 'wrong_state' });
    await at.offer(await at.waiter());
  });

  it('is one at a time: a second is refused, and a place asked for meanwhile too', async () => {
    const one = await at.waiter();
    await at.offer(one);
    await expect(at.offer(one, OTHER)).rejects.toMatchObject({ code: 'wrong_state' });
    await expect(approve(house, at.studio, one.sittingId, OTHER)).rejects.toMatchObject({
      code: 'wrong_state',
    });
  });

  it('can be followed by another, and each is told', async () => {
    const one = await at.waiter();
    const told: string[] = [];
    for (const start of [START, OTHER]) {
      await at.offer(one, start);
      told.push(...(await at.letters()));
      await at.refuse(one);
    }
    expect(told.filter((subject) => subject.includes('A place for you'))).toEqual([
      'Linnea Harrow: A place for you at Sandpiper Loft: Friday 2 April 2027, 09:30',
      'Linnea Harrow: A place for you at Sandpiper Loft: Friday 2 April 2027, 11:15',
    ]);
  });

  it('that is over before its letter goes is told to nobody', async () => {
    const one = await at.waiter();
    await at.letters();
    await at.offer(one);
    await at.refuse(one);
    const told = await at.letters();
    expect(told.some((subject) => subject.includes('A place for you'))).toBe(false);
  });

  it('is not made to somebody who needs longer notice than there is', async () => {
    const far = await at.waiter({ home: 'Reykjavík', name: 'Ari' });
    await expect(at.offer(far, '2026-12-11T11:15')).rejects.toMatchObject({
      code: 'not_an_opening',
      detail: 'They need longer notice than there is until that place, so they are not asked.',
    });
    expect(await at.stands(far)).toBe('waiting, 0 set aside');
  });

  it('under two weeks ahead asks the owner to telephone', async () => {
    const one = await at.waiter({ telephone: '01632 960777' });
    await at.letters();
    await at.offer(one, '2026-12-04T11:15');
    expect(await at.letters()).toContain(
      'Sandpiper Loft: Please telephone Linnea Harrow about Friday 4 December 2026, 11:15',
    );
  });

  it('goes to the studio to be passed on where somebody has no e-mail', async () => {
    const one = await at.waiter({
      name: 'Old Bartram',
      reachBy: 'telephone',
      email: '',
      telephone: '01632 960778',
    });
    await at.letters();
    await at.offer(one);
    const [letter] = await at.sent();
    expect(letter?.to.address).toBe(at.desk);
    expect(letter?.text).toContain('Please telephone 01632 960778 and tell them this:');
    expect(letter?.text).not.toContain('/place/');
  });

  it('answered on the telephone is noted by the owner', async () => {
    const one = await at.waiter();
    await at.offer(one);
    await at.offers.accept(at.studio.id, { who: at.studio.owner, sittingId: one.sittingId });
    const [line] = await at.rows(
      `select who, event from history where about_id = $1 order by history_id desc limit 1`,
      [one.sittingId],
    );
    expect(line).toEqual({ who: 'Isaura Fenwick', event: 'accept' });
  });
});

describe('an offer that runs out', () => {
  const EXPIRY = '2026-12-07T18:00:00Z';

  it('is honoured to the last moment', async () => {
    const one = await at.waiter();
    await at.offer(one);
    house.clock.set('2026-12-07T17:59:59.999Z');
    await at.accept(one);
    expect(await at.stands(one)).toContain('confirmed, firm');
  });

  it('is not honoured at that moment, whether the job has run or not, and the answer says so', async () => {
    const one = await at.waiter();
    await at.offer(one);
    house.clock.set(EXPIRY);
    await expect(at.accept(one)).rejects.toMatchObject({ code: 'offer_ran_out' });
    expect(await at.stands(one)).toBe('waiting, 0 set aside');
    await expect(at.accept(one)).rejects.toMatchObject({ code: 'offer_ran_out' });
    expect(await at.letters()).toContain('Linnea Harrow: Our offer has run out: Friday 2 April 2027, 09:30');
  });

  it('lapses by its job', async () => {
    const one = await at.waiter();
    await at.offer(one);
    await house.work();
    expect(await at.stands(one)).toContain('offered, tentative');
    house.clock.set(EXPIRY);
    await house.work();
    expect(await at.stands(one)).toBe('waiting, 0 set aside');
  });

  it('lapses before anybody else takes a place, though no job ever ran', async () => {
    const [one, two] = [await at.waiter(), await at.waiter()];
    await at.offer(one);
    house.clock.set(EXPIRY);
    await approve(house, at.studio, two.sittingId, START);
    expect([await at.stands(one), await at.stands(two)]).toEqual([
      'waiting, 0 set aside',
      'confirmed, firm at 2027-04-02 09:30:00, 5 set aside',
    ]);
  });

  it('a second time takes them off the list, and one act puts them back with the first date of asking', async () => {
    const one = await at.waiter();
    await at.offer(one);
    house.clock.set(EXPIRY);
    await at.offer(one);
    house.clock.set('2026-12-21T18:00:00Z');
    await house.work();
    expect(await at.stands(one)).toBe('lapsed, 0 set aside');
    expect(await at.letters()).toContain('Linnea Harrow: Do you still want to sit at Sandpiper Loft?');
    await expect(at.offer(one)).rejects.toMatchObject({ code: 'wrong_state' });
    await house.app.get(ListService).reopen(at.studio.id, { token: one.token });
    expect(await at.stands(one)).toBe('waiting, 0 set aside');
    const [row] = await at.rows(`select asked_at, offers_unanswered from sitting where sitting_id = $1`, [
      one.sittingId,
    ]);
    expect(row).toEqual({ asked_at: new Date('2026-11-25T10:00:00Z'), offers_unanswered: 0 });
  });

  it('counts again from none after an answer', async () => {
    const one = await at.waiter();
    await at.offer(one);
    house.clock.set(EXPIRY);
    await at.offer(one);
    await at.refuse(one);
    await at.offer(one, OTHER);
    house.clock.set('2026-12-30T18:00:00Z');
    await house.work();
    expect(await at.stands(one)).toBe('waiting, 0 set aside');
  });
});

describe('a place that came free', () => {
  it('goes to the next on the list at once where the studio passes on by rule', async () => {
    await at.setMode('automatic');
    const [first, second, third] = [
      await at.waiter({ name: 'First' }),
      await at.waiter({ name: 'Second', suits: { kind: 'these', days: ['2027-04-09'] } }),
      await at.waiter({ name: 'Third' }),
    ];
    await at.offer(first);
    await at.refuse(first);
    await house.work();
    expect(await at.stands(third)).toContain('offered, tentative at 2027-04-02 09:30:00');
    expect(await at.stands(second)).toBe('waiting, 0 set aside');
    await at.refuse(third); // nobody is left: the first has said no to it
    await house.work();
    expect(await at.stands(first)).toBe('waiting, 0 set aside');
  });

  it('goes past who cannot be given it: plates that the shelf cannot provide stop nobody behind them', async () => {
    at = await offering(house, { shelf: { halfGlass: 0n } });
    await at.setMode('automatic');
    const half = [{ plateSizeId: at.studio.sizes.half.id, sitters: [0] }];
    const [first, second, third] = [
      await at.waiter({ name: 'First' }),
      await at.waiter({ name: 'Second', plates: half }),
      await at.waiter({ name: 'Third' }),
    ];
    house.clock.set('2027-03-15T10:00:00Z'); // glass takes three weeks to come
    await at.offer(first);
    await at.refuse(first);
    await house.work();
    expect([await at.stands(second), await at.stands(third)]).toEqual([
      'waiting, 0 set aside',
      'offered, tentative at 2027-04-02 09:30:00, 5 set aside',
    ]);
  });

  it('is not offered again to who had it and gave it back, but to the next', async () => {
    await at.setMode('automatic');
    const [first, second] = [await at.waiter({ name: 'First' }), await at.waiter({ name: 'Second' })];
    await at.offer(first);
    await at.accept(first);
    await at.offers.askAnotherDay(at.studio.id, { token: first.token });
    await house.work();
    expect([await at.stands(first), await at.stands(second)]).toEqual([
      'waiting, 0 set aside',
      'offered, tentative at 2027-04-02 09:30:00, 5 set aside',
    ]);
    await approve(house, at.studio, first.sittingId, OTHER); // given by hand, without an offer
    await at.offers.askAnotherDay(at.studio.id, { token: first.token });
    await house.work();
    expect(await at.stands(first)).toBe('waiting, 0 set aside');
  });

  it('is proposed, and nobody is asked, where the owner confirms or asks by hand', async () => {
    for (const mode of ['propose', 'by hand'] as const) {
      await at.setMode(mode);
      const [first, second] = [await at.waiter({ name: 'First' }), await at.waiter({ name: 'Second' })];
      await at.offer(first);
      await at.refuse(first);
      await house.work();
      expect(await at.stands(second)).toBe('waiting, 0 set aside');
      const { freed } = await house.app.get(ListService).page(at.studio.id);
      expect(freed[0]?.wallStart.toString()).toBe('2027-04-02T09:30:00');
      expect(freed[0]?.candidates.order).toContain(second.sittingId);
      expect(freed[0]?.candidates.notAsked).toContainEqual({ id: first.sittingId, why: 'said no to it' });
    }
  });

  it('by asking another day keeps the date of asking, and takes the day out of their calendar', async () => {
    const one = await at.waiter();
    await at.offer(one);
    await at.accept(one);
    await at.letters();
    house.clock.forward({ hours: 24 * 30 });
    await at.offers.askAnotherDay(at.studio.id, { token: one.token });
    expect(await at.stands(one)).toBe('waiting, 0 set aside');
    expect((await at.sent()).map(({ subject, invitation }) => [subject, invitation?.method])).toContainEqual([
      'You wait for another day at Sandpiper Loft',
      'CANCEL',
    ]);
    house.clock.set('2027-04-02T08:30:00Z');
    await approve(house, at.studio, one.sittingId, '2027-04-16T09:30');
    await at.offers.askAnotherDay(at.studio.id, { token: one.token });
    await approve(house, at.studio, one.sittingId, '2027-04-16T09:30');
    house.clock.set('2027-04-16T08:30:00Z'); // 09:30 in London
    await expect(at.offers.askAnotherDay(at.studio.id, { token: one.token })).rejects.toMatchObject({
      code: 'wrong_state',
    });
  });

  it('by withdrawing from an open offer settles the offer too', async () => {
    const one = await at.waiter();
    await at.offer(one);
    await house.app.get(RequestsService).giveUp(at.studio.id, one.token);
    expect(await at.stands(one)).toBe('withdrawn, 0 set aside');
    expect(await at.rows('select answer, answered_by from offer where for_id = $1', [one.sittingId])).toEqual(
      [{ answer: 'withdrawn', answered_by: 'contact' }],
    );
  });
});
