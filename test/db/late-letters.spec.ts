// Letters that are late: a change told long after the page of its sitting has run out, a reminder whose retry comes at
// night, and an attempt that takes too long.
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, jest } from '@jest/globals';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import type { Message } from '../../src/platform/mailer.js';
import { TurnTooLate } from '../../src/platform/turns.js';
import { Composing } from '../../src/reminders/composing.service.js';
import { MailStore } from '../../src/reminders/mail.store.js';
import { OutboxService } from '../../src/reminders/outbox.service.js';
import { DEFAULT_REMINDER_RULES } from '../../src/reminders/reminder-rules.schemas.js';
import { ReminderRulesService } from '../../src/reminders/reminder-rules.service.js';
import { Reminding } from '../../src/reminders/reminding.service.js';
import { StopsService } from '../../src/reminders/stops.service.js';
import { TelephoneService } from '../../src/reminders/telephone.service.js';
import { MovingService } from '../../src/sittings/moving.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { REACH, WHY } from '../support/letter-acts.js';
import { until } from '../support/queue.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';

type Wall = Temporal.PlainDateTime;

const NOW = '2026-11-25T10:00:00Z';

let house: TestHouse;
let studio: TestStudio;
let superuser: pg.Client;
let studios = 0;

beforeAll(async () => {
  house = await openTestHouse({ now: NOW });
  superuser = new pg.Client({ connectionString: house.database.adminUrl });
  await superuser.connect();
});
beforeEach(async () => {
  house.clock.set(NOW);
  studio = await foundTestStudio(house, { slug: `loft-${++studios}` });
});
afterEach(async () => {
  jest.restoreAllMocks();
  house.mail.sent.length = 0;
  house.mail.failures.length = 0;
  await superuser.query('delete from graphile_worker._private_jobs');
});
afterAll(async () => {
  await superuser.end();
  await house.close();
});

const notNow = () => Object.assign(new Error('451 said the server'), { responseCode: 451, command: 'DATA' });
const isAnybodyWaiting = async () =>
  (
    await superuser.query(
      `select from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'`,
    )
  ).rowCount !== 0;
const outbox = (kind: string) =>
  house.app
    .get(OutboxService)
    .latest(studio.id)
    .then((mails) => mails.filter((mail) => mail.kind === kind));

/** Lets the queue try again at an instant all that failed. */
async function retryAt(at: string): Promise<void> {
  house.clock.set(at);
  const sql = 'update graphile_worker._private_jobs set attempts = 0, run_at = $1 where attempts > 0';
  await superuser.query(sql, [at]);
  await house.work();
}

it('a change told after its page has run out writes no letter, and its job is done and not tried again', async () => {
  const { sittingId } = await askForSitting(house, studio);
  const touched = await house.db.inStudio(studio.id, (tx) =>
    tx.run(`update link set expires_at = '2026-01-01Z' where purpose = 'place' and subject_id = $1`, [
      sittingId,
    ]),
  );
  expect(touched).toBe(1);
  await house.work();
  expect(house.mail.sent).toEqual([]);
  const fresh = await askForSitting(house, studio);
  await house.work();
  expect(fresh.sittingId).not.toBe(sittingId);
  expect(house.mail.sent).toHaveLength(2);
});

describe('a reminder that the mail server did not take', () => {
  /** The one a week before goes at eight in the evening in York, and is not taken. */
  async function refusedAtEight(): Promise<string> {
    const rules = DEFAULT_REMINDER_RULES.map((one) => ({ ...one, id: crypto.randomUUID(), hour: 20 }));
    await house.app.get(ReminderRulesService).saveRules(studio.id, studio.owner, rules);
    const [start = ''] = await openStarts(house, studio, { from: '2027-05-07', until: '2027-05-07' });
    const { sittingId } = await askForSitting(house, studio);
    await approve(house, studio, sittingId, start);
    await house.work();
    house.mail.sent.length = 0;
    house.mail.failures.push(notNow());
    house.clock.set('2027-04-30T19:00:00Z');
    await house.work();
    expect(await outbox('reminder: week')).toMatchObject([{ state: 'waiting', attempts: 1 }]);
    return sittingId;
  }
  const dropped = { state: 'dropped', last_error: 'Out of date before it was sent.' };
  const sent = (): string[] => house.mail.sent.map((one: Message) => one.subject);

  it('waits for the morning where its reader is, however often it is looked at in the night', async () => {
    await refusedAtEight();
    for (const at of ['2027-04-30T20:00:00Z', '2027-04-30T23:30:00Z', '2027-05-01T06:59:59Z']) {
      await retryAt(at); // nine, half past midnight, a second before eight
      expect(sent()).toEqual([]);
      expect(await outbox('reminder: week')).toMatchObject([{ state: 'waiting', attempts: 1 }]);
    }
    house.clock.set('2027-05-01T07:00:00Z');
    await house.work(); // nobody tried again: it was to be seen to at eight
    expect(sent()).toEqual(['Your place at Sandpiper Loft: Friday 7 May 2027, 09:30']);
    expect(await outbox('reminder: week')).toMatchObject([{ state: 'sent', attempts: 2 }]);
  });

  it('would come at night if nobody asked again at sending', async () => {
    await refusedAtEight();
    jest.spyOn(house.app.get(Reminding), 'mayGo').mockResolvedValue('now');
    await retryAt('2027-04-30T23:30:00Z');
    expect(sent()).toHaveLength(1);
  });

  it('goes until nine as it would have at eight', async () => {
    await refusedAtEight();
    await retryAt('2027-04-30T19:59:59Z');
    expect(sent()).toHaveLength(1);
  });

  it('is dropped once it stood too long', async () => {
    await refusedAtEight();
    await retryAt('2027-05-01T15:00:01Z'); // twenty hours and a second
    expect(sent()).toEqual([]);
    expect(await outbox('reminder: week')).toMatchObject([dropped]);
  });

  it('is dropped once its reader wants none', async () => {
    const sittingId = await refusedAtEight();
    await house.app.get(StopsService).setAtDesk(studio.id, studio.owner, { sittingId }, false);
    await retryAt('2027-04-30T19:59:59Z');
    expect(sent()).toEqual([]);
    expect(await outbox('reminder: week')).toMatchObject([dropped]);
  });

  it('is dropped once its place was moved: the new day has reminders of its own', async () => {
    const sittingId = await refusedAtEight();
    const [to = ''] = await openStarts(house, studio, { from: '2027-05-14', until: '2027-05-14' });
    const [was, wall] = ['2027-05-07T09:30', to].map((one) => Temporal.PlainDateTime.from(one)) as [
      Wall,
      Wall,
    ];
    await house.app.get(MovingService).move(studio.id, studio.owner, sittingId, was, { why: WHY, to: wall });
    await retryAt('2027-04-30T19:59:59Z');
    expect(sent()).toEqual(['Your place at Sandpiper Loft is moved to Friday 14 May 2027, 09:30']);
    expect(await outbox('reminder: week')).toMatchObject([dropped]);
  });
});

it('a letter that cannot be composed keeps back none that is sent with it, and the try counts for it alone', async () => {
  const starts = await openStarts(house, studio, { from: '2027-05-07', until: '2027-05-28' });
  const ids: string[] = [];
  for (const start of starts.slice(0, 3)) {
    const { sittingId } = await askForSitting(house, studio);
    await approve(house, studio, sittingId, start);
    ids.push(sittingId);
  }
  const composing = house.app.get(Composing);
  const compose = composing.message.bind(composing);
  jest.spyOn(composing, 'message').mockImplementation(async (tx, mail) => {
    if (mail.about_id === ids[1]) throw new Error('no zone data');
    return compose(tx, mail);
  });
  await house.work();
  const tried = new Map(
    (await outbox('confirmed')).map((one) => [one.about_id, `${one.state} ${one.attempts}`]),
  );
  expect(ids.map((id) => tried.get(id))).toEqual(['sent 1', 'waiting 1', 'sent 1']);
});

it('a yes that the mail server did not take is not told once its place was moved', async () => {
  const { sittingId } = await askForSitting(house, studio);
  const [from = '', to = ''] = await openStarts(house, studio, { from: '2027-05-07', until: '2027-05-14' });
  await house.work();
  await approve(house, studio, sittingId, from);
  house.mail.failures.push(notNow());
  await house.work();
  house.mail.sent.length = 0;
  const [was, wall] = [Temporal.PlainDateTime.from(from), Temporal.PlainDateTime.from(to)];
  await house.app.get(MovingService).move(studio.id, studio.owner, sittingId, was, { why: WHY, to: wall });
  await house.work();
  await retryAt('2026-11-25T10:01:00Z');
  expect(house.mail.sent.map((one) => one.invitation?.method)).toEqual(['REQUEST']);
  expect(await outbox('confirmed')).toMatchObject([{ state: 'dropped' }]);
  expect(await outbox('moved')).toMatchObject([{ state: 'sent' }]);
});

it('a yes whose place is moved before anybody was told is told as one yes, of the new day', async () => {
  const { sittingId } = await askForSitting(house, studio);
  const starts = await openStarts(house, studio, { from: '2027-05-07', until: '2027-05-21' });
  const on = (day: string) => starts.find((start) => start.startsWith(day)) ?? '';
  const [from, to, next] = [on('2027-05-07'), on('2027-05-14'), on('2027-05-21')];
  await house.work();
  await approve(house, studio, sittingId, from);
  const [was, wall, last] = [from, to, next].map((one) => Temporal.PlainDateTime.from(one)) as Wall[];
  const moving = house.app.get(MovingService);
  await moving.move(studio.id, studio.owner, sittingId, was as Wall, { why: WHY, to: wall as Wall });
  await house.work();
  house.clock.forward({ minutes: 5 });
  await house.work();
  const places = async () =>
    [...(await outbox('confirmed')), ...(await outbox('moved'))].map((one) => [
      one.kind,
      one.sequence,
      one.state,
    ]);
  expect(await places()).toEqual([['confirmed', 2, 'sent']]);
  expect(house.mail.sent.at(-1)?.text).toContain('14 May 2027');
  expect(house.mail.sent.at(-1)?.text).not.toContain('7 May 2027');

  await moving.move(studio.id, studio.owner, sittingId, wall as Wall, { why: WHY, to: last as Wall });
  await house.work();
  expect(await places()).toEqual([
    ['confirmed', 2, 'sent'],
    ['moved', 3, 'sent'],
  ]);
});

it('who is moved twice before they hear of it is told once, from the day they know; and nothing where it is that day again', async () => {
  const { sittingId } = await askForSitting(house, studio);
  const starts = await openStarts(house, studio, { from: '2027-05-07', until: '2027-05-21' });
  const days = ['2027-05-07', '2027-05-14', '2027-05-21'].map((day) =>
    Temporal.PlainDateTime.from(starts.find((start) => start.startsWith(day)) ?? ''),
  ) as [Wall, Wall, Wall];
  const [first, second, third] = days;
  await house.work();
  await approve(house, studio, sittingId, first.toString());
  await house.work();
  house.mail.sent.length = 0;
  const move = (from: Wall, to: Wall) =>
    house.app.get(MovingService).move(studio.id, studio.owner, sittingId, from, { why: WHY, to });
  await move(first, second);
  await move(second, third);
  await house.work();
  expect(await outbox('moved')).toMatchObject([{ sequence: 3, state: 'sent' }]);
  const [letter, ...others] = house.mail.sent;
  expect(others).toEqual([]);
  expect(letter?.text).toContain('7 May 2027');
  expect(letter?.text).toContain('21 May 2027');
  expect(letter?.text).not.toContain('14 May 2027');

  await move(third, second);
  await move(second, third);
  await house.work();
  expect(await outbox('moved')).toHaveLength(1);
  expect(house.mail.sent).toHaveLength(1);
});

describe('a yes whose letter was written and not tried yet', () => {
  let sittingId: string;
  let start: string;
  const about = (change: 'confirmed' | 'moved', sequence: number) =>
    house.db.inStudio(studio.id, (tx) =>
      house.app
        .get(Composing)
        .aboutChange(tx, { studioId: studio.id, sittingId, change, sequence, was: start }),
    );
  const places = async () =>
    [...(await outbox('confirmed')), ...(await outbox('moved'))]
      .map((one) => `${one.kind} ${one.sequence}`)
      .sort();

  /** Nothing of it is left on the queue. */
  async function written(asking: object): Promise<void> {
    ({ sittingId } = await askForSitting(house, studio, asking));
    const [from = '', ...later] = await openStarts(house, studio, {
      from: '2027-05-07',
      until: '2027-05-14',
    });
    start = from;
    starts = later;
    await house.work();
    await approve(house, studio, sittingId, from);
    await about('confirmed', 1);
    await superuser.query('delete from graphile_worker._private_jobs');
    expect(await outbox('confirmed')).toMatchObject([{ attempts: 0, told_at: null }]);
  }
  let starts: string[];
  const move = () => {
    const [was, to] = [start, starts.at(-1) ?? ''].map((one) => Temporal.PlainDateTime.from(one)) as Wall[];
    const how = { why: WHY, to: to as Wall };
    return house.app.get(MovingService).move(studio.id, studio.owner, sittingId, was as Wall, how);
  };

  it('was heard where it was told on the telephone: then they are told of the move', async () => {
    await written(REACH.telephone);
    const ids = (await outbox('confirmed')).map((one) => one.mail_id);
    await house.app.get(TelephoneService).tell(studio.id, studio.owner, sittingId, ids);
    await move();
    await about('moved', 2);
    expect(await places()).toEqual(['confirmed 1', 'moved 2']);
  });

  it('is heard from the moment it is being sent, also where that is not written down yet', async () => {
    await written({});
    const [yes] = await outbox('confirmed');
    let send = () => {};
    const leased = new Promise<void>((isLeased) => {
      const sent = new Promise<void>((go) => {
        send = go;
      });
      void house.db.inStudio(studio.id, async (tx) => {
        const now = house.clock.now();
        await new MailStore().lease(tx, yes?.mail_id ?? '', now, now.add({ seconds: 60 }));
        isLeased();
        await sent;
      });
    });
    await leased;
    await move();
    let done = false;
    const told = about('moved', 2).then(() => {
      done = true;
    });
    await until(async () => done || (await isAnybodyWaiting()));
    send();
    await told;
    expect(await places()).toEqual(['confirmed 1', 'moved 2']);
  });

  it('was not heard otherwise; a job that runs twice tells in one letter, also once the first was tried', async () => {
    await written({});
    await move();
    await about('moved', 2);
    expect(await places()).toEqual(['confirmed 1', 'confirmed 2']);
    await superuser.query(`update mail set attempts = 1 where kind = 'confirmed' and sequence = 1`);
    await about('moved', 2);
    expect(await places()).toEqual(['confirmed 1', 'confirmed 2']);
  });
});

it.each([
  ['is not told once they gave it back themselves', 'give up', 'dropped'],
  [
    'is told all the same once the studio called it off: else they would not know which day is',
    'call off',
    'sent',
  ],
] as const)('a new day that the mail server did not take %s', async (_what, act, state) => {
  const { sittingId, token } = await askForSitting(house, studio);
  const [from = '', to = ''] = await openStarts(house, studio, { from: '2027-05-07', until: '2027-05-14' });
  await approve(house, studio, sittingId, from);
  await house.work();
  const [was, wall] = [Temporal.PlainDateTime.from(from), Temporal.PlainDateTime.from(to)];
  const moving = house.app.get(MovingService);
  await moving.move(studio.id, studio.owner, sittingId, was, { why: WHY, to: wall });
  house.mail.failures.push(notNow());
  await house.work();
  if (act === 'give up') await house.app.get(RequestsService).giveUp(studio.id, token);
  else await moving.callOff(studio.id, studio.owner, sittingId, wall, { why: WHY, again: false });
  await retryAt('2026-11-25T10:01:00Z');
  expect((await outbox('moved')).filter((one) => one.about_id === sittingId)).toMatchObject([{ state }]);
});

it('an attempt is limited to 45 seconds in all, and one that is over hands nothing to the mail server', async () => {
  const limit = jest.spyOn(AbortSignal, 'timeout').mockReturnValue(AbortSignal.abort());
  await askForSitting(house, studio);
  await house.work();
  expect(limit.mock.calls[0]).toEqual([45_000]);
  expect(house.mail.sent).toEqual([]);
  expect(await outbox('asked')).toMatchObject([
    { state: 'waiting', attempts: 1, last_error: 'It took more than 45 seconds.' },
  ]);
  limit.mockRestore();
  await retryAt('2026-11-25T10:00:10Z');
  expect(await outbox('asked')).toMatchObject([{ state: 'sent', attempts: 2 }]);
});

it('a letter whose turn at the mail server does not come is looked at again as if it had not been tried', async () => {
  await askForSitting(house, studio);
  const late = () => new TurnTooLate('Its turn did not come in time.');
  house.mail.failures.push(...Array.from({ length: 30 }, late));
  for (let time = 0; time < 15; time++) {
    await house.work();
    house.clock.forward({ seconds: 1 });
  }
  expect(house.mail.sent).toHaveLength(2);
  for (const mail of await outbox('asked')) expect(mail).toMatchObject({ state: 'sent', attempts: 1 });
});
