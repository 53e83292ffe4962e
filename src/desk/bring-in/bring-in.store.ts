// SQL of what is brought in: drafts, what was brought in, and what each line became.
import type { Temporal } from 'temporal-polyfill';
import type { Tx } from '../../platform/db/tx.js';
import {
  type BringIn,
  bringInRow,
  type Came,
  cameRow,
  type Draft,
  draftRow,
  type WaitingDraft,
  waitingRow,
} from './bring-in.schemas.js';

const WITH_LINES = `select b.*, (select count(*)::int from bring_in_line l
  where l.studio_id = b.studio_id and l.bring_in_id = b.bring_in_id) as lines from bring_in b`;

export class BringInStore {
  async keepDraft(tx: Tx, draft: Draft, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `insert into bring_in_draft (studio_id, draft_id, what, source, choices, guessed, saved_at)
       values ($1, $2, $3, $4, $5::jsonb, $6, $7)`,
      [
        tx.studioId,
        draft.draft_id,
        draft.what,
        draft.source,
        JSON.stringify(draft.choices),
        draft.guessed,
        at,
      ],
    );
  }

  /** With `lock` nobody else brings it in until the transaction ends. */
  draft(tx: Tx, id: string, lock: boolean): Promise<Draft | null> {
    const sql = `select * from bring_in_draft where studio_id = $1 and draft_id = $2 ${lock ? 'for update' : ''}`;
    return tx.maybe(draftRow, sql, [tx.studioId, id]);
  }

  /** The newest first. */
  drafts(tx: Tx): Promise<WaitingDraft[]> {
    const sql = `select draft_id, what, saved_at from bring_in_draft where studio_id = $1
      order by saved_at desc, draft_id`;
    return tx.many(waitingRow, sql, [tx.studioId]);
  }

  async saveChoices(tx: Tx, id: string, choices: Draft['choices'], at: Temporal.Instant): Promise<void> {
    const sql = `update bring_in_draft set choices = $3::jsonb, saved_at = $4 where studio_id = $1 and draft_id = $2`;
    await tx.run(sql, [tx.studioId, id, JSON.stringify(choices), at]);
  }

  async dropDraft(tx: Tx, id: string): Promise<void> {
    await tx.run('delete from bring_in_draft where studio_id = $1 and draft_id = $2', [tx.studioId, id]);
  }

  async insert(
    tx: Tx,
    one: { id: string; what: BringIn['what']; at: Temporal.Instant; who: string; sum: Buffer; upTo: bigint },
    came: Came[],
  ): Promise<void> {
    await tx.run(
      'insert into bring_in (studio_id, bring_in_id, what, at, who, sum, up_to) values ($1, $2, $3, $4, $5, $6, $7)',
      [tx.studioId, one.id, one.what, one.at, one.who, one.sum, one.upTo],
    );
    await tx.run(
      `insert into bring_in_line (studio_id, bring_in_id, line, became_id)
       select $1, $2, * from unnest($3::int[], $4::uuid[])`,
      [tx.studioId, one.id, came.map(({ line }) => line), came.map(({ became_id }) => became_id)],
    );
  }

  /** The newest first. */
  all(tx: Tx): Promise<BringIn[]> {
    const sql = `${WITH_LINES} where b.studio_id = $1 order by b.at desc, b.bring_in_id`;
    return tx.many(bringInRow, sql, [tx.studioId]);
  }

  /** Locked until the transaction ends. */
  locked(tx: Tx, id: string): Promise<BringIn | null> {
    const sql = `${WITH_LINES} where b.studio_id = $1 and b.bring_in_id = $2 for update`;
    return tx.maybe(bringInRow, sql, [tx.studioId, id]);
  }

  /** The last one that came of the same text and stands; null for none. */
  bySum(tx: Tx, sum: Buffer): Promise<BringIn | null> {
    const sql = `${WITH_LINES} where b.studio_id = $1 and b.sum = $2 and b.undone_at is null
      order by b.at desc limit 1`;
    return tx.maybe(bringInRow, sql, [tx.studioId, sum]);
  }

  lines(tx: Tx, id: string): Promise<Came[]> {
    const sql =
      'select line, became_id from bring_in_line where studio_id = $1 and bring_in_id = $2 order by line';
    return tx.many(cameRow, sql, [tx.studioId, id]);
  }

  async undo(tx: Tx, id: string, at: Temporal.Instant, who: string): Promise<void> {
    const sql = `update bring_in set undone_at = $3, undone_by = $4 where studio_id = $1 and bring_in_id = $2`;
    await tx.run(sql, [tx.studioId, id, at, who]);
  }
}
