// Letters follow what happened, no more and no less: one for each change that was committed, none for one that was
// not, the same again after a failure, and none that is out of date.
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, jest } from '@jest/globals';
import ICAL from 'ical.js';
import pg from 'pg';
import { AccountsService } from '../../src/accounts/accounts.service.js';
import { Jobs } from '../../src/platform/jobs/registry.js';
import type { Message } from '../../src/platform/mailer.js';
import { Composing } from '../../src/reminders/composing.service.js';
import { type MailRow, MailStore } from '../../src/reminders/mail.store.js';
import { OutboxService } from '../../src/reminders/outbox.service.js';
import { Sending } from '../../src/reminders/sending.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { StudiosService } from '../../src/studios/studios.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import {
  type Asking,
  approve,
  askForSitting,
  foundTestStudio,
  openStarts,
  type TestStudio,
} from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
let superuser: pg.Client;
let starts: string[];
/** Every message handed to the mailer, those that failed too. */
let attempts: Message[];

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, {
    shelf: { wholeGlass: 500n, collodion: 90_000_000n, developer: 90_000_000n },
  });
  starts = await openStarts(house, studio, { from: '2027-03-05', until: '2027-05-28' });
  superuser = new pg.Client({ connectionString: house.database.adminUrl });
  await superuser.connect();
});
afterAll(async () => {
  await superuser.end();
  await house.close();
});

beforeEach(() => {
  house.clock.forward({ seconds: 1 }); // letters of different tests differ in time
  attempts = [];
  const { send } = house.mail;
  jest.spyOn(house.mail, 'send').mockImplementation(async (message) => {
    attempts.push(message);
    await send.call(house.mail, message);
  });
});
afterEach(async () => {
  house.mail.failures.length = 0;
  house.mail.sent.length = 0;
  await superuser.query('delete from graphile_worker._private_jobs');
  jest.restoreAllMocks();
});

let people = 0;
/** A request of somebody new, whose first letter has gone. */
async function ask(asking: Asking = {}) {
  const email = `person-${++people}@post.example`;
  const asked = await askForSitting(house, studio, { email, ...asking });
  await house.work();
  house.clock.forward({ seconds: 1 });
  attempts.length = 0;
  house.mail.sent.length = 0;
  return { email, ...asked };
}

const give = (sittingId: string) => approve(house, studio, sittingId, starts.shift() ?? '');
const giveUp = (token: string) => house.app.get(RequestsService).giveUp(studio.id, token);
const failure = (responseCode: number, command = 'DATA') =>
  Object.assign(new Error(`${responseCode} said the server`), { responseCode, command });

/** Lets the queue try again all that failed, however long it wanted to wait. */
async function retry(): Promise<void> {
  const sql = 'update graphile_worker._private_jobs set attempts = 0, run_at = $1 where attempts > 0';
  await superuser.query(sql, [house.clock.now().toString()]);
  await house.work();
}

/** The outbox about a sitting (or a link), in order of kind. */
async function outbox(aboutId: string): Promise<MailRow[]> {
  const mails = await house.app.get(OutboxService).latest(studio.id);
  return mails.filter((mail) => mail.about_id === aboutId).sort((a, b) => (a.kind < b.kind ? -1 : 1));
}
const states = async (aboutId: string) => (await outbox(aboutId)).map(({ kind, state }) => [kind, state]);
const OTHER_JOBS = `select * from graphile_worker._private_jobs where key not like '%:reminder.due:%'`; // they wait for their day
const jobsLeft = async () => (await superuser.query(OTHER_JOBS)).rows;

/** The one event of an invitation, as ical.js reads it. */
function event(message: Message | undefined) {
  const calendar = new ICAL.Component(ICAL.parse(message?.invitation?.content ?? ''));
  const [found, ...others] = calendar.getAllSubcomponents('vevent');
  expect(others).toEqual([]);
  const value = (name: string) => found?.getFirstPropertyValue(name);
  return {
    method: calendar.getFirstPropertyValue('method'),
    uid: value('uid'),
    sequence: Number(value('sequence')),
    status: value('status'),
    organizer: value('organizer'),
    attendees: found?.getAllProperties('attendee').map((one) => String(one.getFirstValue()).toLowerCase()),
    start: new ICAL.Event(found).startDate.toJSDate().toISOString(),
  };
}

describe('a place', () => {
  it('is told to its contact in one letter with an invitation, and taken out by one that outdoes it', async () => {
    const { sittingId, token, email } = await ask();
    const start = starts[0] ?? '';
    await give(sittingId);
    await house.work();
    expect(house.mail.sent.map((message) => message.to.address)).toEqual([email]);
    const invited = event(house.mail.sent[0]);
    expect(invited).toMatchObject({
      method: 'REQUEST',
      status: 'CONFIRMED',
      organizer: `mailto:${house.config.mailFrom}`,
      attendees: [`mailto:${email}`],
    });
    expect(house.mail.sent[0]?.text).toContain(`/s/${studio.slug}/place/${token}`);
    expect(invited.start.slice(0, 10)).toBe(start.slice(0, 10));

    house.mail.sent.length = 0;
    await giveUp(token);
    await house.work();
    expect(house.mail.sent.map((message) => message.to.address).sort()).toEqual(
      [email, 'desk@sandpiper-loft.example'].sort(),
    );
    const cancelled = event(house.mail.sent.find((message) => message.invitation));
    expect(cancelled).toEqual({
      ...invited,
      method: 'CANCEL',
      status: 'CANCELLED',
      sequence: cancelled.sequence,
    });
    expect(cancelled.sequence).toBeGreaterThan(invited.sequence);
  });

  it('is told once, however often its jobs run', async () => {
    const { sittingId } = await ask();
    await give(sittingId);
    await house.work();
    const [, mail] = await outbox(sittingId);
    await house.db.inStudio(studio.id, async (tx) => {
      const jobs = house.app.get(Jobs);
      await jobs.enqueue(
        tx,
        'place.changed',
        { sittingId, change: 'confirmed', sequence: 1 },
        { key: 'again' },
      );
      await jobs.enqueue(tx, 'mail.send', { mailId: mail?.mail_id ?? '' }, { key: 'again' });
    });
    await house.work();
    expect(await jobsLeft()).toEqual([]);
    expect(house.mail.sent).toHaveLength(1);
    expect(await states(sittingId)).toEqual([
      ['asked', 'sent'],
      ['confirmed', 'sent'],
      ['owner: asked', 'sent'],
    ]);
  });

  it('that was not given after all is told to nobody', async () => {
    const { sittingId } = await ask();
    const studios = house.app.get(StudiosService);
    jest
      .spyOn(studios, 'raiseCalendarCounter')
      .mockRejectedValueOnce(new Error('cut off at the last moment'));
    await expect(give(sittingId)).rejects.toThrow('cut off');
    await house.work();
    expect(attempts).toEqual([]);
    expect(await states(sittingId)).toEqual([
      ['asked', 'sent'],
      ['owner: asked', 'sent'],
    ]);
  });

  it('that was given back before anybody was told is not confirmed any more', async () => {
    const { sittingId, token } = await ask();
    await give(sittingId);
    await giveUp(token);
    await house.work();
    expect(house.mail.sent.map(({ invitation }) => invitation?.method).sort()).toEqual(['CANCEL', undefined]);
    expect((await states(sittingId)).map(([kind]) => kind)).not.toContain('confirmed');
  });

  it('that was given back while its letter waited for the mail server is not confirmed either', async () => {
    const { sittingId, token } = await ask();
    await give(sittingId);
    house.mail.failures.push(failure(451));
    await house.work();
    await giveUp(token);
    await retry();
    expect(house.mail.sent.map(({ invitation }) => invitation?.method).sort()).toEqual(['CANCEL', undefined]);
    expect(await states(sittingId)).toContainEqual(['confirmed', 'dropped']);
  });

  it('is not among the facts of a letter written late about the asking', async () => {
    const asked = await askForSitting(house, studio, { email: 'late@post.example' });
    await give(asked.sittingId);
    await house.work();
    const letters = house.mail.sent.filter(({ to }) => to.address === 'late@post.example');
    const thanks = letters.find(({ subject }) => subject.startsWith('Your request'));
    expect(thanks?.text).toContain('Days that suit: ');
    expect(thanks?.text).not.toMatch(/^Time: /m);
    expect(thanks?.invitation).toBeUndefined();
  });
});

describe('a letter', () => {
  it('that the mail server does not take now waits, and goes later as the same letter', async () => {
    const { sittingId } = await ask();
    await give(sittingId);
    house.mail.failures.push(failure(451), failure(535, 'AUTH PLAIN'), new Error('connect ECONNREFUSED'));
    await house.work();
    const waiting = { state: 'waiting', attempts: 1, last_error: '451 said the server' };
    expect((await outbox(sittingId))[1]).toMatchObject(waiting);
    await retry();
    await retry();
    expect(house.mail.sent).toEqual([]);
    await retry();
    expect((await outbox(sittingId))[1]).toMatchObject({ state: 'sent', attempts: 4, last_error: '' });
    expect(house.mail.sent).toHaveLength(1);
    expect(attempts).toHaveLength(4);
    for (const attempt of attempts) expect(attempt).toEqual(attempts[0]);
    expect(await jobsLeft()).toEqual([]);
  });

  it('that the mail server refuses is parked, and not tried again', async () => {
    const { sittingId } = await ask();
    await give(sittingId);
    house.mail.failures.push(failure(550, 'RCPT TO'));
    await house.work();
    expect(await jobsLeft()).toEqual([]);
    const refused = { state: 'parked', last_error: '550 said the server' };
    expect((await outbox(sittingId))[1]).toMatchObject(refused);
  });

  it('that failed twelve times is parked, so that somebody looks at it', async () => {
    const { sittingId } = await ask();
    await give(sittingId);
    house.mail.failures.push(...Array.from({ length: 20 }, () => failure(451)));
    for (let time = 0; time < 15; time++) await retry();
    await house.work();
    for (let time = 0; time < 15; time++) await retry();
    expect(attempts).toHaveLength(12);
    expect((await outbox(sittingId))[1]).toMatchObject({ state: 'parked', attempts: 12 });
  });

  it('that cannot be composed just now waits as well, with the reason, for a queue that tries more often', async () => {
    const { sittingId } = await ask();
    await give(sittingId);
    jest.spyOn(house.app.get(Composing), 'message').mockRejectedValueOnce(new Error('no zone data'));
    await house.work();
    const waiting = { state: 'waiting', attempts: 1, last_error: 'no zone data' };
    expect((await outbox(sittingId))[1]).toMatchObject(waiting);
    expect((await jobsLeft()).map((job) => job.max_attempts > 12)).toEqual([true]);
    await retry();
    expect((await outbox(sittingId))[1]).toMatchObject({ state: 'sent', attempts: 2 });
  });

  it('threads under the first letter about the same thing to the same person', async () => {
    const { sittingId, token } = await ask();
    await give(sittingId);
    await giveUp(token);
    await house.work();
    const [asked] = await outbox(sittingId);
    const released = house.mail.sent.find(({ invitation }) => invitation);
    expect(released?.references).toEqual([asked?.message_id]);
    expect(asked?.message_id).toBe(`<${asked?.mail_id}@localhost>`);
  });
});

describe('a letter whose sender was killed', () => {
  /** A letter that somebody took a lease of, and was not heard of since. */
  async function leftAlone(): Promise<MailRow> {
    const { sittingId } = await ask();
    await give(sittingId);
    house.mail.failures.push(failure(451));
    await house.work();
    await superuser.query('delete from graphile_worker._private_jobs');
    attempts.length = 0;
    const [, mail] = await outbox(sittingId);
    const now = house.clock.now();
    const leased = await house.db.inStudio(studio.id, (tx) =>
      new MailStore().lease(tx, mail?.mail_id ?? '', now, now.add({ seconds: 60 })),
    );
    if (!leased) throw new Error('The letter could not be leased.');
    return leased;
  }

  it('is taken over after sixty seconds, not before, even when its job came too early', async () => {
    const { mail_id } = await leftAlone();
    const sending = house.app.get(Sending);
    house.clock.forward({ milliseconds: 59_999 });
    await sending.send(studio.id, mail_id);
    await house.work();
    expect(attempts).toEqual([]);

    house.clock.forward({ milliseconds: 1 });
    await house.work(); // nobody enqueued anything since
    expect(house.mail.sent).toHaveLength(1);
    expect((await outbox((await mailOf(mail_id)).about_id))[1]).toMatchObject({ state: 'sent', attempts: 3 });
  });

  it('is not touched by that sender’s late news of a failure, but by that of success', async () => {
    const first = await leftAlone();
    const store = new MailStore();
    house.clock.forward({ seconds: 61 });
    const now = house.clock.now();
    await house.db.inStudio(studio.id, async (tx) => {
      const second = await store.lease(tx, first.mail_id, now, now.add({ seconds: 60 }));
      expect(second).toMatchObject({ state: 'sending', attempts: first.attempts + 1 });
      await store.settle(tx, first, 'waiting', now, '421 the line broke');
      expect(await store.byId(tx, first.mail_id)).toMatchObject({ state: 'sending' });
      await store.settle(tx, first, 'sent', now);
      expect(await store.byId(tx, first.mail_id)).toMatchObject({ state: 'sent' });
      if (second) await store.settle(tx, second, 'parked', now, '550 known already');
      expect(await store.byId(tx, first.mail_id)).toMatchObject({ state: 'sent', last_error: '' });
    });
  });

  async function mailOf(id: string): Promise<MailRow> {
    return (await house.app.get(OutboxService).read(studio.id, id)).mail;
  }
});

describe('a contact without e-mail', () => {
  it.each([
    [
      { reachBy: 'telephone', telephone: '01632 960777' },
      'Please telephone 01632 960777 and tell them this:',
    ],
    [
      { reachBy: 'letter', postalAddress: '7 Ropewalk\nSandhaven' },
      'Please send this by letter to: 7 Ropewalk, Sandhaven',
    ],
  ] as const)('has the letters go to the studio, with how to pass them on: %j', async (way, words) => {
    const { sittingId, token } = await ask({ name: 'Enid Marrow', email: '', ...way });
    await give(sittingId);
    await house.work();
    await giveUp(token);
    await house.work();
    expect(house.mail.sent.map(({ to }) => to.address)).toEqual(Array(3).fill('desk@sandpiper-loft.example'));
    const passedOn = house.mail.sent.filter(({ subject }) =>
      subject.startsWith('To pass on to Enid Marrow: '),
    );
    expect(passedOn).toHaveLength(2);
    for (const { text, invitation } of passedOn) {
      expect(text).toContain(`Enid Marrow has no e-mail. ${words}`);
      expect(text).not.toMatch(/attached|\/place\//);
      expect(invitation).toBeUndefined();
    }
  });
});

describe('a sign-in link', () => {
  const linkIn = (message: Message | undefined) =>
    /sign-in\/([\w-]{43})/.exec(message?.text ?? '')?.[1] ?? '';
  const accounts = () => house.app.get(AccountsService);
  const askForLink = () => accounts().askForLink(studio.id, studio.owner.email);

  it('is mailed to the account, and signs in', async () => {
    await askForLink();
    await house.work();
    expect(house.mail.sent.map(({ to }) => to.address)).toEqual([studio.owner.email]);
    expect(await accounts().signInByLink(studio.id, linkIn(house.mail.sent[0]))).toHaveLength(43);
  });

  it('is not mailed to anybody else', async () => {
    await accounts().askForLink(studio.id, 'eve@evil.example');
    await house.work();
    expect(attempts).toEqual([]);
  });

  it.each([
    ['run out', async () => house.clock.forward({ minutes: 10 })],
    ['been used', async () => void (await accounts().signInByLink(studio.id, linkIn(attempts[0])))],
  ])('that has %s before it could be sent is dropped', async (_how, happens) => {
    await askForLink();
    house.mail.failures.push(failure(451));
    await house.work();
    await happens();
    await retry();
    expect(house.mail.sent).toEqual([]);
    const [last] = await house.app.get(OutboxService).latest(studio.id, 1);
    expect(last).toMatchObject({
      kind: 'sign-in',
      state: 'dropped',
      last_error: 'Out of date before it was sent.',
    });
  });
});
