// Reminders through the doors of the owner, as a browser without script would: the rules, and all messages to one person.
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { Reminding } from '../../src/reminders/reminding.service.js';
import { SessionsService } from '../../src/teaching/sessions.service.js';
import { NewsService } from '../../src/desk/news.service.js';
import { beginNights } from '../../src/platform/jobs/night.js';
import { Jobs } from '../../src/platform/jobs/registry.js';
import { OwnSignUpService } from '../../src/teaching/own-sign-up.service.js';
import { TeachingRequestsService } from '../../src/teaching/requests.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { errorAt, wordsOf } from '../support/page-forms.js';
import { approve, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';
import { signUp, teachingDay } from '../support/teaching.js';
import { signedIn, Visitor } from '../support/visitor.js';

let house: TestHouse;
let studio: TestStudio;
let owner: Visitor;
let rules: string;
let request: string;

beforeAll(async () => {
  house = await openTestHouse({ now: '2026-11-26T10:00:00Z' });
  studio = await foundTestStudio(house);
  rules = `/s/${studio.slug}/desk/mail/reminders`;
  const { sittingId } = await askForSitting(house, studio, { home: 'Whitby, United Kingdom' });
  request = `/s/${studio.slug}/desk/requests/${sittingId}`;
  owner = await signedIn(house, studio, 'owner');
});
afterAll(() => house.close());

const NEW = { kind: 'near', days: '2', hour: '18', forWhom: 'everyone', leastKm: '', leastLeadDays: '' };

test('the owner sees beforehand what somebody would be sent, and when', async () => {
  const day = '?day-day=2&day-month=april&day-year=2027';
  const words = wordsOf((await owner.get(`${request}/messages${day}`)).html);
  expect(words).toContain('For a place on Friday 2 April 2027, given today, on the clock of Europe/London');
  expect(words).toMatch(/A week before Friday 26 March( 2027)?, 10:00/);
  expect(words).toMatch(/The day before Thursday 1 April( 2027)?, 10:00/);
  const none = await owner.get(`${request}/messages?day-day=31&day-month=2&day-year=2027`);
  expect(errorAt(none.html, 'day')).toBe('Please give a day.');
});

test('after the yes the same stands there as planned, and the letters that went', async () => {
  await approve(house, studio, request.split('/').at(-1) ?? '', '2027-04-02T09:30');
  await house.work();
  const words = wordsOf((await owner.get(`${request}/messages`)).html);
  expect(words).toContain('Reminders, on the clock of Europe/London');
  expect(words).toMatch(/A week before Friday 26 March( 2027)?, 10:00 to come/);
  expect(words).toContain('You have a place');
  expect(words).not.toContain('If they got a place');
});

test('a rule is added and changed, and planned anew for whoever has a place', async () => {
  const wrong = await owner.post(`${rules}/new/sitting`, { ...NEW, days: '400', hour: '23' });
  expect(wrong.status).toBe(422);
  expect(errorAt(wrong.html, 'days')).toBe('Please give whole days, 0 to 365.');
  expect(errorAt(wrong.html, 'hour')).toBe('Please give a full hour, 8 to 20.');
  const added = wordsOf((await owner.postAndFollow(`${rules}/new/sitting`, NEW)).html);
  expect(added).toContain('It is saved. Planned anew for one place; what has gone stays as it is.');
  expect(added).toContain('2 days before, at 18:00, to everybody.');
  // of two rules of a kind the earlier goes
  expect(wordsOf((await owner.get(`${request}/messages`)).html)).toMatch(
    /How to prepare Tuesday 30 March( 2027)?, 10:00/,
  );
});

test('a rule is taken away, but not the last one', async () => {
  // the rules of sittings stand first; those of teaching days are their own
  let ids: string[] = [];
  const read = async () => {
    const { html } = await owner.get(rules);
    const [sittings = ''] = html.split('Before a teaching day');
    ids = [...sittings.matchAll(/reminders\?form=([0-9a-f-]{36})/g)].map(([, id]) => id ?? '');
  };
  await read();
  expect(ids).toHaveLength(8);
  for (const id of ids.slice(1)) await owner.postAndFollow(`${rules}/${id}/remove`, {});
  await read();
  expect(ids).toHaveLength(1);
  const last = wordsOf((await owner.postAndFollow(`${rules}/${ids[0]}/remove`, {})).html);
  expect(last).toContain('This is the last reminder. Switch it off instead.');
  expect((await owner.post(`${rules}/${crypto.randomUUID()}/remove`, {})).status).toBe(404);
});

test('the owner sees what somebody who learns would be sent, and is sent once they have a place', async () => {
  const { sessionId } = await teachingDay(house, studio, { start: '2027-04-07T10:00', most: 1, least: 1 });
  const first = await signUp(house, studio, sessionId);
  const { signUpId } = await signUp(house, studio, sessionId, { orWait: true });
  const messages = `/s/${studio.slug}/desk/teaching/sign-ups/${signUpId}/messages`;
  const before = wordsOf((await owner.get(messages)).html);
  expect(before).toContain('For a place on Wednesday 7 April 2027, given today');
  expect(before).toMatch(/Teaching: a week before Wednesday 31 March( 2027)?, 10:00/);
  await house.app.get(OwnSignUpService).leave(studio.id, first.token);
  await house.app.get(TeachingRequestsService).offer(studio.id, studio.owner, signUpId);
  await house.app.get(OwnSignUpService).accept(studio.id, { signUpId, who: 'Wren' });
  await house.work();
  const after = wordsOf((await owner.get(messages)).html);
  expect(after).toMatch(/Teaching: a week before Wednesday 31 March( 2027)?, 10:00 to come/);
  expect(after).not.toContain('If they got a place');
  expect((await owner.get(messages.replace(signUpId, crypto.randomUUID()))).status).toBe(404);
});

test('a rule of teaching days says what it tells besides', async () => {
  const tells = { ...NEW, days: '10', tells: ['gear', 'deposit'] };
  const added = wordsOf((await owner.postAndFollow(`${rules}/new/teaching`, tells)).html);
  expect(added).toContain(
    '10 days before, at 18:00, to everybody. With what is still open: sizes of what they wear, a deposit that is due.',
  );
  expect((await owner.post(`${rules}/new/else`, NEW)).status).toBe(404);
});

describe('who wants no reminders', () => {
  let stopAt: string;
  let mine: string;
  let signUpId: string;
  let sessionId: string;
  const stateOf = async () =>
    (await house.db.inStudio(studio.id, (tx) => house.app.get(Reminding).ofSignUp(tx, signUpId))).map(
      (one) => `${one.kind} ${one.state}${one.reason && `: ${one.reason}`}`,
    );
  /** As a mail program does: no cookie, no form of ours (RFC 8058 3.2). */
  const oneClick = (contentType: string, payload: string, url = stopAt) =>
    house.app.inject({ method: 'POST', url, headers: { 'content-type': contentType }, payload });
  const multipart = [
    'multipart/form-data; boundary=x',
    '--x\r\nContent-Disposition: form-data; name="List-Unsubscribe"\r\n\r\nOne-Click\r\n--x--\r\n',
  ] as const;
  const toMe = () => house.mail.sent.filter(({ to }) => to.address === 'stop@post.example');

  test('finds where to stop them in the head of reminders, and of no other letter', async () => {
    ({ sessionId } = await teachingDay(house, studio, { start: '2027-01-20T10:00', least: 1 }));
    const person = await signUp(house, studio, sessionId, { email: 'stop@post.example' });
    ({ signUpId } = person);
    mine = `/s/${studio.slug}/student/${person.token}`;
    await house.work();
    house.clock.set('2027-01-13T10:05:00Z');
    await house.work();
    const [yes, week, ...more] = toMe();
    expect(more).toEqual([]);
    expect([yes?.subject, yes?.stopAt]).toEqual(['You have a place to learn: First Plates', undefined]);
    const at = new RegExp(`^http://localhost:4180(/s/${studio.slug}/reminders/[\\w-]{43})$`).exec(
      week?.stopAt ?? '',
    );
    stopAt = at?.[1] ?? '';
    expect(stopAt).not.toBe('');
  });

  test('changes nothing by looking, and stops them with one click', async () => {
    const visitor = new Visitor(house);
    for (const method of ['GET', 'HEAD', 'GET'] as const)
      expect(await visitor.look(method, stopAt)).toBe(200);
    expect(wordsOf((await visitor.get(stopAt)).html)).toContain('Here you stop that');
    expect((await oneClick(...multipart, stopAt.replace(/.$/, '_'))).statusCode).toBe(404);
    const placeToken = mine.split('/').at(-1) ?? '';
    const elsewhere = `/s/${studio.slug}/reminders/${placeToken}`;
    expect((await oneClick(...multipart, elsewhere)).statusCode).toBe(404);
    const answers = [
      await oneClick(...multipart),
      await oneClick('application/x-www-form-urlencoded', 'List-Unsubscribe=One-Click'),
    ];
    for (const { statusCode, headers, body } of answers) {
      expect([statusCode, headers.location]).toEqual([200, undefined]);
      expect(body).toContain('You get no reminders any more.');
    }
  });

  test('is seen at the desk, and is reminded of nothing; a day that is called off is told all the same', async () => {
    owner = await signedIn(house, studio, 'owner');
    const messages = `/s/${studio.slug}/desk/teaching/sign-ups/${signUpId}/messages`;
    expect(wordsOf((await owner.get(messages)).html)).toContain('Linnea Harrow wants no reminders, since');
    house.mail.sent.length = 0;
    house.clock.set('2027-01-19T10:05:00Z');
    await house.work();
    expect(toMe()).toEqual([]);
    expect(await stateOf()).toEqual([
      'near dropped: too late', // ten days before, by the rule above
      'week written',
      'eve dropped: stopped by them',
      'day planned',
    ]);
    // on their page they take it back, the studio stops it for them, and they take it back at the address itself
    const visitor = new Visitor(house);
    expect(wordsOf((await visitor.get(mine)).html)).toContain('You get no reminders before the day.');
    const again = await visitor.postAndFollow(`${mine}/reminders`, { wanted: 'yes' });
    expect(wordsOf(again.html)).toContain('You are reminded of your place before the day.');
    owner = await signedIn(house, studio, 'owner');
    await owner.get(messages);
    await owner.postAndFollow(messages, { wanted: 'no' });
    await visitor.get(stopAt);
    expect(wordsOf((await visitor.postAndFollow(`${stopAt}/again`)).html)).toContain('Here you stop that');
    house.clock.set('2027-01-20T08:05:00Z');
    await house.work();
    expect(toMe().map(({ subject }) => subject)).toEqual(['Today: 10:00 at Sandpiper Loft']);
    await oneClick(...multipart);
    await house.app.get(SessionsService).callOff(studio.id, studio.owner, sessionId, 'The roof leaks.');
    await house.work();
    expect(toMe().at(-1)?.subject).toBe('The teaching day is called off: First Plates');
  });

  test('a form of ours is asked for at every other door, whatever the body', async () => {
    const other = `/s/${studio.slug}/sign-in`;
    expect((await oneClick('application/x-www-form-urlencoded', 'a=b', other)).statusCode).toBe(403);
    expect((await oneClick(...multipart, other)).statusCode).toBe(400);
    expect((await oneClick('application/x-www-form-urlencoded', 'a=b', `${stopAt}/again`)).statusCode).toBe(
      403,
    );
  });
});

describe('the owner’s letter of the day', () => {
  const letters = () => house.mail.sent.filter(({ subject }) => /^(This morning|Tomorrow) at/.test(subject));
  const workAt = async (at: string) => {
    house.clock.set(at);
    await house.work();
  };

  test('goes once a day, when there is something, and is dropped when the house slept', async () => {
    await beginNights(house.db, house.app.get(Jobs), house.clock);
    await workAt('2027-04-01T03:00:00Z'); // the night sees to it
    house.mail.sent.length = 0;
    await workAt('2027-04-01T05:59:00Z');
    expect(letters()).toEqual([]);
    await workAt('2027-04-01T06:00:00Z'); // seven in London in summer
    expect(letters().map(({ subject }) => subject)).toEqual([
      'This morning at Sandpiper Loft: Thursday 1 April 2027',
    ]);
    expect(letters()[0]?.text).toContain('Today nobody comes. Tomorrow one place, from 09:30.');
    expect(letters()[0]?.text).toContain(`/s/${studio.slug}/desk/days/2027-04-02`);
    await workAt('2027-04-01T09:00:00Z');
    const write = () => house.app.get(NewsService).write(studio.id, '2027-04-01');
    await Promise.all([write(), write()]); // its job comes twice
    await house.work();
    expect(letters()).toHaveLength(1);
    await workAt('2027-04-02T11:30:00Z'); // asleep until half an hour too late
    expect(letters()).toHaveLength(1);
  });

  test('goes at the hour the owner says, in the evening about tomorrow, or not at all', async () => {
    const path = `/s/${studio.slug}/desk/mail/day-letter`;
    house.clock.set('2027-04-06T10:00:00Z');
    owner = await signedIn(house, studio, 'owner');
    const wrong = await owner.post(path, { hour: '3' });
    expect(errorAt(wrong.html, 'hour')).toBe('Please give a full hour, 4 to 21.');
    const saved = wordsOf((await owner.postAndFollow(path, { hour: '18' })).html);
    expect(saved).toContain('It is saved.');
    expect(saved).toContain('Tomorrow at Sandpiper Loft: Wednesday 7 April 2027');
    house.mail.sent.length = 0;
    await workAt('2027-04-06T17:00:00Z');
    expect(letters().map(({ subject }) => subject)).toEqual([
      'Tomorrow at Sandpiper Loft: Wednesday 7 April 2027',
    ]);
    expect(letters()[0]?.text).toContain('10:00 First Plates, one student');
    house.clock.set('2027-04-06T19:00:00Z');
    await owner.postAndFollow(path, { hour: '21' });
    house.mail.sent.length = 0;
    await workAt('2027-04-06T23:30:00Z'); // asleep until after midnight: it is of the same day still
    expect(letters().map(({ subject }) => subject)).toEqual([]);
    await owner.postAndFollow(path, { hour: '18', off: 'yes' });
    house.mail.sent.length = 0;
    await workAt('2027-04-07T17:00:00Z');
    expect(letters()).toEqual([]);
  });
});
