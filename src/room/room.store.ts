// SQL of the room: what occupies it when.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import type { KindYear } from './days.calc.js';
import { type Occupancy, occupancyRow, toOccupancy } from './occupancy.schemas.js';

export const OCCUPANCY_COLUMNS = `occupancy_id, resource, kind, held_for, holds, tentative, zone, wall_start, wall_end, starts_at, ends_at,
  upper(during) as busy_until, title, plates, kind_id, uid, sequence, revised_at, created_at`;

export class RoomStore {
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

  /**
   * What calendars show: all that lasts beyond the first instant and starts before the second, what was given up
   * lately included. With `heldFor`, only what is held for one of these.
   */
  async between(
    tx: Tx,
    from: Temporal.Instant,
    until: Temporal.Instant,
    cancelledSince: Temporal.Instant,
    heldFor: string[] | null = null,
  ): Promise<Occupancy[]> {
    const rows = await tx.thousands(
      occupancyRow,
      `select ${OCCUPANCY_COLUMNS} from occupancy
       where studio_id = $1 and ends_at > $2 and starts_at < $3 and (holds or revised_at >= $4)
         and ($5::uuid[] is null or held_for = any($5))
       order by starts_at, occupancy_id`,
      [tx.studioId, from, until, cancelledSince, heldFor],
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
         starts_at, ends_at, during, title, plates, kind_id, uid, sequence, revised_at, created_at, tentative)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, tstzrange($10, $12), $13, $14, $15, $16, $17, $18, $19,
         $20)
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
        one.plates,
        one.kindId,
        one.uid,
        one.sequence,
        one.revisedAt,
        one.createdAt,
        one.tentative,
      ],
    );
    if (taken === 0) throw new AppError('place_taken');
  }

  /** Makes an offered place firm, if it still has the room; calendars learn it by the next sequence. */
  async confirm(tx: Tx, id: string, at: Temporal.Instant): Promise<Occupancy | null> {
    const row = await tx.maybe(
      occupancyRow,
      `update occupancy set tentative = false, sequence = sequence + 1, revised_at = $3
       where studio_id = $1 and occupancy_id = $2 and holds returning ${OCCUPANCY_COLUMNS}`,
      [tx.studioId, id, at],
    );
    return row && toOccupancy(row);
  }

  /**
   * Gives a place that has no room the room at another time; calendars learn it by the next sequence.
   * @throws AppError place_taken where the exclusion constraint finds the room held
   */
  async move(tx: Tx, to: Occupancy, at: Temporal.Instant): Promise<Occupancy> {
    const row = await tx.one(
      occupancyRow,
      `update occupancy set holds = true, given_back = false, zone = $3, wall_start = $4, wall_end = $5, starts_at = $6, ends_at = $7,
         during = tstzrange($6, $8), sequence = sequence + 1, revised_at = $9
       where studio_id = $1 and occupancy_id = $2 and not holds returning ${OCCUPANCY_COLUMNS}`,
      [tx.studioId, to.id, to.zone, to.wallStart, to.wallEnd, to.startsAt, to.endsAt, to.busyUntil, at],
    );
    return toOccupancy(row);
  }

  /** Calendars show something else of the places that some have, by the next sequence. */
  async revise(tx: Tx, heldFor: string[], at: Temporal.Instant): Promise<void> {
    await tx.run(
      `update occupancy set sequence = sequence + 1, revised_at = $3
       where studio_id = $1 and held_for = any($2::uuid[]) and holds`,
      [tx.studioId, heldFor, at],
    );
  }

  /** The same of all sittings that are not over. */
  async reviseSittings(tx: Tx, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `update occupancy set sequence = sequence + 1, revised_at = $2
       where studio_id = $1 and kind = 'sitting' and holds and ends_at > $2`,
      [tx.studioId, at],
    );
  }

  /** Takes a place away for good, as if it had never been taken. */
  async remove(tx: Tx, id: string): Promise<void> {
    await tx.run('delete from occupancy where studio_id = $1 and occupancy_id = $2', [tx.studioId, id]);
  }

  /** Takes the room from a place, given back by whom it was for or not; calendars learn it by the next sequence. */
  async giveBack(tx: Tx, id: string, byThem: boolean, at: Temporal.Instant): Promise<Occupancy> {
    const row = await tx.one(
      occupancyRow,
      `update occupancy set holds = false, given_back = $3, sequence = sequence + 1, revised_at = $4
       where studio_id = $1 and occupancy_id = $2 returning ${OCCUPANCY_COLUMNS}`,
      [tx.studioId, id, byThem, at],
    );
    return toOccupancy(row);
  }

  /** Gives back the room that a closure has taken; calendars learn it by the next sequence. */
  async giveBackAll(tx: Tx, heldFor: string, at: Temporal.Instant): Promise<Occupancy[]> {
    const rows = await tx.many(
      occupancyRow,
      `update occupancy set holds = false, sequence = sequence + 1, revised_at = $3
       where studio_id = $1 and held_for = $2 and holds returning ${OCCUPANCY_COLUMNS}`,
      [tx.studioId, heldFor, at],
    );
    return rows.map(toOccupancy);
  }

  /** Sittings with a place by kind and calendar year, of some years; those of `without` are not counted. */
  async kindYears(tx: Tx, first: number, last: number, without: string[] = []): Promise<KindYear[]> {
    const rows = await tx.many(
      z.object({ kind_id: z.uuid(), year: z.number(), sittings: z.bigint() }),
      `select kind_id, extract(year from wall_start)::int as year, count(*) as sittings from occupancy
       where studio_id = $1 and holds and kind_id is not null
         and wall_start >= make_date($2, 1, 1) and wall_start < make_date($3 + 1, 1, 1)
         and held_for <> all($4::uuid[]) group by 1, 2`,
      [tx.studioId, first, last, without],
    );
    return rows.map((row) => ({ kindId: row.kind_id, year: row.year, sittings: Number(row.sittings) }));
  }

  /** Until the transaction ends nobody else counts what this key names: a day, or a kind's year. */
  async lockCount(tx: Tx, key: string): Promise<void> {
    await tx.run(`select pg_advisory_xact_lock(hashtextextended($1::text || ' ' || $2::text, 0))`, [
      tx.studioId,
      key,
    ]);
  }

  /** Sittings and plates that stand on a day of the wall. */
  async standingOn(tx: Tx, day: Temporal.PlainDate): Promise<{ sittings: number; plates: number }> {
    const row = await tx.one(
      z.object({ sittings: z.bigint(), plates: z.bigint() }),
      `select count(*) as sittings, coalesce(sum(plates), 0)::bigint as plates from occupancy
       where studio_id = $1 and holds and kind = 'sitting' and wall_start >= $2::date
         and wall_start < $2::date + interval '1 day'`,
      [tx.studioId, day],
    );
    return { sittings: Number(row.sittings), plates: Number(row.plates) };
  }
}
