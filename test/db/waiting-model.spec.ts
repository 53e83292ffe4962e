// A long life of a waiting list, drawn by chance, against a model of a few lines: people ask, are offered places, take or
// refuse them, let them run out, want another day, are called off; the worker stands still, works, or is killed in the
// middle. After every step nobody is in two places, or in none when confirmed.
import { afterAll, beforeAll, expect, it } from '@jest/globals';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { AppError } from '../../src/platform/problems.js';
import { ListService } from '../../src/sittings/list.service.js';
import { MovingService } from '../../src/sittings/moving.service.js';
import { OffersService } from '../../src/sittings/offers.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { offerExpiry } from '../../src/waiting/expiry.calc.js';
import { DEFAULT_WAITING_RULES, type WaitingRules } from '../../src/waiting/rules.schemas.js';
import { WaitingService } from '../../src/waiting/waiting.service.js';
import { instantOf, placesHeld } from '../support/places-held.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { seeded } from '../support/load.js';
import { scale } from '../support/scale.js';
import { approve, askForSitting, dayOf, foundTestStudio, type TestStudio } from '../support/studio.js';

const STEPS = scale(1500, 300);
const NOTICE = 3;
const RULES: WaitingRules = {
  ...DEFAULT_WAITING_RULES,
  mode: 'by hand',
  notice: { near: NOTICE, day: NOTICE, night: NOTICE, flight: NOTICE },
};

interface Person {
  sittingId: string;
  token: string;
  state: 'requested' | 'waiting' | 'offered' | 'confirmed' | 'lapsed' | 'withdrawn' | 'released';
  start: string | null;
  expiresAt: Temporal.Instant | null;
  unanswered: number;
  /** Whether the last offer ran out. */
  ranOut: boolean;
}
type Outcome = 'yes' | AppError['code'];

let house: TestHouse;
let studio: TestStudio;
let watch: pg.Client;
const chance = seeded(20_261_125);
let people: Person[] = [];

beforeAll(async () => {
  house = await openTestHouse();
  studio = await foundTestStudio(house, {
    ...{ lightFloorDegrees: 1, exposureCapSeconds: 600 },
    shelf: { wholeGlass: 4000n },
  });
  await house.app.get(WaitingService).saveRules(studio.id, studio.owner, RULES);
  watch = new pg.Client({ connectionString: house.database.url });
  await watch.connect();
  await watch.query(`select set_config('app.studio_id', $1, false)`, [studio.id]);
});
afterAll(async () => {
  await watch.end();
  await house.close();
});

const drawn = <T>(all: readonly T[]): T | undefined => all[Math.floor(chance() * all.length)];
/** Mostly somebody of whom the act is to be expected, now and then anybody whose page is still open. */
const somebody = (...states: Person['state'][]) => {
  const month = house.clock.now().subtract({ hours: 24 * 30 });
  const open = people.filter(
    ({ state, start }) =>
      state !== 'released' && !(start && Temporal.Instant.compare(instantOf(start), month) < 0),
  );
  return drawn(chance() < 0.85 ? open.filter((one) => states.includes(one.state)) : open);
};

/** One of few starts, four and nine weeks ahead: people meet there. */
function aStart(): string {
  const today = dayOf(house);
  const friday = today.add({ days: (12 - today.dayOfWeek) % 7 });
  return `${friday.add({ weeks: drawn([4, 6, 9]) ?? 4 })}T${drawn(['11:15', '13:00'])}`;
}

/** What the model says of everybody whose offer has run out by now. */
function lapse(all: Person[]): Person[] {
  const now = house.clock.now();
  return all.map((one) => {
    if (one.state !== 'offered' || !one.expiresAt || Temporal.Instant.compare(now, one.expiresAt) < 0)
      return one;
    counts.lapsed += 1;
    const unanswered = one.unanswered + 1;
    const state = unanswered >= RULES.mostUnanswered ? 'lapsed' : 'waiting';
    return { ...one, state, unanswered, start: null, expiresAt: null, ranOut: true } as const;
  });
}

const counts = { lapsed: 0, moved: 0, byStudio: 0, taken: 0, tooLate: 0, killed: 0 };

async function outcomeOf(act: Promise<unknown>): Promise<Outcome> {
  try {
    await act;
    return 'yes';
  } catch (error) {
    if (error instanceof AppError) return error.code;
    throw error;
  }
}

/**
 * Acts on somebody, as the program and as the model. `expected` tells the outcome and how the person stands then; an
 * act that is refused inside its transaction leaves even the lapses undone.
 */
async function act(
  who: Person | undefined,
  does: (one: Person) => Promise<unknown>,
  expected: (one: Person, others: Person[]) => [Outcome, Partial<Person>?],
  keepsLapses = false,
): Promise<Outcome | null> {
  if (!who) return null;
  const before = { ...counts };
  const lapsed = lapse(people);
  const now = lapsed.find((one) => one.sittingId === who.sittingId) ?? who;
  const [outcome, change] = expected(
    now,
    lapsed.filter((one) => one !== now),
  );
  expect([who.state, await outcomeOf(does(who))]).toEqual([who.state, outcome]);
  if (outcome === 'yes') people = lapsed.map((one) => (one === now ? { ...one, ...change } : one));
  else if (keepsLapses) people = lapsed;
  else Object.assign(counts, before);
  return outcome;
}

const tooLate = (one: Person): [Outcome] => [one.ranOut ? 'offer_ran_out' : 'wrong_state'];
const taken = (start: string, others: Person[]) => others.some((one) => one.start === start);
const NO_PLACE = { start: null, expiresAt: null } as const;
const STORM = { reason: 'storm', words: '' } as const;
const placeOf = (one?: Person) => Temporal.PlainDateTime.from(one?.start ?? '2026-01-02T11:15');
const isAhead = ({ start }: Person) =>
  start !== null && Temporal.Instant.compare(instantOf(start), house.clock.now()) > 0;
const moving = () => house.app.get(MovingService);
const offers = () => house.app.get(OffersService);
const list = () => house.app.get(ListService);

const ACTS: Record<string, [weight: number, act: () => Promise<unknown>]> = {
  ask: [
    12,
    async () => {
      if (people.filter((one) => !['withdrawn', 'released'].includes(one.state)).length >= 9) return null;
      const today = dayOf(house);
      const suits = {
        kind: 'any',
        from: `${today.add({ weeks: 1 })}`,
        until: `${today.add({ weeks: 50 })}`,
      } as const;
      const asked = await askForSitting(house, studio, { suits });
      return people.push({ ...asked, ...NO_PLACE, state: 'requested', unanswered: 0, ranOut: false });
    },
  ],
  wait: [
    5,
    () =>
      act(
        somebody('requested'),
        (one) => list().wait(studio.id, studio.owner, one.sittingId),
        (one) => (one.state === 'requested' ? ['yes', { state: 'waiting' }] : ['wrong_state']),
      ),
  ],
  offer: [
    40,
    () => {
      const start = aStart();
      const startsAt = instantOf(start);
      const times = {
        zone: 'Europe/London',
        now: house.clock.now(),
        startsAt,
        noticeDays: NOTICE,
        life: RULES.life,
      };
      const expiry = offerExpiry(times);
      if (!expiry.ok) throw new Error('Four weeks are time enough.');
      return act(
        somebody('waiting', 'requested'),
        (one) => offers().make(studio.id, studio.owner, one.sittingId, Temporal.PlainDateTime.from(start)),
        (one, others) => {
          if (one.state !== 'waiting' && one.state !== 'requested') return ['wrong_state'];
          if (taken(start, others)) return ['place_taken'];
          return ['yes', { state: 'offered', start, expiresAt: expiry.expiresAt, ranOut: false }];
        },
      );
    },
  ],
  accept: [
    24,
    async () => {
      const outcome = await act(
        somebody('offered'),
        (one) => offers().accept(studio.id, { token: one.token }),
        (one) => {
          if (one.state === 'confirmed') return ['yes'];
          if (one.state !== 'offered') return tooLate(one);
          return ['yes', { state: 'confirmed', expiresAt: null, unanswered: 0 }];
        },
        true,
      );
      if (outcome === 'yes') counts.taken += 1;
      if (outcome === 'offer_ran_out') counts.tooLate += 1;
      return outcome;
    },
  ],
  refuse: [
    3,
    () =>
      act(
        somebody('offered'),
        (one) => offers().refuse(studio.id, { token: one.token }),
        (one) =>
          one.state === 'offered' ? ['yes', { state: 'waiting', unanswered: 0, ...NO_PLACE }] : tooLate(one),
        true,
      ),
  ],
  approve: [
    10,
    () => {
      const start = aStart();
      return act(
        somebody('waiting', 'requested'),
        (one) => approve(house, studio, one.sittingId, start),
        (one, others) => {
          if (one.state !== 'waiting' && one.state !== 'requested') return ['wrong_state'];
          return taken(start, others)
            ? ['place_taken']
            : ['yes', { state: 'confirmed', start, unanswered: 0 }];
        },
      );
    },
  ],
  'another day': [
    20,
    async () => {
      const outcome = await act(
        somebody('confirmed'),
        (one) => offers().askAnotherDay(studio.id, { token: one.token }),
        (one) => {
          if (one.state !== 'offered' && one.state !== 'confirmed') return tooLate(one);
          if (!isAhead(one)) return ['wrong_state'];
          return ['yes', { state: 'waiting', unanswered: 0, ...NO_PLACE }];
        },
        true,
      );
      if (outcome === 'yes') counts.moved += 1;
      return outcome;
    },
  ],
  'give up': [
    2,
    () =>
      act(
        somebody('confirmed', 'waiting', 'offered'),
        (one) => house.app.get(RequestsService).giveUp(studio.id, one.token),
        (one) => {
          const begun = one.start !== null && !isAhead(one);
          if (['withdrawn', 'released'].includes(one.state) || begun) return ['wrong_state'];
          return ['yes', { state: one.state === 'confirmed' ? 'released' : 'withdrawn', ...NO_PLACE }];
        },
      ),
  ],
  'the studio calls off': [
    10,
    () =>
      act(
        somebody('confirmed', 'offered'),
        (one) =>
          moving().callOff(studio.id, studio.owner, one.sittingId, placeOf(one), { why: STORM, again: true }),
        (one) => (isAhead(one) ? ['yes', { state: 'waiting', ...NO_PLACE }] : ['wrong_state']),
      ),
  ],
  'the studio moves': [
    12,
    async () => {
      const start = aStart();
      const one = somebody('confirmed');
      if (one?.start === start) return null;
      const to = Temporal.PlainDateTime.from(start);
      const outcome = await act(
        one,
        ({ sittingId }) =>
          moving().move(studio.id, studio.owner, sittingId, placeOf(one), { why: STORM, to }),
        (one, others) => {
          if (one.state !== 'confirmed' || !isAhead(one)) return ['wrong_state'];
          return taken(start, others) ? ['place_taken'] : ['yes', { start }];
        },
      );
      if (outcome === 'yes') [counts.moved, counts.byStudio] = [counts.moved + 1, counts.byStudio + 1];
      return outcome;
    },
  ],
  reopen: [
    14,
    () =>
      act(
        somebody('lapsed'),
        (one) => list().reopen(studio.id, { token: one.token }),
        (one) => (one.state === 'lapsed' ? ['yes', { state: 'waiting', unanswered: 0 }] : ['wrong_state']),
      ),
  ],
  'the last moment of an offer': [
    8,
    async () => {
      const one = somebody('offered');
      const now = house.clock.now();
      if (!one?.expiresAt || Temporal.Instant.compare(one.expiresAt, now) <= 0) return null;
      house.clock.set(one.expiresAt.subtract({ milliseconds: drawn([0, 0, 1]) ?? 0 }).toString());
    },
  ],
  'time passes': [40, async () => house.clock.forward({ hours: 1 + Math.floor(chance() * 150) })],
  'the worker works': [5, () => house.work()],
  'the worker is killed': [
    2,
    async () => {
      counts.killed += 1;
      const working = house.work().catch(() => {});
      await new Promise((done) => setTimeout(done, chance() * 60));
      await watch.query(
        `select pg_terminate_backend(pid) from pg_stat_activity
         where datname = current_database() and pid <> pg_backend_pid() and state <> 'idle'`,
      );
      await working;
    },
  ],
};

/** By weight; but what has come too rarely so far is helped along every other time. */
function draw(step: number): [string, () => Promise<unknown>] {
  const rare =
    counts.killed < step / 60
      ? ['the worker is killed']
      : counts.taken < step / 25
        ? ['offer', 'accept']
        : Math.min(counts.lapsed, counts.moved) >= step / 7
          ? []
          : counts.moved <= counts.lapsed
            ? ['approve', 'another day', 'the studio moves']
            : ['offer', 'the last moment of an offer'];
  const all = Object.entries(ACTS).filter(([name]) => rare.includes(name));
  const among = all.length > 0 && chance() < 0.8 ? all : Object.entries(ACTS);
  let at = chance() * among.reduce((sum, [, [weight]]) => sum + weight, 0);
  for (const [name, [weight, does]] of among) {
    at -= weight;
    if (at < 0) return [name, does];
  }
  throw new Error('Nothing was drawn.');
}

async function check(step: string): Promise<void> {
  const found = await placesHeld(watch);
  // A worker, whole or killed, may have let some lapse that the model still calls offered.
  const lapsed = new Set(
    people.filter((one) => one.state === 'offered' && found.get(one.sittingId)?.state !== 'offered'),
  );
  if (lapsed.size > 0) {
    expect(step).toMatch(/^the worker/);
    const before = people;
    people = people.map((one) => (lapsed.has(one) ? (lapse([one])[0] ?? one) : one));
    expect(people.filter((one) => !before.includes(one))).toHaveLength(lapsed.size);
  }
  for (const one of people) {
    const { state, start, unanswered } = one;
    const place = start === null ? [] : [start];
    expect([step, found.get(one.sittingId)]).toEqual([
      step,
      {
        sitting_id: one.sittingId,
        state,
        unanswered,
        firm: state === 'confirmed' ? place : [],
        tentative: state === 'offered' ? place : [],
        open: state === 'offered' ? 1 : 0,
        kept: state === 'offered' || state === 'confirmed',
      },
    ]);
  }
}

it('keeps everybody in one place or none, and honours offers exactly until they run out', async () => {
  for (let step = 0; step < STEPS; step++) {
    // what nobody stands for is drawn anew
    let [name, does] = draw(step);
    while ((await does()) === null) [name, does] = draw(step);
    await check(name);
  }
  expect(counts.lapsed).toBeGreaterThanOrEqual(STEPS / 10);
  expect(counts.moved).toBeGreaterThanOrEqual(STEPS / 10);
  expect(Math.min(counts.taken, counts.byStudio)).toBeGreaterThan(STEPS / 40);
  expect([counts.tooLate, counts.killed].every((one) => one > 0)).toBe(true);
  // In the end every offer is over, whatever became of the jobs.
  house.clock.forward({ hours: 24 * 20 });
  await offers().lapse(studio.id, people[0]?.sittingId ?? '');
  people = lapse(people);
  await check('the end');
  expect(people.some((one) => one.state === 'offered')).toBe(false);
}, 600_000);
