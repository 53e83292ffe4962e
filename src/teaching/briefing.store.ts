// SQL of what is filled in for the sheets of teaching days.
import type { Temporal } from 'temporal-polyfill';
import type { Tx } from '../platform/db/tx.js';
import { type Briefing, briefingRow, toBriefing } from './briefing.schemas.js';

export class BriefingStore {
  async of(tx: Tx, sessionId: string): Promise<Briefing | null> {
    const sql = 'select * from briefing where studio_id = $1 and session_id = $2';
    const row = await tx.maybe(briefingRow, sql, [tx.studioId, sessionId]);
    return row && toBriefing(row);
  }

  /** What was filled in last, for whichever day. */
  async latest(tx: Tx): Promise<Briefing | null> {
    const sql = 'select * from briefing where studio_id = $1 order by saved_at desc, session_id limit 1';
    const row = await tx.maybe(briefingRow, sql, [tx.studioId]);
    return row && toBriefing(row);
  }

  async save(tx: Tx, sessionId: string, one: Briefing, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `insert into briefing (studio_id, session_id, emergency_number, hospital, eyewash, teacher, youngest, saved_at)
       values ($1, $2, $3, $4, $5, $6, $7, $8)
       on conflict (studio_id, session_id) do update set emergency_number = excluded.emergency_number,
         hospital = excluded.hospital, eyewash = excluded.eyewash, teacher = excluded.teacher,
         youngest = excluded.youngest, saved_at = excluded.saved_at`,
      [tx.studioId, sessionId, one.emergencyNumber, one.hospital, one.eyewash, one.teacher, one.youngest, at],
    );
  }
}
