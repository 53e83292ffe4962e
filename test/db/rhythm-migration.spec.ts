// A database from before the rhythm's breaks, kinds and closures: what it holds is carried over by 0006.
import { cpSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { migrate } from '../../src/platform/db/migrate.js';
import { createTestDatabase } from '../support/postgres.js';

const PRESENT = join(import.meta.dirname, '../../migrations');
const STUDIO = '00000000-0000-4000-8000-000000000001';
const id = (last: number) => `00000000-0000-4000-8000-00000000000${last}`;

const occupancy = (key: number, kind: string, from: string, until: string) => `
  insert into occupancy (studio_id, occupancy_id, resource, kind, held_for, holds, zone, wall_start, wall_end,
    starts_at, ends_at, during, title, uid, revised_at, created_at)
  values ('${STUDIO}', '${id(key)}', 'room', '${kind}', '${id(key)}', true, 'UTC', '${from}', '${until}',
    '${from}Z', '${until}Z', tstzrange('${from}Z', '${until}Z'), 'Roof', '${id(key)}', '2026-01-01Z', '2026-01-01Z');`;

it('keeps closures, counts the plates of places given, and leaves the rhythm open as it was', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'plateday-before-'));
  for (const file of readdirSync(PRESENT).filter((name) => name < '0006'))
    cpSync(join(PRESENT, file), join(folder, file));
  const database = await createTestDatabase({ migrated: false });
  const client = new pg.Client({ connectionString: database.url });
  await client.connect();
  try {
    await migrate(database.url, () => {}, folder);
    await client.query(`select set_config('app.studio_id', '${STUDIO}', false)`);
    await client.query(`
      insert into studio_directory values ('dunlin-shed', '${STUDIO}', true);
      insert into studio (studio_id, name, email, zone, latitude, longitude, window_kind, light_floor_degrees,
        reference_seconds, reference_altitude_degrees, exposure_cap_seconds, horizon_months, least_notice_days,
        reserve_quantity, created_at)
      values ('${STUDIO}', 'Dunlin Shed', 'd@dunlin.example', 'UTC', 50, 0, 'north window', 10, 6, 45, 20, 12, 3,
        'likely', '2026-01-01Z');
      insert into rhythm values ('${STUDIO}', '${id(2)}', 5, '{570}', 75, 25, 30, 4, '2026-01-01', null);
      insert into contact (studio_id, contact_id, name, reach_by, email, created_at)
      values ('${STUDIO}', '${id(3)}', 'Linnea Harrow', 'email', 'l@post.example', '2026-01-01Z');
      insert into plate_size (studio_id, plate_size_id, name, width_mm, height_mm, position, offered)
      values ('${STUDIO}', '${id(4)}', 'Half plate', 120, 165, 1, true);
      ${occupancy(5, 'sitting', '2027-04-09 09:30', '2027-04-09 10:45')}
      ${occupancy(6, 'closure', '2027-04-10 00:00', '2027-04-12 00:00')}
      insert into sitting (studio_id, sitting_id, contact_id, state, asked_at, days, occupancy_id)
      values ('${STUDIO}', '${id(7)}', '${id(3)}', 'confirmed', '2026-01-01Z', '{2027-04-09}', '${id(5)}');
      insert into plate select '${STUDIO}', gen_random_uuid(), '${id(7)}', n, '${id(4)}' from generate_series(1, 3) n;`);
    await migrate(database.url);
    const { rows } = await client.query(`select kind, plates from occupancy order by starts_at`);
    expect(rows).toEqual([
      { kind: 'sitting', plates: 3 },
      { kind: 'closure', plates: 0 },
    ]);
    const closures = await client.query(
      `select closure_id, title, wall_from::text, wall_until::text from closure`,
    );
    expect(closures.rows).toEqual([
      {
        closure_id: id(6),
        title: 'Roof',
        wall_from: '2027-04-10 00:00:00',
        wall_until: '2027-04-12 00:00:00',
      },
    ]);
    const rhythm = await client.query(`select held_back, breaks, most_sittings_with_helper from rhythm`);
    expect(rhythm.rows).toEqual([{ held_back: 0, breaks: [], most_sittings_with_helper: null }]);
  } finally {
    await client.end();
    await database.drop();
    rmSync(folder, { recursive: true });
  }
});
