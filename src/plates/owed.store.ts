// SQL of what is owed after a day: the owner's steps, and what was ticked of each sitting.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import { type Done, doneRow, type Step, stepKindRow, stepRow } from './owed.schemas.js';

export class OwedStore {
  /** Those put away included, in the owner's order; none where the studio goes by the usual ones. */
  async steps(tx: Tx): Promise<Step[]> {
    const rows = await tx.many(
      stepRow,
      'select * from owed_step where studio_id = $1 order by position, step_id',
      [tx.studioId],
    );
    const kinds = await this.kindDays(tx);
    return rows.map((row) => ({
      id: row.step_id,
      position: row.position,
      what: row.what,
      days: row.days,
      leaves: row.leaves,
      archived: row.archived,
      byKind: new Map(
        kinds.filter((one) => one.step_id === row.step_id).map((one) => [one.kind_id, one.days]),
      ),
    }));
  }

  kindDays(tx: Tx): Promise<z.output<typeof stepKindRow>[]> {
    return tx.many(
      stepKindRow,
      'select step_id, kind_id, days from owed_step_kind where studio_id = $1 order by step_id, kind_id',
      [tx.studioId],
    );
  }

  async saveStep(tx: Tx, step: Step): Promise<void> {
    await tx.run(
      `insert into owed_step (studio_id, step_id, position, what, days, leaves, archived)
       values ($1, $2, $3, $4, $5, $6, $7)
       on conflict (studio_id, step_id) do update set position = $3, what = $4, days = $5, leaves = $6, archived = $7`,
      [tx.studioId, step.id, step.position, step.what, step.days, step.leaves, step.archived],
    );
    await tx.run('delete from owed_step_kind where studio_id = $1 and step_id = $2', [tx.studioId, step.id]);
    for (const [kindId, days] of step.byKind)
      await tx.run('insert into owed_step_kind (studio_id, step_id, kind_id, days) values ($1, $2, $3, $4)', [
        tx.studioId,
        step.id,
        kindId,
        days,
      ]);
  }

  /** The sittings that were made, but for those whose plates had left before a moment. */
  async made(tx: Tx, leaving: string[], before: Temporal.Instant): Promise<string[]> {
    const rows = await tx.many(
      z.object({ sitting_id: z.uuid() }),
      `select s.sitting_id from sitting s where s.studio_id = $1 and s.state = 'made' and not exists (
         select from owed_done d where d.studio_id = s.studio_id and d.sitting_id = s.sitting_id
           and d.step_id = any($2::uuid[]) and d.at < $3)
       order by s.sitting_id`,
      [tx.studioId, leaving, before],
    );
    return rows.map((row) => row.sitting_id);
  }

  async done(tx: Tx, sittingIds: string[]): Promise<Done[]> {
    const rows = await tx.many(
      doneRow,
      `select sitting_id, step_id, at, who from owed_done where studio_id = $1 and sitting_id = any($2::uuid[])
       order by sitting_id, step_id`,
      [tx.studioId, sittingIds],
    );
    return rows.map((row) => ({
      sittingId: row.sitting_id,
      stepId: row.step_id,
      at: row.at,
      who: row.who,
    }));
  }

  /** @returns whether it was not ticked before */
  async tick(tx: Tx, { sittingId, stepId, at, who }: Done): Promise<boolean> {
    const added = await tx.run(
      `insert into owed_done (studio_id, sitting_id, step_id, at, who) values ($1, $2, $3, $4, $5)
       on conflict do nothing`,
      [tx.studioId, sittingId, stepId, at, who],
    );
    return added === 1;
  }

  /** @returns whether there was a tick */
  async untick(tx: Tx, sittingId: string, stepId: string): Promise<boolean> {
    const gone = await tx.run(
      'delete from owed_done where studio_id = $1 and sitting_id = $2 and step_id = $3',
      [tx.studioId, sittingId, stepId],
    );
    return gone === 1;
  }
}
