// SQL of a person's data: which columns there are, which rows are about somebody, and giving them out. The tags in the
// schema say what is personal; no column of it is named here.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { instant } from '../platform/db/row.js';
import type { Tx } from '../platform/db/tx.js';
import { namedIn, ROWS_ABOUT, ROWS_NAMING, type TaggedColumn } from './tags.calc.js';

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

/** What is told of an id beside the columns themselves. */
const TOGETHER: Record<string, string> = {
  consent: `(select w.words from wording w where w.studio_id = t.studio_id and w.purpose = t.purpose
              and w.version = t.version) as wording`,
};
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
    const where = ROWS_NAMING[table]
      ? namedIn(ROWS_NAMING[table])
      : `t."${ROWS_ABOUT[table]}" = any($2::uuid[])`;
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

  /** Those of whom something is here that was erased elsewhere. */
  async present(tx: Tx, contactIds: string[]): Promise<string[]> {
    const rows = await tx.many(
      z.object({ contact_id: z.uuid() }),
      'select contact_id from contact where studio_id = $1 and contact_id = any($2::uuid[]) order by contact_id',
      [tx.studioId, contactIds],
    );
    return rows.map((row) => row.contact_id);
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
