// A studio's calendar of any length, entered by plain SQL: confirmed sittings of one plate, three a day from a date on.
import { Temporal } from 'temporal-polyfill';
import { wallToInstant } from '../../src/lib/zoned-time.js';
import { SystemRandom } from '../../src/platform/clock.js';
import type { TestHouse } from './house.js';
import { enterSittings } from './many-sittings.js';
import type { TestStudio } from './studio.js';

const HOURS = [10, 13, 16];

/** Enters so many on the days from `from` on; the last is on day count / 3. */
export async function fillCalendar(
  house: TestHouse,
  studio: TestStudio,
  from: Temporal.PlainDate,
  count: number,
): Promise<void> {
  const random = new SystemRandom();
  const entered = await enterSittings(house, studio, count);
  const rows = entered.map(({ sittingId }, at) => {
    const date = from.add({ days: Math.floor(at / HOURS.length) });
    const start = date.toPlainDateTime({ hour: HOURS[at % HOURS.length] ?? 0 });
    return { sittingId, id: random.id(), start, startsAt: instantOf(start) };
  });
  const column = <T>(of: (row: (typeof rows)[number]) => T) => rows.map(of);
  await house.db.inStudio(studio.id, async (tx) => {
    await tx.run(
      `insert into occupancy (studio_id, occupancy_id, resource, kind, held_for, holds, zone, wall_start, wall_end,
         starts_at, ends_at, during, plates, uid, revised_at, created_at)
       select $1, id, 'room', 'sitting', sitting, true, 'Europe/London', wall, wall + interval '75 minutes', at,
         at + interval '75 minutes', tstzrange(at, at + interval '105 minutes'), 1, id, $6, $6
       from unnest($2::uuid[], $3::uuid[], $4::timestamp[], $5::timestamptz[]) as o (id, sitting, wall, at)`,
      [
        tx.studioId,
        column(({ id }) => id),
        column(({ sittingId }) => sittingId),
        column(({ start }) => start.toString()),
        column(({ startsAt }) => startsAt.toString()),
        house.clock.now(),
      ],
    );
    await tx.run(
      `update sitting s set state = 'confirmed', occupancy_id = o.occupancy_id from occupancy o
       where s.studio_id = $1 and o.studio_id = $1 and o.held_for = s.sitting_id and s.state = 'requested'`,
      [tx.studioId],
    );
    await tx.run(
      `insert into sitter (studio_id, sitter_id, contact_id, name, position)
       select $1, gen_random_uuid(), s.contact_id, 'Linnea Harrow', 1 from sitting s
       where s.studio_id = $1 and not exists
         (select from sitter p where p.studio_id = s.studio_id and p.contact_id = s.contact_id)`,
      [tx.studioId],
    );
  });
  await house.db.inStudio(studio.id, (tx) =>
    tx.run('update studio set calendar_counter = calendar_counter + 1 where studio_id = $1', [tx.studioId]),
  );
}

function instantOf(wall: Temporal.PlainDateTime): Temporal.Instant {
  const answer = wallToInstant('Europe/London', wall, 'earlier');
  if (!answer.ok) throw new Error('No sitting is in a gap of the clock.');
  return answer.instant;
}
