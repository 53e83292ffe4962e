// What every sitting holds, read from the database itself: its places, its open offers, whether stock is set aside.
import type pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { wallToInstant } from '../../src/lib/zoned-time.js';

interface Row {
  sitting_id: string;
  state: string;
  unanswered: number;
  firm: string[];
  tentative: string[];
  open: number;
  kept: boolean;
}

/** How every sitting of a studio stands, by its id; the client has named the studio. */
export async function placesHeld(watch: pg.Client): Promise<Map<string, Row>> {
  const { rows: found } = await watch.query<Row>(
    `select s.sitting_id, s.state, s.offers_unanswered as unanswered,
       (select coalesce(array_agg(to_char(wall_start, 'YYYY-MM-DD"T"HH24:MI')), '{}') from occupancy o
        where o.held_for = s.sitting_id and o.holds and not o.tentative) as firm,
       (select coalesce(array_agg(to_char(wall_start, 'YYYY-MM-DD"T"HH24:MI')), '{}') from occupancy o
        where o.held_for = s.sitting_id and o.holds and o.tentative) as tentative,
       (select count(*)::int from offer f where f.for_id = s.sitting_id and f.answer is null) as open,
       exists (select from reservation r where r.held_for = s.sitting_id) as kept
     from sitting s`,
  );
  return new Map(found.map((row) => [row.sitting_id, row]));
}

/** The instant of a start such as "2027-04-02T09:30" on the wall of the test studio. */
export function instantOf(start: string): Temporal.Instant {
  const answer = wallToInstant('Europe/London', Temporal.PlainDateTime.from(start), 'earlier');
  if (!answer.ok) throw new Error(`${start} is skipped by the clocks.`);
  return answer.instant;
}
