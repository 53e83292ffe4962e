// SQL of the room's rules. They are read as one row, and saved as the difference of two states.
import type { Tx } from '../platform/db/tx.js';
import type { Attendance } from './attendance.calc.js';
import type { PoseLimits } from './pose.calc.js';
import { type Closure, type Kind, type Rhythm, type RoomRules, rulesRow, toRules } from './rules.schemas.js';

const ALL = (table: string, order: string) =>
  `(select coalesce(jsonb_agg(to_jsonb(t) order by ${order}), '[]') from ${table} t where t.studio_id = $1)`;

export class RulesStore {
  async load(tx: Tx): Promise<RoomRules> {
    const row = await tx.one(
      rulesRow,
      `select ${ALL('rhythm', 't.weekday, t.effective_from, t.rhythm_id')} as rhythms,
         ${ALL('attendance', 't.who')} as attendance,
         ${ALL('sitting_kind', 't.position, t.kind_id')} as kinds,
         ${ALL('closure', 't.wall_from, t.closure_id')} as closures,
         ${ALL('pose_limits', 't.studio_id')} as limits,
         (select coalesce(jsonb_agg(jsonb_build_object('calendar_id', t.calendar_id, 'blocking', t.blocking)
             order by t.calendar_id), '[]')
           from outside_calendar t where t.studio_id = $1 and t.state = 'on') as elsewhere`,
      [tx.studioId],
    );
    return toRules(row);
  }

  /** Until the transaction ends nobody else changes the rules, and no place is taken or given back by the old ones. */
  async lock(tx: Tx): Promise<void> {
    await tx.run(`select pg_advisory_xact_lock(hashtextextended('rules ' || $1::text, 0))`, [tx.studioId]);
  }

  /** Until the transaction ends nobody changes the rules; many may hold this at once. */
  async lockShared(tx: Tx): Promise<void> {
    await tx.run(`select pg_advisory_xact_lock_shared(hashtextextended('rules ' || $1::text, 0))`, [
      tx.studioId,
    ]);
  }

  async insertRhythm(tx: Tx, rhythm: Rhythm): Promise<void> {
    await tx.run(
      `insert into rhythm (studio_id, rhythm_id, weekday, starts, first_plate_minutes, further_plate_minutes,
         further_sitter_minutes, changeover_minutes, breaks, most_sittings, most_sittings_with_helper, most_plates,
         held_back, held_back_days, effective_from, effective_until)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16)`,
      [
        tx.studioId,
        rhythm.id,
        rhythm.weekday,
        rhythm.starts,
        rhythm.firstPlateMinutes,
        rhythm.furtherPlateMinutes,
        rhythm.furtherSitterMinutes,
        rhythm.changeoverMinutes,
        rhythm.breaks,
        rhythm.mostSittings,
        rhythm.mostSittingsWithHelper,
        rhythm.mostPlates,
        rhythm.heldBack,
        rhythm.heldBackDays,
        rhythm.effectiveFrom,
        rhythm.effectiveUntil,
      ],
    );
  }

  async saveKind(tx: Tx, kind: Kind): Promise<void> {
    await tx.run(
      `insert into sitting_kind (studio_id, kind_id, position, name, offered, first_plate_minutes, plates, fee,
         deposit, keeps_plate, weekdays, yearly_quota)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)
       on conflict (studio_id, kind_id) do update set position = excluded.position, name = excluded.name,
         offered = excluded.offered, first_plate_minutes = excluded.first_plate_minutes, plates = excluded.plates,
         fee = excluded.fee, deposit = excluded.deposit, keeps_plate = excluded.keeps_plate,
         weekdays = excluded.weekdays, yearly_quota = excluded.yearly_quota`,
      [
        tx.studioId,
        kind.id,
        kind.position,
        kind.name,
        kind.offered,
        kind.firstPlateMinutes,
        kind.plates,
        kind.fee,
        kind.deposit,
        kind.keepsPlate,
        kind.weekdays,
        kind.yearlyQuota,
      ],
    );
  }

  async insertClosure(tx: Tx, closure: Closure): Promise<void> {
    await tx.run(
      'insert into closure (studio_id, closure_id, title, wall_from, wall_until) values ($1, $2, $3, $4, $5)',
      [tx.studioId, closure.id, closure.title, closure.wallFrom, closure.wallUntil],
    );
  }

  /** Rhythms, kinds, attendance and limits that differ; closures are laid by the service. */
  async saveChanged(tx: Tx, before: RoomRules, after: RoomRules): Promise<void> {
    const same = (a: unknown, b: unknown) => JSON.stringify(a) === JSON.stringify(b);
    const gone = before.rhythms.filter((one) => !after.rhythms.some((other) => same(one, other)));
    await tx.run('delete from rhythm where studio_id = $1 and rhythm_id = any($2::uuid[])', [
      tx.studioId,
      gone.map((one) => one.id),
    ]);
    for (const one of after.rhythms)
      if (!before.rhythms.some((other) => same(one, other))) await this.insertRhythm(tx, one);
    for (const one of after.kinds)
      if (!before.kinds.some((other) => same(one, other))) await this.saveKind(tx, one);
    for (const who of ['owner', 'helper'] as const)
      if (!same(before[who], after[who])) await this.saveAttendance(tx, who, after[who]);
    if (!same(before.limits, after.limits)) await this.saveLimits(tx, after.limits);
  }

  async deleteClosure(tx: Tx, id: string): Promise<void> {
    await tx.run('delete from closure where studio_id = $1 and closure_id = $2', [tx.studioId, id]);
  }

  private async saveAttendance(
    tx: Tx,
    who: 'owner' | 'helper',
    { weekdays, also, away }: Attendance,
  ): Promise<void> {
    await tx.run(
      `insert into attendance (studio_id, who, weekdays, also, away) values ($1, $2, $3, $4::date[], $5::date[])
       on conflict (studio_id, who) do update set weekdays = excluded.weekdays, also = excluded.also,
         away = excluded.away`,
      [tx.studioId, who, weekdays, also, away],
    );
  }

  private async saveLimits(tx: Tx, limits: PoseLimits): Promise<void> {
    await tx.run(
      `insert into pose_limits (studio_id, under_8, from_8_to_14, adult, head_rest, group_of_3)
       values ($1, $2, $3, $4, $5, $6)
       on conflict (studio_id) do update set under_8 = excluded.under_8, from_8_to_14 = excluded.from_8_to_14,
         adult = excluded.adult, head_rest = excluded.head_rest, group_of_3 = excluded.group_of_3`,
      [tx.studioId, limits.under8, limits.from8To14, limits.adult, limits.headRest, limits.groupOf3],
    );
  }
}
