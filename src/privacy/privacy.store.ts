// SQL of a person's data: which columns there are, which rows are about somebody, giving them out and erasing them. No
// column is named here but where erasing means more than emptying: the tags in the schema say what is personal.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { instant } from '../platform/db/row.js';
import type { Tx } from '../platform/db/tx.js';
import { erasureRow } from './privacy.schemas.js';
import { type Done, ERASED, ROWS_ABOUT, ROWS_NAMING, type TaggedColumn, tagOf } from './tags.calc.js';

const columnRow = z.object({
  table: z.string(),
  column: z.string(),
  type: z.string(),
  nullable: z.boolean(),
  comment: z.string(),
});
const line = z.object({ line: z.string() });
const count = z.object({ n: z.number() });
const contactRow = z.object({
  name: z.string(),
  erased_at: instant.nullable(),
  erase_asked_at: instant.nullable(),
});
const needleRow = z.object({ names: z.array(z.string()), reached: z.array(z.string()) });
const askedRow = z.object({ contact_id: z.uuid(), name: z.string(), erase_asked_at: instant });

/** What else becomes of rows when they are erased. $3 is the moment. */
const BESIDES: Record<string, string> = {
  contact: 'erased_at = coalesce(erased_at, $3), erase_asked_at = null',
  // whatever was still to be sent, rung or posted is not
  mail: `state = case state when 'sent' then 'sent' else 'dropped' end, lease_until = null, by_hand = '',
         telephone_now = false, told_at = null, told_by = ''`,
};
/** What is told of an id beside the columns themselves. */
const TOGETHER: Record<string, string> = {
  consent: `(select w.words from wording w where w.studio_id = t.studio_id and w.purpose = t.purpose
              and w.version = t.version) as wording`,
};
/** Rows found by what stands in them: who was reached so, or one of the ids. */
const NAMED = (column: string) =>
  `exists (select from unnest($2::text[]) n where position(lower(n) in lower(t."${column}"::text)) > 0)`;

export class PrivacyStore {
  /** Every column of a table of ours, with its tag as it stands in the schema. */
  columns(tx: Tx): Promise<TaggedColumn[]> {
    return tx.many(
      columnRow,
      `select c.relname as "table", a.attname as "column", format_type(a.atttypid, a.atttypmod) as type,
         not a.attnotnull as nullable, coalesce(col_description(c.oid, a.attnum), '') as comment
       from pg_class c join pg_namespace n on n.oid = c.relnamespace join pg_attribute a on a.attrelid = c.oid
       where n.nspname = 'public' and c.relkind = 'r' and a.attnum > 0 and not a.attisdropped and c.relname <> 'migration'
       order by c.relname, a.attnum`,
    );
  }

  /** A contact, locked with all that they asked for, in the order of ids; null where there is none. */
  async lock(tx: Tx, contactId: string): Promise<z.output<typeof contactRow> | null> {
    const values = [tx.studioId, contactId];
    await tx.run(
      'select from sitting where studio_id = $1 and contact_id = $2 order by sitting_id for update',
      values,
    );
    await tx.run(
      'select from sign_up where studio_id = $1 and contact_id = $2 order by sign_up_id for update',
      values,
    );
    return tx.maybe(
      contactRow,
      'select name, erased_at, erase_asked_at from contact where studio_id = $1 and contact_id = $2 for update',
      values,
    );
  }

  /** The contact of a sitting or a sign-up; null for neither. */
  async contactOf(tx: Tx, subjectId: string): Promise<string | null> {
    const found = await tx.maybe(
      z.object({ contact_id: z.uuid() }),
      `select contact_id from sitting where studio_id = $1 and sitting_id = $2
       union select contact_id from sign_up where studio_id = $1 and sign_up_id = $2`,
      [tx.studioId, subjectId],
    );
    return found?.contact_id ?? null;
  }

  /** Every id that is about a person: their own, their sitters', what they asked for, plates made of them. */
  async ids(tx: Tx, contactId: string): Promise<string[]> {
    const rows = await tx.many(
      z.object({ id: z.uuid() }),
      `with s as (select sitting_id as id from sitting where studio_id = $1 and contact_id = $2),
         u as (select sign_up_id as id from sign_up where studio_id = $1 and contact_id = $2)
       select contact_id as id from contact where studio_id = $1 and contact_id = $2
       union select sitter_id from sitter where studio_id = $1 and contact_id = $2
       union select id from s union select id from u
       union select student_id from student where studio_id = $1 and sign_up_id in (select id from u)
       union select made_id from plate_made where studio_id = $1 and sitting_id in (select id from s)`,
      [tx.studioId, contactId],
    );
    return rows.map(({ id }) => id);
  }

  /** Their names, those of who comes with them, and how they are reached. */
  needles(tx: Tx, contactId: string): Promise<z.output<typeof needleRow>> {
    return tx.one(
      needleRow,
      `select array[c.name] || array(select name from sitter where studio_id = $1 and contact_id = $2)
           || array(select guardian_name from sitting where studio_id = $1 and contact_id = $2)
           || array(select t.name from student t join sign_up u using (studio_id, sign_up_id)
                    where u.studio_id = $1 and u.contact_id = $2) as names,
         array[c.email, c.telephone, c.postal_address] as reached
       from contact c where c.studio_id = $1 and c.contact_id = $2`,
      [tx.studioId, contactId],
    );
  }

  /** Rows of a table about some ids, as lines of JSON, with these columns. */
  async rows(tx: Tx, table: string, columns: string[], ids: string[]): Promise<string[]> {
    const told = [...columns.map((one) => `t."${one}"`), ...(TOGETHER[table] ? [TOGETHER[table]] : [])];
    const where = ROWS_NAMING[table] ? NAMED(ROWS_NAMING[table]) : `t."${ROWS_ABOUT[table]}" = any($2::uuid[])`;
    const sql = `select to_jsonb(r)::text as line from (select ${told.join(', ')} from "${table}" t
       where t.studio_id = $1 and ${where}) r order by 1`;
    return (await tx.many(line, sql, [tx.studioId, ids])).map((row) => row.line);
  }

  async count(tx: Tx, table: string, ids: string[]): Promise<number> {
    return (await this.rows(tx, table, ['studio_id'], ids)).length;
  }

  /** How many places of theirs lie ahead or are offered. */
  async standing(tx: Tx, contactId: string, now: Temporal.Instant): Promise<number> {
    const found = await tx.one(
      count,
      `select (select count(*) from sitting s join occupancy o using (studio_id, occupancy_id)
               where s.studio_id = $1 and s.contact_id = $2 and s.state in ('offered', 'confirmed') and o.ends_at > $3)::int
         + (select count(*) from sign_up u join teaching_session e using (studio_id, session_id)
              join occupancy o on o.studio_id = e.studio_id and o.occupancy_id = e.occupancy_id
            where u.studio_id = $1 and u.contact_id = $2 and u.state in ('offered', 'signed') and o.ends_at > $3)::int as n`,
      [tx.studioId, contactId, now],
    );
    return found.n;
  }

  /** Empties, fills and deletes as the tags say, in the rows about some ids. */
  async erase(tx: Tx, columns: TaggedColumn[], ids: string[], at: Temporal.Instant): Promise<void> {
    await tx.run(`select set_config('app.erasing', 'yes', true)`);
    for (const [table, about] of Object.entries(ROWS_ABOUT)) {
      const doing = columns.flatMap((one) => {
        const tag = one.table === table ? tagOf(one.comment) : null;
        return tag?.of === 'person' ? [{ ...one, done: tag.done }] : [];
      });
      const where = `where studio_id = $1 and "${about}" = any($2::uuid[])`;
      const sets = doing.flatMap((one) => setOf(one.done, one));
      if (doing.some(({ done }) => done === 'row'))
        await tx.run(`delete from "${table}" ${where}`, [tx.studioId, ids]);
      else if (sets.length > 0) {
        const besides = BESIDES[table] ? [BESIDES[table]] : [];
        const moment = BESIDES[table]?.includes('$3') ? [at] : [];
        const sql = `update "${table}" set ${[...sets, ...besides].join(', ')} ${where}`;
        await tx.run(sql, [tx.studioId, ids, ...moment]);
      }
    }
  }

  /** Erases where the studio's own words name somebody; whatever is named so in history too. */
  async eraseWords(tx: Tx, columns: TaggedColumn[], needles: string[]): Promise<void> {
    if (needles.length === 0) return;
    const pattern = needles.map((one) => one.replace(/[^\p{L}\p{N}]/gu, '\\$&')).join('|');
    const words = columns.filter((one) => one.comment === 'words');
    for (const { table, column } of [...words, { table: 'history', column: 'note' }])
      await tx.run(
        `update "${table}" set "${column}" = regexp_replace("${column}", $2, '${ERASED}', 'gi')
         where studio_id = $1 and "${column}" ~* $2`,
        [tx.studioId, pattern],
      );
  }

  /** Deletes drafts and kept answers in which one of these stands. */
  async deleteNaming(tx: Tx, found: string[]): Promise<void> {
    for (const [table, column] of Object.entries(ROWS_NAMING))
      await tx.run(`delete from "${table}" t where t.studio_id = $1 and ${NAMED(column)}`, [
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

  /** Those of whom something is here that was erased elsewhere. */
  async present(tx: Tx, contactIds: string[]): Promise<string[]> {
    const rows = await tx.many(
      z.object({ contact_id: z.uuid() }),
      'select contact_id from contact where studio_id = $1 and contact_id = any($2::uuid[]) order by contact_id',
      [tx.studioId, contactIds],
    );
    return rows.map((row) => row.contact_id);
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

  async askToBeErased(tx: Tx, contactId: string, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `update contact set erase_asked_at = coalesce(erase_asked_at, $3)
       where studio_id = $1 and contact_id = $2 and erased_at is null`,
      [tx.studioId, contactId, at],
    );
  }

  /** Who asks to be erased, the longest waiting first. */
  asked(tx: Tx): Promise<z.output<typeof askedRow>[]> {
    return tx.many(
      askedRow,
      `select contact_id, name, erase_asked_at from contact where studio_id = $1 and erase_asked_at is not null
       order by erase_asked_at, contact_id`,
      [tx.studioId],
    );
  }
}

/** The assignment that erases a column; none where it is kept. */
function setOf(done: Done, { table, column, type, nullable }: TaggedColumn): string[] {
  if (done === 'kept' || done === 'row') return [];
  if (done === 'erased') return [`"${column}" = '${ERASED}'`];
  if (done === 'numbered') return [`"${column}" = '${ERASED} ' || ${table}_id`];
  return [`"${column}" = ${nullable ? 'null' : type === 'jsonb' ? `'{}'` : `''`}`];
}
