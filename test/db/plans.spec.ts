// Plans for the waiting list, from the proposal to what became of each: nothing is given and nobody told before the
// owner confirms, each person all or nothing, and what went meanwhile is told.
import { afterAll, beforeAll, beforeEach, expect, it } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { ListService } from '../../src/sittings/list.service.js';
import { OffersService } from '../../src/sittings/offers.service.js';
import { type PlansService as Plans, PlansService } from '../../src/sittings/plans.service.js';
import { SittingViews } from '../../src/sittings/views.service.js';
import { DEFAULT_WEIGHTS } from '../../src/waiting/planner-points.calc.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, type Asking, askForSitting, foundTestStudio, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studio: TestStudio;
let plans: Plans;
let count = 0;

beforeAll(async () => {
  house = await openTestHouse();
  plans = house.app.get(PlansService);
});
beforeEach(async () => {
  house.clock.set('2026-11-25T10:00:00Z');
  studio = await foundTestStudio(house, { slug: `plan-${++count}`, email: `desk-${count}@plan.example` });
  house.mail.sent.splice(0);
});
afterAll(() => house.close());

const APRIL = { kind: 'any', from: '2027-04-01', until: '2027-04-30' } as const;
const ONE_DAY = { kind: 'these' as const, days: ['2027-04-02'] };

async function waiter(asking: Asking = {}) {
  const one = await askForSitting(house, studio, { suits: APRIL, ...asking });
  await house.app.get(ListService).wait(studio.id, studio.owner, one.sittingId);
  house.clock.forward({ minutes: 1 });
  return one.sittingId;
}
const propose = () => plans.propose(studio.id, studio.owner, DEFAULT_WEIGHTS);
const whole = (id: string) => plans.whole(studio.id, id);
const confirm = (id: string, people: string[], gives: 'offer' | 'place' = 'place') =>
  plans.confirm(studio.id, studio.owner, id, { gives, people });
const view = (sittingId: string) =>
  house.db.inStudio(studio.id, (tx) =>
    house.app.get(SittingViews).byId(tx, { lat: 54.49, lon: -0.61 } as never, sittingId),
  );
const startOf = async (id: string, sittingId: string) =>
  (await whole(id)).entries.find((one) => one.sittingId === sittingId)?.wallStart?.toString() ?? '';

it('proposes a place for everybody whom one fits, proven best, and touches nothing before the yes', async () => {
  const people = [
    await waiter(),
    await waiter(),
    await waiter({ suits: { kind: 'these', days: ['2027-04-03'] } }),
  ];
  await house.work();
  house.mail.sent.splice(0);
  const id = await propose();
  const { plan, entries } = await whole(id);
  expect(plan).toMatchObject({ state: 'proposed', points: plan.bound, weights: DEFAULT_WEIGHTS });
  expect(entries.map((one) => one.sittingId)).toEqual(people);
  expect(entries.map((one) => one.wallStart !== null)).toEqual([true, true, false]);
  expect(entries[2]?.leftOut).toMatchObject({ why: 'no day suits', by: [] });
  const starts = entries.flatMap((one) => one.wallStart?.toString() ?? []);
  expect(new Set(starts).size).toBe(2);
  // an empty day costs points, so the two have one day
  expect(new Set(starts.map((one) => one.slice(0, 10))).size).toBe(1);
  await house.work();
  expect(house.mail.sent).toEqual([]);
  expect((await view(people[0] ?? '')).sitting.state).toBe('waiting');
});

it('gives those who stay in it their places, tells them, and keeps the others waiting', async () => {
  const [one, two] = [await waiter(), await waiter()];
  const id = await propose();
  const start = await startOf(id, one);
  await confirm(id, [one]);
  expect(await view(one)).toMatchObject({ sitting: { state: 'confirmed' } });
  expect((await view(one)).place?.wallStart.toString()).toBe(start);
  expect((await view(two)).sitting.state).toBe('waiting');
  const { plan, entries } = await whole(id);
  expect(plan).toMatchObject({ state: 'confirmed', gives: 'place' });
  expect(entries.map(({ ticked, outcome }) => ({ ticked, outcome }))).toEqual([
    { ticked: true, outcome: 'given' },
    { ticked: false, outcome: '' },
  ]);
});

it('offers the places where the owner wants to ask first', async () => {
  const one = await waiter();
  const id = await propose();
  await confirm(id, [one], 'offer');
  expect((await view(one)).sitting.state).toBe('offered');
  await house.work();
  expect(house.mail.sent.some(({ text }) => text.includes('offer'))).toBe(true);
});

it('tells for each who could not be given a place that went meanwhile, and gives the others theirs', async () => {
  const [one, two] = [await waiter(), await waiter()];
  const id = await propose();
  const faster = await askForSitting(house, studio, { suits: APRIL });
  await approve(house, studio, faster.sittingId, await startOf(id, one));
  await confirm(id, [one, two]);
  const { entries } = await whole(id);
  expect(entries[0]?.outcome).toMatch(/place|taken/i);
  expect(entries[0]?.outcome).not.toBe('given');
  expect(entries[1]?.outcome).toBe('given');
  expect((await view(one)).sitting).toMatchObject({ state: 'waiting', occupancyId: null });
  expect((await view(two)).sitting.state).toBe('confirmed');
});

it('confirmed twice at once, and again later, gives each place once', async () => {
  const people = [await waiter(), await waiter(), await waiter()];
  const id = await propose();
  await Promise.all([confirm(id, people), confirm(id, people)]);
  await confirm(id, people);
  for (const one of people) {
    const { sitting } = await view(one);
    expect(sitting).toMatchObject({ state: 'confirmed', turns: 2 });
  }
  expect((await whole(id)).entries.map(({ outcome }) => outcome)).toEqual(['given', 'given', 'given']);
});

it('goes on where a confirmation was cut off between a place and the note of it', async () => {
  const one = await waiter();
  const id = await propose();
  await confirm(id, [one]);
  await house.db.inStudio(studio.id, (tx) =>
    tx.run(`update plan_entry set outcome = '' where studio_id = $1`, [tx.studioId]),
  );
  await confirm(id, [one]);
  expect((await whole(id)).entries[0]?.outcome).toBe('given');
  expect((await view(one)).sitting.turns).toBe(2);
});

it('is put away once, never after it was confirmed, and a new plan puts the old one away', async () => {
  const one = await waiter();
  const [first, second] = [await propose(), await propose()];
  expect((await whole(first)).plan.state).toBe('dropped');
  await plans.drop(studio.id, first);
  await expect(confirm(first, [one])).rejects.toMatchObject({ code: 'wrong_state' });
  await confirm(second, [one]);
  await expect(plans.drop(studio.id, second)).rejects.toMatchObject({ code: 'wrong_state' });
  await expect(whole(one)).rejects.toMatchObject({ code: 'not_found' });
});

it('passes by a place that somebody said no to', async () => {
  const one = await waiter({ suits: ONE_DAY });
  const offers = house.app.get(OffersService);
  const start = Temporal.PlainDateTime.from(await startOf(await propose(), one));
  await offers.make(studio.id, studio.owner, one, start);
  await offers.refuse(studio.id, { who: studio.owner, sittingId: one });
  expect(await startOf(await propose(), one)).not.toBe(start.toString());
});

it('does not use the last sheet twice, where no more can come in time, and says who has it', async () => {
  house.clock.set('2027-04-05T10:00:00Z');
  studio = await foundTestStudio(house, {
    slug: `plan-short-${count}`,
    email: `short-${count}@plan.example`,
    shelf: { wholeGlass: 1n },
  });
  const soon = { kind: 'any', from: '2027-04-16', until: '2027-04-23' } as const;
  const [first, second] = [await waiter({ suits: soon }), await waiter({ suits: soon })];
  const id = await propose();
  const { entries } = await whole(id);
  expect(entries[0]).toMatchObject({ sittingId: first, leftOut: null });
  const item = studio.items.wholeGlass.id;
  expect(entries[1]).toMatchObject({ sittingId: second, leftOut: { why: 'stock short', by: [first], item } });
  await confirm(id, [first]);
  expect((await whole(id)).entries[0]?.outcome).toBe('given');
});

it('does not plan somebody for the very place they gave back', async () => {
  const one = await waiter({ suits: ONE_DAY });
  const firstPlace = async () => startOf(await propose(), one);
  const start = await firstPlace();
  await approve(house, studio, one, start);
  await house.app.get(OffersService).askAnotherDay(studio.id, { who: studio.owner, sittingId: one });
  const next = await firstPlace();
  expect([start.slice(0, 10), next.slice(0, 10)]).toEqual(['2027-04-02', '2027-04-02']);
  expect(next).not.toBe(start);
});

it('plans a place only where an offer of it could be answered and leave the notice they need, to the hour', async () => {
  const one = await waiter({ suits: ONE_DAY });
  const needs = (noticeDays: string) =>
    house.app.get(ListService).mark(studio.id, studio.owner, one, { priority: '', hardship: '', noticeDays });
  const why = async () => {
    const [entry] = (await whole(await propose())).entries;
    return entry?.leftOut?.why ?? entry?.wallStart?.toString().slice(0, 10);
  };
  await needs('128'); // 2 April is 128 days ahead
  house.clock.set('2026-11-25T18:00:00Z'); // later in the day than all starts of 2 April
  expect(await why()).toBe('notice too long');
  house.clock.set('2026-11-25T11:00:00Z'); // offers end at 18:00, and from the last start, 14:45, notice would be short
  expect(await why()).toBe('no time to answer');
  await needs('127');
  expect(await why()).toBe('2027-04-02');
});
