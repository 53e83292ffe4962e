// What somebody is still to be reminded of stands on their own page and at their own door for programs: the plan that the
// owner sees, less what is past, skipped, or not to be told.
import { jest } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { LettersToCome } from '../../src/people/letters-to-come.service.js';
import type { Tx } from '../../src/platform/db/tx.js';
import { DecisionsService } from '../../src/sittings/decisions.service.js';
import { firmPlace } from '../../src/sittings/firm-place.calc.js';
import { ListService } from '../../src/sittings/list.service.js';
import { MovingService } from '../../src/sittings/moving.service.js';
import { SessionsService } from '../../src/teaching/sessions.service.js';
import { VouchersService } from '../../src/vouchers/vouchers.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { REACH, WHY } from '../support/letter-acts.js';
import { wordsOf } from '../support/page-forms.js';
import {
  approve,
  type Asking,
  askForSitting,
  foundTestStudio,
  openStarts,
  type TestStudio,
} from '../support/studio.js';
import { signUp, teachingDay } from '../support/teaching.js';
import { Visitor } from '../support/visitor.js';
import { surprise } from '../support/vouchers.js';

const NOW = '2026-11-25T10:00:00Z';
const SHOWN = 'What we will send you';

let house: TestHouse;
let studio: TestStudio;
let visitor: Visitor;
let starts: string[];

beforeAll(async () => {
  house = await openTestHouse({ now: NOW });
  studio = await foundTestStudio(house);
  visitor = new Visitor(house);
  starts = await openStarts(house, studio, { from: '2027-05-14', until: '2027-05-28' });
});
afterAll(() => house.close());
afterEach(() => house.clock.set(NOW));

/** Somebody with a place, reminders planned. */
async function placed(asking: Asking = {}) {
  const { sittingId, token } = await askForSitting(house, studio, {
    home: 'Whitby, United Kingdom',
    ...asking,
  });
  const start = starts.shift() ?? '';
  await approve(house, studio, sittingId, start);
  await house.work();
  const own = `/s/${studio.slug}/place/${token}`;
  return { sittingId, token, start: Temporal.PlainDateTime.from(start), own };
}

async function learning(change: Record<string, unknown> = {}, start = '2027-04-07T10:00') {
  const { sessionId } = await teachingDay(house, studio, { start, least: 1 });
  const { token } = await signUp(house, studio, sessionId, change);
  await house.work();
  return { sessionId, own: `/s/${studio.slug}/student/${token}` };
}

/** The lines of the list, in the order in which they stand there; null where there is none. */
async function listed(own: string, language = 'en'): Promise<string[] | null> {
  const { html } = await visitor.get(`${own}?lang=${language}`);
  const { 1: list } =
    /<details class="to-come"><summary>[^<]*<\/summary>([\s\S]*?)<\/details>/.exec(html) ?? [];
  if (list === undefined) return null;
  return [...list.matchAll(/<(?:p|li)\b[^>]*>([\s\S]*?)<\/(?:p|li)>/g)].map(([, line = '']) => wordsOf(line));
}

const told = async (own: string) => {
  const { statusCode, body } = await house.app.inject({ url: `/api/v1${own}` });
  expect(statusCode).toBe(200);
  const { reminders } = JSON.parse(body) as { reminders: unknown };
  return reminders;
};
const by = (way: string, toCome: [string, string][]) => ({
  stopped: false,
  toCome: toCome.map(([on, about]) => ({ on, about, by: way })),
});

describe('Whoever sits', () => {
  it('reads on which day what comes, and by which way, in both languages', async () => {
    const { own } = await placed();
    expect(await listed(own)).toEqual([
      'You get these by e-mail.',
      'Friday 7 May 2027: your place, and how to give it back if you cannot come',
      'Tuesday 11 May 2027: how to prepare',
      'Thursday 13 May 2027: when to be here, and when to leave',
      'Friday 14 May 2027: the hour, once more',
    ]);
    expect(await listed(own, 'fr')).toEqual([
      'Vous les recevez par courriel.',
      'vendredi 7 mai 2027 : votre place, et comment la rendre si vous ne pouvez pas venir',
      'mardi 11 mai 2027 : comment vous préparer',
      'jeudi 13 mai 2027 : quand être ici, et quand partir',
      'vendredi 14 mai 2027 : l’heure, encore une fois',
    ]);
    const four: [string, string][] = [
      ['2027-05-07', 'week'],
      ['2027-05-11', 'near'],
      ['2027-05-13', 'eve'],
      ['2027-05-14', 'day'],
    ];
    expect(await told(own)).toEqual(by('email', four));
    house.clock.set('2027-05-11T09:05:00Z');
    await house.work();
    expect(await told(own)).toEqual(by('email', four.slice(2)));
    expect((await listed(own))?.slice(1)).toHaveLength(2);
  });

  it('on the telephone or on paper, reads that', async () => {
    const ring = await placed(REACH.telephone);
    expect((await listed(ring.own))?.[0]).toBe('We tell you these on the telephone.');
    expect(await told(ring.own)).toMatchObject({ toCome: [{ by: 'telephone' }, {}, {}, {}] });
    const post = await placed(REACH.letter);
    expect((await listed(post.own))?.[0]).toBe('You get these by letter.');
  });

  it('far away, reads the dates of their own calendar', async () => {
    const { own, start } = await placed({ home: 'Auckland, New Zealand' });
    // ten in the morning at home is the evening before at the studio
    const week = start.subtract({ days: 7 }).toPlainDate().toString();
    expect(await told(own)).toMatchObject({
      toCome: [{ about: 'travel' }, { about: 'week', on: week }, { about: 'eve' }, { about: 'day' }],
    });
  });

  it('having stopped them, reads that, with the way back and no list', async () => {
    const { own } = await placed();
    await visitor.get(own);
    const stopped = await visitor.postAndFollow(`${own}/reminders`, { wanted: 'no' });
    expect(wordsOf(stopped.html)).toContain('You get no reminders before the day.');
    expect(wordsOf(stopped.html)).toContain('Remind me again');
    expect(wordsOf(stopped.html)).not.toContain(SHOWN);
    expect(await told(own)).toEqual({ stopped: true, toCome: null });
    await visitor.postAndFollow(`${own}/reminders`, { wanted: 'yes' });
    expect(await listed(own)).toHaveLength(5);
  });

  it('is told nothing of it while a voucher is a surprise', async () => {
    const { sittingId, own } = await placed();
    const voucherId = await surprise(house, studio, sittingId, '7');
    expect(await listed(own)).toBeNull();
    expect(await told(own)).toEqual({ stopped: false, toCome: null });
    await house.app.get(VouchersService).tell(studio.id, studio.owner, voucherId);
    expect(await listed(own)).toHaveLength(5);
  });

  it('with the last of them behind, reads that none comes any more', async () => {
    const { own, start } = await placed();
    house.clock.set(`${start.toPlainDate().toString()}T07:30:00Z`);
    await house.work();
    expect(await listed(own)).toBeNull();
    expect(wordsOf((await visitor.get(own)).html)).toContain('No further reminder comes before the day.');
    expect(await told(own)).toEqual({ stopped: false, toCome: [] });
  });

  it('reads the new days after a move, and none without a place', async () => {
    const moved = await placed();
    const to = Temporal.PlainDateTime.from('2027-06-18T11:15');
    const { sittingId, start } = moved;
    await house.app.get(MovingService).move(studio.id, studio.owner, sittingId, start, { why: WHY, to });
    expect(await listed(moved.own)).toBeNull(); // the former days are of no use, the new ones not planned yet
    await house.work();
    expect((await listed(moved.own))?.[1]).toMatch(/^Friday 11 June 2027: /);
    const off = await placed();
    await house.app
      .get(MovingService)
      .callOff(studio.id, studio.owner, off.sittingId, off.start, { why: WHY, again: false });
    const back = await placed();
    await visitor.get(back.own);
    await visitor.postAndFollow(`${back.own}/give-up`);
    const declined = await askForSitting(house, studio);
    await house.app
      .get(DecisionsService)
      .decline(studio.id, studio.owner, declined.sittingId, 'We are away.');
    for (const own of [off.own, back.own, `/s/${studio.slug}/place/${declined.token}`]) {
      expect(wordsOf((await visitor.get(own)).html)).not.toContain(SHOWN);
      expect(await told(own)).toEqual({ stopped: false, toCome: null });
    }
  });
});

it('is looked up in two statements, however much is planned', async () => {
  const { token } = await placed();
  const { studio: own, ...found } = await house.app.get(ListService).behindLink(studio.id, token);
  let count = 0;
  const counted = (tx: Tx) => {
    const method = (name: 'many' | 'one' | 'maybe' | 'run') => ({
      value: (...all: [never, never, never]) => {
        count++;
        return tx[name](...all);
      },
    });
    const methods = { many: method('many'), one: method('one'), maybe: method('maybe'), run: method('run') };
    return Object.create(tx, methods) as Tx;
  };
  const inStudio = house.db.inStudio.bind(house.db);
  jest.spyOn(house.db, 'inStudio').mockImplementation((id, work) => inStudio(id, (tx) => work(counted(tx))));
  const letters = await house.app.get(LettersToCome).of(own, firmPlace(found));
  jest.restoreAllMocks();
  expect([letters?.length, count]).toEqual([4, 2]);
});

describe('Whoever learns', () => {
  it('reads the same of their day, until they stop it or the day is off', async () => {
    const { own, sessionId } = await learning();
    expect(await listed(own)).toEqual([
      'You get these by e-mail.',
      'Wednesday 31 March 2027: your place, and how to give it back if you cannot come',
      'Sunday 4 April 2027: what to bring and wear',
      'Tuesday 6 April 2027: when to be here, and when to leave',
      'Wednesday 7 April 2027: the hour, once more',
    ]);
    expect((await listed(own, 'fr'))?.[2]).toBe(
      'dimanche 4 avril 2027 : quoi apporter et comment vous habiller',
    );
    await visitor.get(own);
    await visitor.postAndFollow(`${own}/reminders`, { wanted: 'no' });
    expect(await listed(own)).toBeNull();
    expect(await told(own)).toEqual({ stopped: true, toCome: null });
    await visitor.postAndFollow(`${own}/reminders`, { wanted: 'yes' });
    expect(await told(own)).toMatchObject({
      toCome: [{ about: 'week', by: 'email', on: '2027-03-31' }, {}, {}, {}],
    });
    await house.app.get(SessionsService).callOff(studio.id, studio.owner, sessionId, 'The roof leaks.');
    expect(await listed(own)).toBeNull();
    expect(await told(own)).toEqual({ stopped: false, toCome: null });
  });

  it('on the telephone, reads that; having given the place back, nothing', async () => {
    const { own } = await learning(REACH.telephone, '2027-04-14T10:00');
    expect((await listed(own))?.[0]).toBe('We tell you these on the telephone.');
    await visitor.get(own);
    await visitor.postAndFollow(`${own}/leave`);
    expect(await listed(own)).toBeNull();
  });
});
