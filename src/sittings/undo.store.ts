// SQL of the acts of the desk that can be undone.
import type { Temporal } from 'temporal-polyfill';
import { TogetherIn } from '../platform/db/together-in.js';
import type { Tx } from '../platform/db/tx.js';
import { actRow, type SittingAct, toAct } from './undo.schemas.js';

export class UndoStore {
  private readonly undone = new TogetherIn<{ sittingId: string; turns: number }, boolean>(
    async (tx, asked) => {
      const rows = await tx.many(
        actRow,
        `select * from sitting_act where studio_id = $1 and sitting_id = any($2::uuid[]) and turns = any($3::int[])
         and event <> 'mark' order by act_id for share`,
        [tx.studioId, asked.map((one) => one.sittingId), asked.map((one) => one.turns)],
      );
      return asked.map(({ sittingId, turns }) =>
        rows.some((row) => row.sitting_id === sittingId && row.turns === turns && row.undone_at !== null),
      );
    },
  );

  async insert(tx: Tx, act: Omit<SittingAct, 'undoneAt'>): Promise<void> {
    await tx.run(
      `insert into sitting_act (studio_id, act_id, sitting_id, event, turns, before, at, who)
       values ($1, $2, $3, $4, $5, $6, $7, $8)`,
      [tx.studioId, act.id, act.sittingId, act.event, act.turns, JSON.stringify(act.before), act.at, act.who],
    );
  }

  /** What the desk did last with a sitting, undone or not. */
  async newest(tx: Tx, sittingId: string): Promise<SittingAct | null> {
    const row = await tx.maybe(
      actRow,
      `select * from sitting_act where studio_id = $1 and sitting_id = $2 order by at desc, turns desc, act_id limit 1`,
      [tx.studioId, sittingId],
    );
    return row && toAct(row);
  }

  /** Whether a turn of a sitting was an act of the desk that can, or could, be undone. */
  async isAct(tx: Tx, sittingId: string, turns: number): Promise<boolean> {
    const sql = `select act_id from sitting_act where studio_id = $1 and sitting_id = $2 and turns = $3 and event <> 'mark'`;
    return (await tx.many(actRow.pick({ act_id: true }), sql, [tx.studioId, sittingId, turns])).length > 0;
  }

  /** Marks an act as undone; whoever reads it with a lock waits. False when it was undone before. */
  async undo(tx: Tx, id: string, at: Temporal.Instant): Promise<boolean> {
    const undone = await tx.run(
      `update sitting_act set undone_at = $3 where studio_id = $1 and act_id = $2 and undone_at is null`,
      [tx.studioId, id, at],
    );
    return undone === 1;
  }

  /** How many turns of a sitting after one were undone. */
  async undoneSince(tx: Tx, sittingId: string, turns: number): Promise<number> {
    const rows = await tx.many(
      actRow.pick({ act_id: true }),
      `select act_id from sitting_act where studio_id = $1 and sitting_id = $2 and turns > $3 and event <> 'mark'
         and undone_at is not null`,
      [tx.studioId, sittingId, turns],
    );
    return rows.length;
  }

  /** Whether the turn of a sitting was undone; nobody can undo it until the transaction ends. */
  isUndone(tx: Tx, sittingId: string, turns: number): Promise<boolean> {
    return this.undone.ask(tx, { sittingId, turns });
  }
}
