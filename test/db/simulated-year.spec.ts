// A year of a studio's mail on a stopped clock, with workers that die and a mail server that cuts, refuses and stalls; each
// promise about letters is judged by what really happened. And that the judge sees it: each guard is taken away once.
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, jest } from '@jest/globals';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { Jobs } from '../../src/platform/jobs/registry.js';
import { Composing } from '../../src/reminders/composing.service.js';
import { MailStore } from '../../src/reminders/mail.store.js';
import { RemindersStore } from '../../src/reminders/reminders.store.js';
import { Reminding } from '../../src/reminders/reminding.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { scale } from '../support/scale.js';
import { judge, type Promised } from '../support/year-judge.js';
import { liveSideBySide } from '../support/year-lived.js';
import { BAD_SEASON, liveYear, YEAR } from '../support/year-run.js';

/** So many people in two studios, and a look at the queue each so many hours: the more people, the more there is to do at each. */
const PEOPLE = scale(2_000, 60);
const HOURS = scale(6, 1);
const SOME = 24;
/** How many of the guards are taken away: each takes a season. */
const GUARDS = scale(7, 3);

let house: TestHouse;
let superuser: pg.Pool;
let seasons = 0;

beforeAll(async () => {
  house = await openTestHouse({ now: '2027-01-04T00:00:00Z', pool: 12 });
  superuser = new pg.Pool({ connectionString: house.database.adminUrl, max: 4 });
});
beforeEach(() => house.clock.set('2027-01-04T00:00:00Z'));
afterEach(async () => {
  jest.restoreAllMocks();
  await superuser.query('delete from graphile_worker._private_jobs');
});
afterAll(async () => {
  await superuser.end();
  await house.close();
});

const season = () => liveYear(house, { ...BAD_SEASON, slug: `season-${++seasons}`, count: SOME, seed: 11 });

it('keeps every promise for a year, whatever dies and whatever the mail server does', async () => {
  const ofSeed = (seed: number) => {
    return { ...YEAR, hours: HOURS, slug: `year-${seed}`, count: PEOPLE / 2, seed };
  };
  const lived = await liveSideBySide(house, ofSeed(7), ofSeed(8));
  expect(lived.flatMap(({ broken }) => broken)).toEqual([]);
  // all of what it is about did happen
  const fates = lived.flatMap((one) => one.fates);
  for (const fate of ['take', 'take and cut', 451, 550, 'stall']) expect(fates).toContain(fate);
  const acts = lived.flatMap((one) => one.acts);
  for (const act of ['move false', 'call off false', 'give up false']) expect(acts).toContain(act);
  expect(acts.some((act) => act.endsWith('true'))).toBe(true);
  for (const { deaths } of lived) expect(deaths).toBeGreaterThan(5);
  const attempts = lived.reduce((sum, one) => sum + one.attempts, 0);
  const seconds = Math.max(...lived.map((one) => one.seconds)).toFixed(1);
  if (PEOPLE > 100) console.log(`${PEOPLE} people, ${attempts} attempts: ${seconds} s`);
});

describe('in a bad season', () => {
  it('every promise is kept', async () => {
    expect(await judge(house, await season())).toEqual([]);
  });

  /** What breaks when a guard is taken away. */
  const MUTANTS: [what: string, promise: Promised, mutate: () => void][] = [
    [
      'jobs put on the queue beside the transaction',
      'nothing of what was rolled back',
      () =>
        jest.spyOn(house.app.get(Jobs), 'enqueue').mockImplementation(async (tx, name, payload, options) => {
          await superuser.query(
            `select graphile_worker.add_job($1, $2::json, run_at := $3, max_attempts := 25, job_key := $4)`,
            [
              name,
              JSON.stringify({ ...payload, studioId: tx.studioId }),
              (options.runAt ?? house.clock.now()).toString(),
              `${tx.studioId}:${name}:${options.key}`,
            ],
          );
        }),
    ],
    [
      'a job that is lost now and then',
      'nothing missing',
      () => {
        const jobs = house.app.get(Jobs);
        const enqueue = jobs.enqueue.bind(jobs);
        let n = 0;
        jest.spyOn(jobs, 'enqueue').mockImplementation(async (tx, name, payload, options) => {
          if (name !== 'mail.send' || ++n % 5 !== 0) await enqueue(tx, name, payload, options);
        });
      },
    ],
    [
      'no second look at sending',
      'nothing after it went',
      () => {
        jest.spyOn(house.app.get(Reminding), 'mayGo').mockResolvedValue('now');
        const composing = house.app.get(Composing) as unknown as { isOvertaken(): Promise<boolean> };
        jest.spyOn(composing, 'isOvertaken').mockResolvedValue(false);
      },
    ],
    [
      'retries at night',
      'not at night',
      () => {
        const reminding = house.app.get(Reminding);
        const mayGo = reminding.mayGo.bind(reminding);
        jest.spyOn(reminding, 'mayGo').mockImplementation(async (tx, mail) => {
          const when = await mayGo(tx, mail);
          return when instanceof Temporal.Instant ? 'now' : when;
        });
      },
    ],
    [
      'a lease that keeps nobody off',
      'twice only without an answer',
      () => {
        jest.spyOn(MailStore.prototype, 'lease').mockImplementation((tx, id) => new MailStore().byId(tx, id));
      },
    ],
    [
      'another Message-ID for each attempt',
      'twice only without an answer',
      () => {
        const composing = house.app.get(Composing);
        const compose = composing.message.bind(composing);
        jest.spyOn(composing, 'message').mockImplementation(async (...args) => {
          const message = await compose(...args);
          return message && { ...message, messageId: `<${crypto.randomUUID()}@localhost>` };
        });
      },
    ],
    [
      'a reminder that is passed over without a word',
      'one outcome each',
      () => {
        const { plan } = RemindersStore.prototype;
        jest.spyOn(RemindersStore.prototype, 'plan').mockImplementation(function (
          this: RemindersStore,
          tx,
          all,
          at,
        ) {
          return plan.call(
            this,
            tx,
            all.filter((one) => one.skip === null),
            at,
          );
        });
      },
    ],
  ];
  it.each(MUTANTS.slice(0, GUARDS))('%s would be seen', async (_what, promise, mutate) => {
    mutate();
    const broken = await judge(house, await season());
    expect(broken.map((one) => one.promise)).toContain(promise);
  });
});
