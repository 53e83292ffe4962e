// Reminders before the day: planned with the yes, planned anew with a move, stopped with the place, each ended in one way.
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { instant } from '../../src/platform/db/row.js';
import { DEFAULT_REMINDER_RULES } from '../../src/reminders/reminder-rules.schemas.js';
import { ReminderRulesService } from '../../src/reminders/reminder-rules.service.js';
import { Reminding } from '../../src/reminders/reminding.service.js';
import { CorrectionsService } from '../../src/sittings/corrections.service.js';
import { MovingService } from '../../src/sittings/moving.service.js';
import { TeachingChanges } from '../../src/teaching/changes.service.js';
import { OwnSignUpService } from '../../src/teaching/own-sign-up.service.js';
import { TeachingRequestsService } from '../../src/teaching/requests.service.js';
import { SessionsService } from '../../src/teaching/sessions.service.js';
import { NO_PLAN } from '../../src/travel/plan.schemas.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { UndoActs } from '../../src/desk/undo-acts.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { WHY } from '../support/letter-acts.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';
import { agreeToAll, signUp, teachingDay } from '../support/teaching.js';

const NOW = '2026-11-25T10:00:00Z';
const anyDay = { kind: 'any', from: '2027-03-01', until: '2027-10-31' } as const;

let house: TestHouse;
let studio: TestStudio;
let starts: string[];
let studios = 0;

beforeAll(async () => {
  house = await openTestHouse({ now: NOW });
});
beforeEach(async () => {
  house.clock.set(NOW);
  house.mail.sent.length = 0;
  studio = await foundTestStudio(house, { slug: `loft-${++studios}` });
  starts = await openStarts(house, studio, { from: '2027-05-07', until: '2027-06-25' });
});
afterAll(() => house.close());

const get = <T>(service: new (...args: never[]) => T): T => house.app.get<T>(service as never);
const ofSitting = (id: string) => house.db.inStudio(studio.id, (tx) => get(Reminding).ofSitting(tx, id));
const stateOf = async (id: string) =>
  (await ofSitting(id)).map((one) => `${one.kind} ${one.state}${one.reason && `: ${one.reason}`}`);
/** Of this test's studio; others live on beside it. */
const subjects = () =>
  house.mail.sent.filter((one) => one.text.includes(`/s/${studio.slug}/place/`)).map((one) => one.subject);

async function confirmed(start = starts[0] ?? '') {
  const person = await askForSitting(house, studio, {
    suits: anyDay,
    reachBy: 'email',
    email: 'l@post.example',
    home: 'Whitby, United Kingdom',
  });
  await approve(house, studio, person.sittingId, start);
  await house.work();
  house.mail.sent.length = 0;
  return { ...person, start: Temporal.PlainDateTime.from(start) };
}

/** Lets the clock go on to each moment at which a reminder was ever due, and the jobs run, until a day. */
async function liveUntil(end: string) {
  const row = z.object({ due_at: instant });
  const due = await house.db.inStudio(studio.id, (tx) =>
    tx.many(row, 'select due_at from reminder where studio_id = $1 order by due_at', [tx.studioId]),
  );
  const moments = [...due.map((one) => one.due_at.add({ minutes: 1 }).toString()), end];
  for (const at of moments.filter((one) => one >= house.clock.now().toString() && one <= end)) {
    house.clock.set(at);
    await house.work();
  }
}

it('are planned with the yes, sent one by one, and end as letters', async () => {
  const { sittingId, start } = await confirmed('2027-05-07T09:30');
  expect(await stateOf(sittingId)).toEqual(['week planned', 'near planned', 'eve planned', 'day planned']);
  house.clock.set('2027-04-28T06:00:00Z');
  await liveUntil('2027-05-07T09:00:00Z');
  expect(subjects()).toEqual([
    'Your place at Sandpiper Loft: Friday 7 May 2027, 09:30',
    'Before Friday 7 May 2027 at Sandpiper Loft',
    'See you at Sandpiper Loft on Friday 7 May 2027, 09:30',
    'Today: 09:30 at Sandpiper Loft',
  ]);
  expect(await stateOf(sittingId)).toEqual(['week written', 'near written', 'eve written', 'day written']);
  expect(start.toString()).toBe('2027-05-07T09:30:00');
});

it('go on as planned when they put their own details right the day before one goes', async () => {
  const { sittingId, token } = await confirmed('2027-05-07T09:30');
  await liveUntil('2027-05-05T12:00:00Z');
  house.mail.sent.length = 0;
  const said = { name: 'Linnea Harrow', sitters: ['Linnea Harrow'], homeId: null, reachBy: 'email' };
  const ways = { email: 'other@post.example', telephone: '', postalAddress: '' };
  expect(await get(CorrectionsService).correct(studio.id, token, { ...said, ...ways })).toBe(true);
  await house.work();
  expect((await stateOf(sittingId)).slice(2)).toEqual(['eve planned', 'day planned']);
  await liveUntil('2027-05-07T09:00:00Z');
  expect(subjects()).toEqual([
    'See you at Sandpiper Loft on Friday 7 May 2027, 09:30',
    'Today: 09:30 at Sandpiper Loft',
  ]);
});

it('go by the new day once a place is moved, and the old ones are dropped', async () => {
  const { sittingId, start } = await confirmed();
  const to = Temporal.PlainDateTime.from(starts.at(-1) ?? '');
  await get(MovingService).move(studio.id, studio.owner, sittingId, start, { why: WHY, to });
  await house.work();
  const all = await stateOf(sittingId);
  expect(all.slice(0, 4)).toEqual(['week', 'near', 'eve', 'day'].map((one) => `${one} dropped: moved`));
  expect(all.slice(4)).toEqual(['week planned', 'near planned', 'eve planned', 'day planned']);
  house.mail.sent.length = 0;
  await liveUntil(`${to.toPlainDate().toString()}T18:00:00Z`);
  expect(subjects().every((one) => one.includes(' June ') || one.startsWith('Today'))).toBe(true);
  expect(subjects()).toHaveLength(4);
});

it('stop when the place is given back or called off', async () => {
  const back = await confirmed(starts[0]);
  await get(RequestsService).giveUp(studio.id, back.token);
  const off = await confirmed(starts[3]);
  const why = { why: WHY, again: false };
  await get(MovingService).callOff(studio.id, studio.owner, off.sittingId, off.start, why);
  await house.work();
  house.mail.sent.length = 0;
  await liveUntil('2027-07-01T00:00:00Z');
  expect(subjects()).toEqual([]);
  for (const { sittingId } of [back, off])
    expect(await stateOf(sittingId)).toEqual(
      ['week', 'near', 'eve', 'day'].map((one) => `${one} dropped: given up`),
    );
});

it('are not sent when the place went at that moment, before anybody planned anew', async () => {
  const { sittingId, token } = await confirmed('2027-05-07T09:30');
  house.clock.set('2027-04-30T09:00:00Z');
  await get(RequestsService).giveUp(studio.id, token);
  const [week] = await ofSitting(sittingId);
  await house.db.inStudio(studio.id, (tx) => get(Reminding).due(tx, week?.reminder_id ?? ''));
  await house.work();
  expect(subjects()).toEqual(['Your place at Sandpiper Loft is given back: Friday 7 May 2027, 09:30']);
  expect((await stateOf(sittingId))[0]).toBe('week dropped: given up');
});

it('are written once, however often and by however many they are found due', async () => {
  const { sittingId } = await confirmed('2027-05-07T09:30');
  house.clock.set('2027-04-30T09:30:00Z');
  const [week] = await ofSitting(sittingId);
  const due = () => house.db.inStudio(studio.id, (tx) => get(Reminding).due(tx, week?.reminder_id ?? ''));
  await Promise.all([due(), due(), due()]);
  await due();
  await house.work();
  expect(subjects()).toEqual(['Your place at Sandpiper Loft: Friday 7 May 2027, 09:30']);
});

it('are dropped, not sent late, where the house slept; what is still of use is sent', async () => {
  const { sittingId } = await confirmed('2027-05-07T09:30');
  house.clock.set('2027-05-06T16:00:00Z'); // the evening before: ten and three days late, and some hours
  await house.work();
  expect(await stateOf(sittingId)).toEqual([
    'week dropped: too late',
    'near dropped: too late',
    'eve written',
    'day planned',
  ]);
  expect(subjects()).toEqual(['See you at Sandpiper Loft on Friday 7 May 2027, 09:30']);
});

it('follow the rules when the owner changes them; what was written stays', async () => {
  const { sittingId } = await confirmed('2027-05-07T09:30');
  house.clock.set('2027-04-30T09:30:00Z');
  await house.work();
  const rules = DEFAULT_REMINDER_RULES.map((one) => ({
    ...one,
    id: crypto.randomUUID(),
    on: one.kind !== 'near',
    days: one.kind === 'eve' ? 2 : one.days,
  }));
  expect(await get(ReminderRulesService).saveRules(studio.id, studio.owner, rules)).toBe(1);
  expect(await stateOf(sittingId)).toEqual([
    'week written',
    'near dropped: not by the rules now',
    'eve planned',
    'day planned',
  ]);
  const eve = (await ofSitting(sittingId)).find((one) => one.kind === 'eve');
  expect(eve?.due_at.toString()).toBe('2027-05-05T09:00:00Z');
});

it('are as never planned once the yes is undone', async () => {
  const person = await askForSitting(house, studio, { suits: anyDay });
  await approve(house, studio, person.sittingId, starts[0] ?? '');
  await house.db.inStudio(studio.id, (tx) => get(Reminding).replan(tx, person.sittingId));
  const row = z.object({ act_id: z.uuid() });
  const act = await house.db.inStudio(studio.id, (tx) =>
    tx.one(row, 'select act_id from sitting_act where studio_id = $1 and sitting_id = $2', [
      tx.studioId,
      person.sittingId,
    ]),
  );
  await get(UndoActs).takeBack(studio.id, studio.owner, person.sittingId, act.act_id);
  house.mail.sent.length = 0;
  await liveUntil('2027-06-01T00:00:00Z');
  expect(subjects().filter((one) => one.includes('7 May'))).toEqual([]);
  expect((await stateOf(person.sittingId)).every((one) => one.includes('dropped'))).toBe(true);
});

/** A teaching day of which somebody from Whitby has a place; they owe all that can be asked of them. */
async function learning(start: string) {
  const { sessionId } = await teachingDay(house, studio, { start, least: 1, reading: 'Chapter three.' });
  const person = await signUp(house, studio, sessionId, { email: 'l@post.example' });
  await house.work();
  house.mail.sent.length = 0;
  return { sessionId, ...person };
}
const ofSignUp = async (id: string) =>
  (await house.db.inStudio(studio.id, (tx) => get(Reminding).ofSignUp(tx, id))).map(
    (one) => `${one.kind} ${one.state}${one.reason && `: ${one.reason}`}`,
  );
const toLearners = () =>
  house.mail.sent
    .filter(({ text }) => text.includes(`/s/${studio.slug}/student/`))
    .map(({ subject }) => subject);

describe('of a teaching day', () => {
  const PLANNED = ['week planned', 'near planned', 'eve planned', 'day planned'];
  const DROPPED = (why: string) => ['week', 'near', 'eve', 'day'].map((kind) => `${kind} dropped: ${why}`);

  it('ask for what is open, and no more for what was told meanwhile', async () => {
    const { signUpId, token } = await learning('2027-05-19T10:00');
    expect(await ofSignUp(signUpId)).toEqual(PLANNED);
    house.clock.set('2027-05-12T09:05:00Z');
    await house.work();
    const [week] = house.mail.sent;
    expect(week?.text).toContain('How we work safely is not agreed to yet by Linnea Harrow.');
    expect(week?.text).toContain('We do not know the size yet for Linnea Harrow: Gloves.');
    expect(week?.text).toContain('The deposit is still due: 60 pounds.');
    expect(week?.text).toContain('Before you come: Chapter three.');
    await agreeToAll(house, studio, token);
    await get(TeachingRequestsService).noteDeposit(studio.id, studio.owner, signUpId, 'received');
    house.clock.set('2027-05-16T06:00:00Z');
    await liveUntil('2027-05-19T09:00:00Z');
    expect(toLearners()).toEqual([
      'Your day to learn at Sandpiper Loft: First Plates, Wednesday 19 May 2027, 10:00',
      'Before Wednesday 19 May 2027 at Sandpiper Loft',
      'See you at Sandpiper Loft on Wednesday 19 May 2027, 10:00',
      'Today: 10:00 at Sandpiper Loft',
    ]);
    const later = house.mail.sent.slice(1).map(({ text }) => text);
    expect(later.some((text) => /not agreed|the size|still due|in an emergency/.test(text))).toBe(false);
    expect(await ofSignUp(signUpId)).toEqual(['week written', 'near written', 'eve written', 'day written']);
  });

  it('go by the new day once it is moved, and are dropped where the house slept', async () => {
    const { sessionId, signUpId } = await learning('2027-05-19T10:00');
    const form = { day: '2027-06-02', time: '11:00', places: 6, least: 1, decideOn: '2027-05-01' };
    const { hash } = await get(TeachingChanges).preview(studio.id, sessionId, form);
    await get(TeachingChanges).confirm(studio.id, studio.owner, sessionId, form, hash);
    await house.work();
    expect(await ofSignUp(signUpId)).toEqual([...DROPPED('moved'), ...PLANNED]);
    house.mail.sent.length = 0;
    house.clock.set('2027-06-01T16:00:00Z'); // asleep until the evening before
    await house.work();
    expect((await ofSignUp(signUpId)).slice(4)).toEqual([
      'week dropped: too late',
      'near dropped: too late',
      'eve written',
      'day planned',
    ]);
    expect(toLearners()).toEqual(['See you at Sandpiper Loft on Wednesday 2 June 2027, 11:00']);
  });

  it('stop when they leave, and when it is called off', async () => {
    const left = await learning('2027-05-19T10:00');
    await get(OwnSignUpService).leave(studio.id, left.token);
    const off = await learning('2027-05-20T10:00');
    await get(SessionsService).callOff(studio.id, studio.owner, off.sessionId, 'The roof leaks.');
    // one that falls due before anybody planned anew is dropped all the same
    const [week] = await house.db.inStudio(studio.id, (tx) => get(Reminding).ofSignUp(tx, off.signUpId));
    house.clock.set('2027-05-13T09:05:00Z');
    await house.db.inStudio(studio.id, (tx) => get(Reminding).due(tx, week?.reminder_id ?? ''));
    await house.work();
    house.mail.sent.length = 0;
    await liveUntil('2027-06-01T00:00:00Z');
    expect(toLearners()).toEqual([]);
    for (const { signUpId } of [left, off]) expect(await ofSignUp(signUpId)).toEqual(DROPPED('given up'));
  });

  it('go by how they come, as soon as they tell it', async () => {
    const { signUpId, token } = await learning('2027-05-19T10:00');
    const home = { name: 'New York', lat: 40.71, lon: -74.01, zone: 'America/New_York' };
    await get(OwnSignUpService).tellJourney(studio.id, token, { home, postcode: '', plan: NO_PLAN });
    await house.work();
    const rows = await house.db.inStudio(studio.id, (tx) => get(Reminding).ofSignUp(tx, signUpId));
    expect(rows.map(({ kind, due_at }) => `${kind} ${due_at}`).slice(0, 2)).toEqual([
      'travel 2027-02-18T15:00:00Z', // 90 days before, ten in New York in winter
      'week 2027-05-12T14:00:00Z', // ten there in summer
    ]);
  });
});
