// Which places come free for the list: those that people give back or do not take, not those the studio called off.
import { cpSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from '@jest/globals';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { Db } from '../../src/platform/db/db.js';
import { migrate } from '../../src/platform/db/migrate.js';
import { MovingService } from '../../src/sittings/moving.service.js';
import { RequestsService } from '../../src/sittings/requests.service.js';
import { WaitingService } from '../../src/waiting/waiting.service.js';
import { openTestHouse, type TestHouse } from '../support/house.js';
import { createTestDatabase } from '../support/postgres.js';
import { approve, askForSitting, foundTestStudio } from '../support/studio.js';

const STORM = { reason: 'storm', words: '' } as const;

let house: TestHouse;
beforeAll(async () => {
  house = await openTestHouse();
  house.clock.set('2026-11-25T10:00:00Z');
});
afterAll(() => house.close());

it('are the ones given back; what the studio calls off is neither free nor counted as given back', async () => {
  const studio = await foundTestStudio(house, { slug: 'given-back', email: 'given-back@post.example' });
  const [waiting, moving] = [house.app.get(WaitingService), house.app.get(MovingService)];
  const seen = () =>
    house.app.get(Db).inStudio(studio.id, async (tx) => ({
      free: (await waiting.freed(tx)).map(({ wallStart }) => String(wallStart)),
      ...(await waiting.experience(tx)),
      passedOver: (await waiting.passedOver(tx)).size,
    }));
  const placed = async (start: string) => {
    const one = await askForSitting(house, studio, {});
    await approve(house, studio, one.sittingId, start);
    return one;
  };
  const callOff = (sittingId: string, from: string, again: boolean) =>
    moving.callOff(studio.id, studio.owner, sittingId, Temporal.PlainDateTime.from(from), {
      why: STORM,
      again,
    });

  const [first, second] = ['2027-04-02T09:30', '2027-04-02T11:15'];
  await callOff((await placed(first)).sittingId, first, true);
  await callOff((await placed(second)).sittingId, second, false);
  expect(await seen()).toMatchObject({ free: [], placesGiven: 2, placesGivenBack: 0, passedOver: 0 });

  await house.app.get(RequestsService).giveUp(studio.id, (await placed('2027-04-09T09:30')).token);
  const given = { free: ['2027-04-09T09:30:00'], placesGiven: 3, placesGivenBack: 1, passedOver: 1 };
  expect(await seen()).toMatchObject(given);
});

it('are told from what was called off in a database from before', async () => {
  const present = join(import.meta.dirname, '../../migrations');
  const folder = mkdtempSync(join(tmpdir(), 'plateday-given-back-'));
  for (const file of readdirSync(present).filter((name) => name < '0021'))
    cpSync(join(present, file), join(folder, file));
  const database = await createTestDatabase({ migrated: false });
  const client = new pg.Client({ connectionString: database.url });
  await client.connect();
  const id = (last: number) => `00000000-0000-4000-8000-00000000000${last}`;
  const place = (key: number, holds: boolean) => `
    insert into occupancy (studio_id, occupancy_id, resource, kind, held_for, holds, zone, wall_start, wall_end,
      starts_at, ends_at, during, uid, revised_at, created_at)
    values ('${id(1)}', '${id(key)}', 'room', 'sitting', '${id(key)}', ${holds}, 'UTC', '2027-04-09', '2027-04-10',
      '2027-04-09Z', '2027-04-10Z', '[2027-04-09Z,2027-04-10Z)', '${id(key)}', '2026-01-02Z', '2026-01-01Z');`;
  try {
    await migrate(database.url, () => {}, folder);
    await client.query(`select set_config('app.studio_id', '${id(1)}', false)`);
    await client.query(`
      insert into studio_directory values ('dunlin-shed', '${id(1)}', true);
      insert into studio (studio_id, name, email, zone, latitude, longitude, window_kind, light_floor_degrees,
        reference_seconds, reference_altitude_degrees, exposure_cap_seconds, horizon_months, least_notice_days,
        reserve_quantity, created_at)
      values ('${id(1)}', 'Dunlin Shed', 'd@dunlin.example', 'UTC', 50, 0, 'north window', 10, 6, 45, 20, 12, 3,
        'likely', '2026-01-01Z');
      ${place(2, true)} ${place(3, false)} ${place(4, false)} ${place(5, false)}
      insert into history (studio_id, at, who, about_kind, about_id, event)
      values ('${id(1)}', '2026-01-02 00:00:00.2Z', 'Etta', 'sitting', '${id(4)}', 'call_off');
      insert into offer (studio_id, offer_id, for_id, occupancy_id, made_at, expires_at, who, answer, answered_at)
      values ('${id(1)}', '${id(6)}', '${id(5)}', '${id(5)}', '2026-01-01Z', '2026-01-09Z', 'Etta', 'called off',
        '2026-01-02Z');`);
    await migrate(database.url);
    const { rows } = await client.query('select occupancy_id as id from occupancy where given_back');
    expect(rows).toEqual([{ id: id(3) }]);
  } finally {
    await client.end();
    await database.drop();
    rmSync(folder, { recursive: true });
  }
});
