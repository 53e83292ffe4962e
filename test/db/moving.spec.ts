// The day that has to move: what is freed, what is taken, what calendars and people are told, and two acts at once.
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import type pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import type { Message } from '../../src/platform/mailer.js';
import { MovingService } from '../../src/sittings/moving.service.js';
import { OffersService } from '../../src/sittings/offers.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { contentLines } from '../support/calendar-entries.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { rowsOf } from '../support/rows.js';
import { approve, type Asking, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';

const START = '2027-04-02T09:30';
const OTHER_DAY = '2027-04-09T11:15';
const STORM = { reason: 'storm', words: 'The harbour road will be closed.' } as const;

let house: TestHouse;
let studio: TestStudio;
let moving: MovingService;
let desk: string;
let count = 0;
beforeAll(async () => {
  house = await openTestHouse();
  moving = house.app.get(MovingService);
});
beforeEach(async () => {
  house.clock.set('2026-11-25T10:00:00Z');
  desk = `moving-${++count}@sandpiper-loft.example`;
  studio = await foundTestStudio(house, { slug: `moving-${count}`, email: desk });
  house.mail.sent.splice(0);
});
afterAll(() => house.close());

type Asked = Awaited<ReturnType<typeof askForSitting>>;
async function placed(start = START, asking: Asking = {}): Promise<Asked> {
  const one = await askForSitting(house, studio, asking);
  await approve(house, studio, one.sittingId, start);
  house.clock.forward({ minutes: 1 });
  return one;
}
const wall = (text: string) => Temporal.PlainDateTime.from(text);
const callOff = (one: Asked, again = true) =>
  moving.callOff(studio.id, studio.owner, one.sittingId, wall(START), { why: STORM, again });
const move = (one: Asked, to = OTHER_DAY, from = START) =>
  moving.move(studio.id, studio.owner, one.sittingId, wall(from), { why: STORM, to: wall(to) });

const rows = <T extends pg.QueryResultRow>(sql: string, values: unknown[] = []) =>
  rowsOf<T>(house, studio.id, sql, values);

/** "confirmed at 2027-04-09 11:15:00, 5 set aside for 2027-04-09, owed false". */
async function stands({ sittingId }: Asked): Promise<string> {
  const [one] = await rows<{
    state: string;
    owed: boolean;
    place: string | null;
    kept: string;
    days: string;
  }>(
    `select s.state, s.return_owed as owed, o.wall_start::text as place,
       (select count(*) from reservation r where r.held_for = s.sitting_id)::text as kept,
       (select string_agg(distinct r.needed_on::text, ' ') from reservation r where r.held_for = s.sitting_id) as days
     from sitting s left join occupancy o on o.held_for = s.sitting_id and o.holds where s.sitting_id = $1`,
    [sittingId],
  );
  return `${one?.state} at ${one?.place}, ${one?.kept} set aside for ${one?.days}, owed ${one?.owed}`;
}
async function sent(): Promise<Message[]> {
  await house.work();
  return house.mail.sent.splice(0).filter((message) => message.replyTo === desk);
}
const entryOf = (message: Message | undefined) => {
  const lines = contentLines(message?.invitation?.content ?? '');
  const value = (name: string) =>
    lines
      .find((line) => line.startsWith(name))
      ?.split(':')
      .slice(1)
      .join(':');
  return { uid: value('UID'), sequence: Number(value('SEQUENCE')), start: value('DTSTART;TZID') };
};

describe('a sitting called off by the studio', () => {
  it('frees room and stock, puts them first on the list, and takes the day out of their calendar', async () => {
    const one = await placed();
    const [given] = await sent().then((all) => all.filter(({ invitation }) => invitation));
    await callOff(one);
    expect(await stands(one)).toBe('waiting at null, 0 set aside for null, owed true');
    const [letter, ...others] = await sent();
    expect(others).toEqual([]);
    expect(letter?.subject).toBe('The studio has to call off Friday 2 April 2027, 09:30');
    expect(letter?.text).toContain('The harbour road will be closed.');
    expect(letter?.text).toContain('You stand first on our waiting list');
    expect(letter?.invitation?.method).toBe('CANCEL');
    expect(entryOf(letter).uid).toBe(entryOf(given).uid);
    expect(entryOf(letter).sequence).toBeGreaterThan(entryOf(given).sequence);
  });

  it('ends for good where the studio says so', async () => {
    const one = await placed();
    await callOff(one, false);
    expect(await stands(one)).toBe('called_off at null, 0 set aside for null, owed false');
    expect((await sent()).at(-1)?.text).toContain('You are welcome to ask again');
    await expect(callOff(one)).rejects.toMatchObject({ code: 'wrong_state' });
  });

  it('is no more the studio’s to call off once its hour has come', async () => {
    const one = await placed();
    house.clock.set('2027-04-02T08:30:00Z'); // 09:30 in London
    await expect(callOff(one)).rejects.toMatchObject({ code: 'wrong_state' });
    await expect(move(one)).rejects.toMatchObject({ code: 'wrong_state' });
    expect(await stands(one)).toContain('confirmed at 2027-04-02 09:30:00');
  });

  it('tells nobody and changes nothing when they gave it back a moment before', async () => {
    const one = await placed();
    await house.app.get(RequestsService).giveUp(studio.id, one.token);
    await sent();
    await expect(callOff(one)).rejects.toMatchObject({ code: 'wrong_state' });
    await expect(move(one)).rejects.toMatchObject({ code: 'wrong_state' });
    expect(await sent()).toEqual([]);
  });
});

describe('a sitting moved', () => {
  it('has room and stock on the new day only, and stays one entry in every calendar', async () => {
    const one = await placed();
    const [given] = await sent().then((all) => all.filter(({ invitation }) => invitation));
    await move(one);
    expect(await stands(one)).toBe('confirmed at 2027-04-09 11:15:00, 5 set aside for 2027-04-09, owed true');
    const [letter, ...others] = await sent();
    expect(others).toEqual([]);
    expect(letter?.text).toContain(
      'Friday 2 April 2027, 09:30 cannot be held. Your place is now on Friday 9 April 2027, 11:15.',
    );
    expect(letter?.invitation?.method).toBe('REQUEST');
    expect(entryOf(letter)).toMatchObject({ uid: entryOf(given).uid, start: '20270409T111500' });
    expect(entryOf(letter).sequence).toBeGreaterThan(entryOf(given).sequence);
    await placed(START); // the old place is free
  });

  it('is moved once, however often the owner sends it', async () => {
    const one = await placed();
    const choices = [{ sittingId: one.sittingId, from: wall(START), act: { to: wall(OTHER_DAY) } }];
    const first = await moving.carryOut(studio.id, studio.owner, STORM, choices);
    await sent();
    const again = await moving.carryOut(studio.id, studio.owner, STORM, choices);
    expect(first).toEqual([{ sittingId: one.sittingId, done: { to: wall(OTHER_DAY) } }]);
    expect(again).toEqual([
      { sittingId: one.sittingId, problem: expect.stringContaining('no place at that time') },
    ]);
    expect(await sent()).toEqual([]);
  });

  it('is found with all others of its day, but not once its hour has come', async () => {
    const [a, b] = [await placed(), await placed('2027-04-02T13:00')];
    await placed(OTHER_DAY);
    const day = Temporal.PlainDate.from('2027-04-02');
    const standing = () => moving.standing(studio.id, { from: day, until: day });
    expect((await standing()).sort()).toEqual([a.sittingId, b.sittingId].sort());
    house.clock.set('2027-04-02T08:30:00Z');
    expect(await standing()).toEqual([b.sittingId]);
  });

  it('stands first on the list if the new day does not suit, as the letter says', async () => {
    const one = await placed();
    await sent(); // they have heard of their yes
    await move(one);
    const letter = (await sent()).find(({ subject }) => subject.includes('is moved to'));
    expect(letter?.text).toContain('you then wait for another, first on the list');
    await house.app.get(OffersService).askAnotherDay(studio.id, { token: one.token });
    expect(await stands(one)).toBe('waiting at null, 0 set aside for null, owed true');
  });

  it('is told by its new day also when that was called off before the letter was written', async () => {
    const one = await placed();
    await sent();
    await move(one);
    await moving.callOff(studio.id, studio.owner, one.sittingId, wall(OTHER_DAY), {
      why: STORM,
      again: true,
    });
    const subjects = (await sent()).map(({ subject }) => subject);
    expect(subjects).toEqual([
      'Your place at Sandpiper Loft is moved to Friday 9 April 2027, 11:15',
      'The studio has to call off Friday 9 April 2027, 11:15',
    ]);
  });

  it('may move by an hour over its own old place', async () => {
    const one = await placed('2027-04-02T09:30');
    await move(one, '2027-04-02T11:15');
    expect(await stands(one)).toContain('confirmed at 2027-04-02 11:15:00');
  });

  it('keeps all it had when the new place went to somebody else', async () => {
    const one = await placed();
    await placed(OTHER_DAY);
    const before = await stands(one);
    await sent();
    await expect(move(one)).rejects.toMatchObject({ code: 'place_taken' });
    expect(await stands(one)).toBe(before);
    expect(await sent()).toEqual([]);
  });

  it('never ends in two places or none when moved and given back at one moment', async () => {
    for (let round = 0; round < 8; round += 1) {
      const one = await placed();
      const outcomes = await Promise.allSettled([
        move(one),
        house.app.get(RequestsService).giveUp(studio.id, one.token),
      ]);
      const held = await rows(`select 1 from occupancy where held_for = $1 and holds`, [one.sittingId]);
      const state = (await stands(one)).split(' ')[0];
      expect([state, held.length]).toEqual(['released', 0]);
      expect(outcomes[1].status).toBe('fulfilled');
    }
  });

  it('two moved to one place at one moment: one has it, the other keeps what it had', async () => {
    const [a, b] = [await placed('2027-04-02T09:30'), await placed('2027-04-02T13:00')];
    const outcomes = await Promise.allSettled([move(a), move(b, OTHER_DAY, '2027-04-02T13:00')]);
    expect(outcomes.map((one) => one.status).sort()).toEqual(['fulfilled', 'rejected']);
    const places = [await stands(a), await stands(b)].map((one) => /at (\S+ \S+),/.exec(one)?.[1]).sort();
    expect(places[1]).toBe('2027-04-09 11:15:00');
    expect(places[0]?.startsWith('2027-04-02')).toBe(true);
  });
});
