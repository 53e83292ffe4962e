// SQL of sittings and their plates.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import {
  type Details,
  type Marks,
  type NamedPlate,
  type Plate,
  plateRow,
  type Sitting,
  sittingRow,
  toSitting,
} from './sittings.schemas.js';
import type { SittingState } from './states.calc.js';

/** What changes with the state of a sitting. */
export interface StateChange {
  at: Temporal.Instant;
  message?: string;
  /** Null: it has no place any more. */
  occupancyId?: string | null;
  offersUnanswered?: number;
  returnOwed?: boolean;
}

export class SittingsStore {
  async insert(tx: Tx, sitting: Sitting, plates: Plate[]): Promise<void> {
    const any = sitting.suits.kind === 'any' ? sitting.suits : null;
    await tx.run(
      `insert into sitting (studio_id, sitting_id, contact_id, state, asked_at, any_day_from, any_day_until, days,
         hopes, anything, kind_id, return_owed, return_of, access, brings, minor,
         guardian_name, guardian_relation, guardian_reach)
       values ($1, $2, $3, $4, $5, $6, $7, $8::date[], $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19)`,
      [
        tx.studioId,
        sitting.id,
        sitting.contactId,
        sitting.state,
        sitting.askedAt,
        any?.from ?? null,
        any?.until ?? null,
        sitting.suits.kind === 'these' ? sitting.suits.days : [],
        sitting.hopes,
        sitting.anything,
        sitting.kindId,
        sitting.returnOwed,
        sitting.returnOf,
        ...detailColumns(sitting.details),
      ],
    );
    await tx.run(
      `insert into plate (studio_id, plate_id, sitting_id, position, plate_size_id)
       select $1, id, $2, place, size from unnest($3::uuid[], $4::uuid[]) with ordinality as p (id, size, place)`,
      [tx.studioId, sitting.id, plates.map((one) => one.id), plates.map((one) => one.plateSizeId)],
    );
    const onPlates = plates.flatMap((one) => one.sitterIds.map((sitterId) => [one.id, sitterId] as const));
    await tx.run(
      `insert into plate_sitter (studio_id, plate_id, sitter_id)
       select $1, plate, sitter from unnest($2::uuid[], $3::uuid[]) as on_plate (plate, sitter)`,
      [tx.studioId, onPlates.map(([plate]) => plate), onPlates.map(([, sitter]) => sitter)],
    );
  }

  /** The sitting, or null; with `lock` nobody else decides about it until the transaction ends. */
  async byId(tx: Tx, id: string, lock: boolean): Promise<Sitting | null> {
    const sql = `select * from sitting where studio_id = $1 and sitting_id = $2 ${lock ? 'for no key update' : ''}`;
    const row = await tx.maybe(sittingRow, sql, [tx.studioId, id]);
    return row && toSitting(row);
  }

  /** Some sittings, locked in the order of their ids, so that two who lock several never wait in a ring. */
  async lockAll(tx: Tx, ids: string[]): Promise<Map<string, Sitting>> {
    const rows = await tx.many(
      sittingRow,
      `select * from sitting where studio_id = $1 and sitting_id = any($2::uuid[])
       order by sitting_id for no key update`,
      [tx.studioId, ids],
    );
    return new Map(rows.map((row) => [row.sitting_id, toSitting(row)]));
  }

  async byIds(tx: Tx, ids: string[]): Promise<Sitting[]> {
    const sql = 'select * from sitting where studio_id = $1 and sitting_id = any($2::uuid[])';
    return (await tx.many(sittingRow, sql, [tx.studioId, ids])).map(toSitting);
  }

  async inStates(
    tx: Tx,
    states: SittingState[],
    confirmedUntilAfter: Temporal.Instant | null = null,
  ): Promise<Sitting[]> {
    const rows = await tx.many(
      sittingRow,
      `select * from sitting s where studio_id = $1 and state = any($2::text[])
         and ($3::timestamptz is null or state <> 'confirmed' or exists (select from occupancy o
           where o.studio_id = s.studio_id and o.occupancy_id = s.occupancy_id and o.ends_at > $3))
       order by asked_at, sitting_id`,
      [tx.studioId, states, confirmedUntilAfter],
    );
    return rows.map(toSitting);
  }

  /** How many there are in a state. */
  async countIn(tx: Tx, state: SittingState): Promise<number> {
    const sql = 'select count(*)::int as count from sitting where studio_id = $1 and state = $2';
    return (await tx.one(z.object({ count: z.number() }), sql, [tx.studioId, state])).count;
  }

  /** Whether any sitting was ever given a place. */
  async anyConfirmed(tx: Tx): Promise<boolean> {
    const row = await tx.one(
      z.object({ found: z.boolean() }),
      'select exists (select 1 from sitting where studio_id = $1 and occupancy_id is not null) as found',
      [tx.studioId],
    );
    return row.found;
  }

  /** The ids of all that a contact ever asked for. */
  async idsOf(tx: Tx, contactId: string): Promise<string[]> {
    const rows = await tx.many(
      z.object({ sitting_id: z.uuid() }),
      'select sitting_id from sitting where studio_id = $1 and contact_id = $2',
      [tx.studioId, contactId],
    );
    return rows.map((row) => row.sitting_id);
  }

  /** The sittings that have or had some occupancies, by occupancy id. */
  async byOccupancies(tx: Tx, occupancyIds: string[]): Promise<Map<string, Sitting>> {
    const rows = await tx.many(
      sittingRow.extend({ behind: z.uuid() }),
      `select s.*, o.occupancy_id as behind from occupancy o
       join sitting s on s.studio_id = o.studio_id and s.sitting_id = o.held_for
       where o.studio_id = $1 and o.occupancy_id = any($2::uuid[])`,
      [tx.studioId, occupancyIds],
    );
    return new Map(rows.map((row) => [row.behind, toSitting(row)]));
  }

  async plates(tx: Tx, sittingIds: string[]): Promise<Map<string, NamedPlate[]>> {
    const rows = await tx.many(
      plateRow,
      `select p.plate_id, p.sitting_id, p.plate_size_id, z.name as size_name,
         (select coalesce(array_agg(s.sitter_id::text), '{}') from plate_sitter s
          where s.studio_id = p.studio_id and s.plate_id = p.plate_id) as sitter_ids
       from plate p join plate_size z on z.studio_id = p.studio_id and z.plate_size_id = p.plate_size_id
       where p.studio_id = $1 and p.sitting_id = any($2::uuid[]) order by p.sitting_id, p.position`,
      [tx.studioId, sittingIds],
    );
    const bySitting = new Map<string, NamedPlate[]>(sittingIds.map((id) => [id, []]));
    for (const row of rows)
      bySitting.get(row.sitting_id)?.push({
        id: row.plate_id,
        plateSizeId: row.plate_size_id,
        sizeName: row.size_name,
        sitterIds: row.sitter_ids,
      });
    return bySitting;
  }

  /**
   * Moves a sitting from one state to the next and counts the turn; null when it was no longer in the first.
   * What is not said of the change stays as it was.
   * @returns the turns it has taken with this one
   */
  async setState(
    tx: Tx,
    id: string,
    from: SittingState,
    to: SittingState,
    change: StateChange,
  ): Promise<number | null> {
    const row = await tx.maybe(
      z.object({ turns: z.number() }),
      `update sitting set state = $4, decided_at = $5, message = coalesce($6, message), turns = turns + 1,
         occupancy_id = case when $7 then $8::uuid else occupancy_id end,
         offers_unanswered = coalesce($9, offers_unanswered), return_owed = coalesce($10, return_owed)
       where studio_id = $1 and sitting_id = $2 and state = $3 returning turns`,
      [
        tx.studioId,
        id,
        from,
        to,
        change.at,
        change.message ?? null,
        change.occupancyId !== undefined,
        change.occupancyId ?? null,
        change.offersUnanswered ?? null,
        change.returnOwed ?? null,
      ],
    );
    return row?.turns ?? null;
  }

  /** With their plates. */
  async remove(tx: Tx, ids: string[]): Promise<void> {
    const sql = 'delete from sitting where studio_id = $1 and sitting_id = any($2::uuid[])';
    await tx.run(sql, [tx.studioId, ids]);
  }

  /** Those of some that stand in a plan, or for which a wish is noted. */
  async spokenOf(tx: Tx, ids: string[]): Promise<Set<string>> {
    const rows = await tx.many(
      z.object({ sitting_id: z.uuid() }),
      `select sitting_id from plan_entry where studio_id = $1 and sitting_id = any($2::uuid[])
       union select sitting_id from plan_wish where studio_id = $1 and sitting_id = any($2::uuid[])`,
      [tx.studioId, ids],
    );
    return new Set(rows.map((row) => row.sitting_id));
  }

  async setMarks(tx: Tx, id: string, marks: Marks): Promise<void> {
    await tx.run(
      `update sitting set priority_reason = $3, hardship_reason = $4, notice_days = $5
       where studio_id = $1 and sitting_id = $2`,
      [tx.studioId, id, marks.priority, marks.hardship, marks.noticeDays],
    );
  }
  async setDetails(tx: Tx, id: string, details: Details): Promise<void> {
    await tx.run(
      `update sitting set access = $3, brings = $4, minor = $5, guardian_name = $6, guardian_relation = $7,
         guardian_reach = $8
       where studio_id = $1 and sitting_id = $2`,
      [tx.studioId, id, ...detailColumns(details)],
    );
  }
}

/** access, brings, minor, and the guardian's name, relation and reach. */
function detailColumns({ access, brings, minor, guardian }: Details) {
  return [access, brings, minor, guardian?.name ?? '', guardian?.relation ?? '', guardian?.reach ?? ''];
}
