// SQL of erasing: what the tags in the schema say, in the rows about a person, and the log of it. A column is named here
// only where erasing means more than emptying it.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import { erasureRow } from './privacy.schemas.js';
import {
  type Done,
  ERASED,
  namedIn,
  ROWS_ABOUT,
  ROWS_NAMING,
  type TaggedColumn,
  tagOf,
} from './tags.calc.js';

/** What else becomes of rows when they are erased. $3 is the moment. */
const BESIDES: Record<string, string> = {
  contact: 'erased_at = coalesce(erased_at, $3), erase_asked_at = null',
  // whatever was still to be sent, rung or posted is not
  mail: `state = case state when 'sent' then 'sent' else 'dropped' end, lease_until = null, by_hand = '',
         telephone_now = false, told_at = null, told_by = ''`,
};
/** Columns of rows about somebody in which others may be named as well. */
const NAMING_BESIDES = [
  ['history', 'note'],
  ['plate_made', 'names'],
  ['plate_made', 'note'],
] as const;

export class ErasureStore {
  /** Empties, fills and deletes as the tags say, in the rows about some ids. */
  async erase(tx: Tx, columns: TaggedColumn[], ids: string[], at: Temporal.Instant): Promise<void> {
    await tx.run(`select set_config('app.erasing', 'yes', true)`);
    for (const [table, about] of Object.entries(ROWS_ABOUT)) {
      const where = `t."${about}" = any($2::uuid[])`;
      if (columns.some((one) => one.table === table && doneTo(one) === 'row'))
        await tx.run(`delete from "${table}" t where t.studio_id = $1 and ${where}`, [tx.studioId, ids]);
      else await this.fill(tx, table, columns, where, ids, at);
    }
  }

  /** Blanks letters about others or about nobody in which one of these stands: what the studio was written of them. */
  async eraseLetters(tx: Tx, columns: TaggedColumn[], found: string[], at: Temporal.Instant): Promise<void> {
    await this.fill(tx, 'mail', columns, namedIn('snapshot'), found, at);
  }

  private async fill(
    tx: Tx,
    table: string,
    columns: TaggedColumn[],
    where: string,
    found: string[],
    at: Temporal.Instant,
  ): Promise<void> {
    const sets = columns.flatMap((one) => (one.table === table ? setOf(doneTo(one), one) : []));
    if (sets.length === 0) return;
    const besides = BESIDES[table] ?? '';
    const all = besides === '' ? sets : [...sets, besides];
    const sql = `update "${table}" t set ${all.join(', ')} where t.studio_id = $1 and ${where}`;
    await tx.run(sql, [tx.studioId, found, ...(besides.includes('$3') ? [at] : [])]);
  }

  /** Erases where the studio's own words name somebody, in history too, and in plates of nobody who sat here. */
  async eraseWords(tx: Tx, columns: TaggedColumn[], needles: string[]): Promise<void> {
    if (needles.length === 0) return;
    const pattern = needles.map((one) => one.replace(/[^\p{L}\p{N}]/gu, '\\$&')).join('|');
    const words = columns.filter((one) => one.comment === 'words');
    const besides = NAMING_BESIDES.map(([table, column]) => ({ table, column }));
    for (const { table, column } of [...words, ...besides])
      await tx.run(
        `update "${table}" set "${column}" = regexp_replace("${column}", $2, '${ERASED}', 'gi')
         where studio_id = $1 and "${column}" ~* $2`,
        [tx.studioId, pattern],
      );
  }

  /** Deletes drafts and kept answers in which one of these stands. */
  async deleteNaming(tx: Tx, found: string[]): Promise<void> {
    for (const [table, column] of Object.entries(ROWS_NAMING))
      await tx.run(`delete from "${table}" t where t.studio_id = $1 and ${namedIn(column)}`, [
        tx.studioId,
        found,
      ]);
    await tx.run('delete from request_draft where studio_id = $1 and sitting_id = any($2::uuid[])', [
      tx.studioId,
      found.filter((one) => /^[0-9a-f]{8}-/.test(one) && z.uuid().safeParse(one).success),
    ]);
  }

  /** Ends their links and reminders, and whatever of theirs nobody has answered. */
  async end(tx: Tx, ids: string[], at: Temporal.Instant): Promise<void> {
    const values = [tx.studioId, ids, at];
    const mine = (column: string) => `where studio_id = $1 and ${column} = any($2::uuid[])`;
    await tx.run(`update link set revoked_at = coalesce(revoked_at, $3) ${mine('subject_id')}`, values);
    await tx.run(
      `update reminder set state = 'dropped', reason = 'given up', ended_at = $3
       ${mine('sitting_id')} and state = 'planned'`,
      values,
    );
    await tx.run(
      `update sitting set state = 'withdrawn', decided_at = $3 ${mine('sitting_id')}
         and state in ('requested', 'waiting', 'lapsed')`,
      values,
    );
    await tx.run(
      `update sign_up set state = 'withdrawn', decided_at = $3 ${mine('sign_up_id')}
         and state in ('requested', 'waiting')`,
      values,
    );
  }

  /** What jobs of the studio failed with may name anybody. */
  async forgetErrors(tx: Tx): Promise<void> {
    await tx.run('select plateday_queue.forget_errors() where $1::uuid = plateday_studio()', [tx.studioId]);
  }

  async note(tx: Tx, contactId: string, at: Temporal.Instant, who: string): Promise<void> {
    await tx.run(
      'insert into erasure (studio_id, contact_id, at, who) values ($1, $2, $3, $4) on conflict do nothing',
      [tx.studioId, contactId, at, who],
    );
  }

  /** The erasure log, the oldest first. */
  erased(tx: Tx): Promise<z.output<typeof erasureRow>[]> {
    return tx.many(
      erasureRow,
      'select contact_id, at, who from erasure where studio_id = $1 order by at, contact_id',
      [tx.studioId],
    );
  }

  /** Message-IDs of letters to people who are erased, for the files that are kept of them. */
  async messageIds(tx: Tx): Promise<string[]> {
    const rows = await tx.many(
      z.object({ message_id: z.string() }),
      `select message_id from mail where studio_id = $1 and snapshot = '{}'`,
      [tx.studioId],
    );
    return rows.map((row) => row.message_id);
  }
}

/** What erasing does to a column; null where it is nobody's. */
function doneTo({ comment }: TaggedColumn): Done | null {
  const tag = tagOf(comment);
  return tag?.of === 'person' ? tag.done : null;
}

/** The assignment that erases a column; none where it is kept. */
function setOf(done: Done | null, { table, column, type, nullable }: TaggedColumn): string[] {
  if (done === null || done === 'kept' || done === 'row') return [];
  if (done === 'erased') return [`"${column}" = '${ERASED}'`];
  if (done === 'numbered') return [`"${column}" = '${ERASED} ' || ${table}_id`];
  return [`"${column}" = ${nullable ? 'null' : type === 'jsonb' ? `'{}'` : `''`}`];
}
