// The night's work on a stopped clock: what is too old goes, what may still be used stays, and the next night is seen to.
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { AccountsService } from '../../src/accounts/accounts.service.js';
import { beginNights, nextNight } from '../../src/platform/jobs/night.js';
import { Jobs } from '../../src/platform/jobs/registry.js';
import { SittingViews } from '../../src/sittings/views.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { approve, askForSitting, foundTestStudio, openStarts, type TestStudio } from '../support/studio.js';

let house: TestHouse;
let studios: TestStudio[];
let superuser: pg.Client;

beforeAll(async () => {
  house = await openTestHouse({ now: '2026-11-25T10:00:00Z' });
  studios = [await foundTestStudio(house), await foundTestStudio(house, { slug: 'curlew-shed' })];
  superuser = new pg.Client({ connectionString: house.database.adminUrl });
  await superuser.connect();
});
afterAll(async () => {
  await superuser.end();
  await house.close();
});

const countOf = async (table: string, which: string) =>
  Number((await superuser.query(`select count(*) from ${table} where ${which}`)).rows[0].count);
const links = () => countOf('link', `purpose = 'sign-in'`);
const answers = () => countOf('idempotency', 'true');
const nights = async () =>
  (
    await superuser.query<{ run_at: Date }>(
      `select run_at from graphile_worker._private_jobs j join graphile_worker._private_tasks t on t.id = j.task_id
       where t.identifier = 'night'`,
    )
  ).rows.map((row) => row.run_at.toISOString());

it('begins at the next three o’clock in UTC', () => {
  const from = (text: string) => nextNight(Temporal.Instant.from(text)).toString();
  expect(from('2026-11-25T10:00:00Z')).toBe('2026-11-26T03:00:00Z');
  expect(from('2026-11-26T02:59:59.999Z')).toBe('2026-11-26T03:00:00Z');
  expect(from('2026-11-26T03:00:00Z')).toBe('2026-11-27T03:00:00Z');
  expect(from('1969-12-31T02:00:00Z')).toBe('1969-12-31T03:00:00Z');
});

describe('Every night', () => {
  it('each studio forgets what is too old for anybody, and no more', async () => {
    for (const studio of studios) {
      await askForSitting(house, studio);
      await house.app.get(AccountsService).askForLink(studio.id, studio.owner.email);
    }
    await house.work();
    expect([await links(), await answers()]).toEqual([2, 2]);
    const begin = () => beginNights(house.db, house.app.get(Jobs), house.clock);
    await begin();
    await begin(); // a second worker starts
    expect(await nights()).toEqual(['2026-11-26T03:00:00.000Z', '2026-11-26T03:00:00.000Z']);

    const until = async (time: string) => {
      house.clock.set(time);
      await house.work();
      return { links: await links(), answers: await answers() };
    };
    expect(await until('2026-11-26T03:00:00Z')).toEqual({ links: 2, answers: 2 });
    expect(await nights()).toEqual(['2026-11-27T03:00:00.000Z', '2026-11-27T03:00:00.000Z']);
    expect(await until('2026-12-02T03:00:00Z')).toEqual({ links: 2, answers: 2 });
    expect(await until('2026-12-03T03:00:00Z')).toEqual({ links: 0, answers: 2 });
    expect(await until('2026-12-25T03:00:00Z')).toEqual({ links: 0, answers: 2 });
    expect(await until('2026-12-26T03:00:00Z')).toEqual({ links: 0, answers: 0 });
    expect(await countOf('link', `purpose in ('place', 'feed')`)).toBeGreaterThan(2);
    expect(await nights()).toEqual(['2026-12-27T03:00:00.000Z', '2026-12-27T03:00:00.000Z']);
  });
});

describe('Lists of what is to come', () => {
  it('load a confirmed sitting until it is over, and not for ever', async () => {
    const [studio] = studios;
    if (!studio) throw new Error('There is a studio.');
    const { sittingId } = await askForSitting(house, studio, { name: 'Corin Ashby' });
    const [start = ''] = await openStarts(house, studio, { from: '2027-03-05', until: '2027-03-05' });
    await approve(house, studio, sittingId, start);
    const listed = async (now: string | null) => {
      const at = now === null ? null : Temporal.Instant.from(now);
      const { views } = await house.app.get(SittingViews).list(studio.id, ['requested', 'confirmed'], at);
      return views.map(({ sitting }) => sitting.state);
    };
    expect(start).toBe('2027-03-05T09:30');
    expect(await listed('2027-03-05T10:44:59Z')).toEqual(['requested', 'confirmed']);
    expect(await listed('2027-03-05T10:45:00Z')).toEqual(['requested']);
    expect(await listed(null)).toEqual(['requested', 'confirmed']);
    await superuser.query('update occupancy set holds = false where held_for = $1', [sittingId]);
    expect(await listed('2027-03-05T10:00:00Z')).toEqual(['requested', 'confirmed']); // it waits to be moved
  });
});
