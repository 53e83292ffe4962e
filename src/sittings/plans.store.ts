// SQL of plans for the waiting list.
import type { Temporal } from 'temporal-polyfill';
import type { Tx } from '../platform/db/tx.js';
import { type Entry, entryRow, type Gives, type Plan, planRow, toEntry, toPlan } from './plans.schemas.js';

export class PlansStore {
  async insert(tx: Tx, plan: Plan, entries: Entry[]): Promise<void> {
    await tx.run(
      `insert into plan (studio_id, plan_id, made_at, who, weights, state, points, bound)
       values ($1, $2, $3, $4, $5, 'proposed', $6, $7)`,
      [tx.studioId, plan.id, plan.madeAt, plan.who, JSON.stringify(plan.weights), plan.points, plan.bound],
    );
    await tx.run(
      `insert into plan_entry (studio_id, plan_id, sitting_id, position, wall_start, place, left_out)
       select $1, $2, id, place_on_list, start, shown, why
       from unnest($3::uuid[], $4::int[], $5::timestamp[], $6::jsonb[], $7::jsonb[])
         as e (id, place_on_list, start, shown, why)`,
      [
        tx.studioId,
        plan.id,
        entries.map((one) => one.sittingId),
        entries.map((one) => one.position),
        entries.map((one) => one.wallStart),
        entries.map((one) => (one.place ? JSON.stringify(one.place) : null)),
        entries.map((one) => (one.leftOut ? JSON.stringify(one.leftOut) : null)),
      ],
    );
  }

  /** The plan, or null; with `lock` nobody else settles it until the transaction ends. */
  async byId(tx: Tx, id: string, lock: boolean): Promise<Plan | null> {
    const sql = `select * from plan where studio_id = $1 and plan_id = $2 ${lock ? 'for no key update' : ''}`;
    const row = await tx.maybe(planRow, sql, [tx.studioId, id]);
    return row && toPlan(row);
  }

  async latest(tx: Tx, most: number): Promise<Plan[]> {
    const sql = 'select * from plan where studio_id = $1 order by made_at desc, plan_id limit $2';
    return (await tx.many(planRow, sql, [tx.studioId, most])).map(toPlan);
  }

  /** Everybody in a plan, in the order of the list. */
  async entries(tx: Tx, id: string): Promise<Entry[]> {
    const sql =
      'select * from plan_entry where studio_id = $1 and plan_id = $2 order by position, sitting_id';
    return (await tx.many(entryRow, sql, [tx.studioId, id])).map(toEntry);
  }

  /** Ends a proposed plan; false when it was ended before. */
  async settle(
    tx: Tx,
    id: string,
    state: 'confirmed' | 'dropped',
    gives: Gives | null,
    at: Temporal.Instant,
  ): Promise<boolean> {
    const settled = await tx.run(
      `update plan set state = $3, gives = $4, settled_at = $5
       where studio_id = $1 and plan_id = $2 and state = 'proposed'`,
      [tx.studioId, id, state, gives, at],
    );
    return settled === 1;
  }

  /** A new plan takes the place of one that nobody decided about. */
  async dropProposed(tx: Tx, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `update plan set state = 'dropped', settled_at = $2 where studio_id = $1 and state = 'proposed'`,
      [tx.studioId, at],
    );
  }

  async tick(tx: Tx, id: string, sittingIds: string[]): Promise<void> {
    await tx.run(
      `update plan_entry set ticked = sitting_id = any($3::uuid[]) where studio_id = $1 and plan_id = $2`,
      [tx.studioId, id, sittingIds],
    );
  }

  async setOutcome(tx: Tx, id: string, sittingId: string, outcome: string): Promise<void> {
    await tx.run(
      `update plan_entry set outcome = $4 where studio_id = $1 and plan_id = $2 and sitting_id = $3`,
      [tx.studioId, id, sittingId, outcome],
    );
  }
}
