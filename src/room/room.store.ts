// SQL of the room: the rhythm, and what occupies the room when.
import type { Temporal } from 'temporal-polyfill';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import {
  type Occupancy,
  occupancyRow,
  type Rhythm,
  rhythmRow,
  toOccupancy,
  toRhythm,
} from './occupancy.schemas.js';

export const OCCUPANCY_COLUMNS = `occupancy_id, resource, kind, held_for, holds, zone, wall_start, wall_end, starts_at, ends_at,
  upper(during) as busy_until, title, uid, sequence, revised_at, created_at`;

export class RoomStore {
  async rhythms(tx: Tx): Promise<Rhythm[]> {
    const sql = 'select * from rhythm where studio_id = $1 order by weekday, effective_from, rhythm_id';
    return (await tx.many(rhythmRow, sql, [tx.studioId])).map(toRhythm);
  }

  async insertRhythm(tx: Tx, rhythm: Rhythm): Promise<void> {
    await tx.run(
      `insert into rhythm (studio_id, rhythm_id, weekday, starts, first_plate_minutes, further_plate_minutes,
         changeover_minutes, most_sittings, effective_from, effective_until)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
      [
        tx.studioId,
        rhythm.id,
        rhythm.weekday,
        rhythm.starts,
        rhythm.firstPlateMinutes,
        rhythm.furtherPlateMinutes,
        rhythm.changeoverMinutes,
        rhythm.mostSittings,
        rhythm.effectiveFrom,
        rhythm.effectiveUntil,
      ],
    );
  }

  /** What holds the room at any time between two instants, in order of time. */
  async holding(tx: Tx, from: Temporal.Instant, until: Temporal.Instant): Promise<Occupancy[]> {
    const rows = await tx.many(
      occupancyRow,
      `select ${OCCUPANCY_COLUMNS} from occupancy
       where studio_id = $1 and resource = 'room' and holds and during && tstzrange($2, $3) order by starts_at`,
      [tx.studioId, from, until],
    );
    return rows.map(toOccupancy);
  }

  /** What calendars show: all that starts between two instants, what was given up lately included. */
  async between(
    tx: Tx,
    from: Temporal.Instant,
    until: Temporal.Instant,
    cancelledSince: Temporal.Instant,
  ): Promise<Occupancy[]> {
    const rows = await tx.many(
      occupancyRow,
      `select ${OCCUPANCY_COLUMNS} from occupancy
       where studio_id = $1 and starts_at >= $2 and starts_at < $3 and (holds or revised_at >= $4)
       order by starts_at, occupancy_id`,
      [tx.studioId, from, until, cancelledSince],
    );
    return rows.map(toOccupancy);
  }

  async byIds(tx: Tx, ids: string[]): Promise<Occupancy[]> {
    const rows = await tx.many(
      occupancyRow,
      `select ${OCCUPANCY_COLUMNS} from occupancy where studio_id = $1 and occupancy_id = any($2::uuid[])`,
      [tx.studioId, ids],
    );
    return rows.map(toOccupancy);
  }

  /**
   * Takes the room. `on conflict` makes two takers of one place wait for each other in turn; a plain insert
   * would let both look at once, and PostgreSQL would have to break the deadlock.
   * @throws AppError place_taken where the exclusion constraint finds the room held
   */
  async insert(tx: Tx, one: Occupancy): Promise<void> {
    const taken = await tx.run(
      `insert into occupancy (studio_id, occupancy_id, resource, kind, held_for, holds, zone, wall_start, wall_end,
         starts_at, ends_at, during, title, uid, sequence, revised_at, created_at)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, tstzrange($10, $12), $13, $14, $15, $16, $17)
       on conflict do nothing`,
      [
        tx.studioId,
        one.id,
        one.resource,
        one.kind,
        one.heldFor,
        one.holds,
        one.zone,
        one.wallStart,
        one.wallEnd,
        one.startsAt,
        one.endsAt,
        one.busyUntil,
        one.title,
        one.uid,
        one.sequence,
        one.revisedAt,
        one.createdAt,
      ],
    );
    if (taken === 0) throw new AppError('place_taken');
  }

  /** Gives the room back; calendars learn it by the next sequence. */
  async giveBack(tx: Tx, id: string, at: Temporal.Instant): Promise<Occupancy> {
    const row = await tx.one(
      occupancyRow,
      `update occupancy set holds = false, sequence = sequence + 1, revised_at = $3
       where studio_id = $1 and occupancy_id = $2 and holds returning ${OCCUPANCY_COLUMNS}`,
      [tx.studioId, id, at],
    );
    return toOccupancy(row);
  }
}
