// SQL of copies: every table of a studio, found in the catalogue, out as lines of JSON and in again. No table is named
// here but the few that are left out, so that a new one is in every backup from its first day.
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import type { Manifest } from './manifest.schemas.js';

/** Not carried over: who is signed in, and answers kept for repeats of a form. */
export const LEFT_OUT = ['session', 'idempotency'] as const;

const tableRow = z.object({
  name: z.string(),
  key: z.string(),
  columns: z.array(z.string()),
  needs: z.array(z.string()),
});
const line = z.object({ line: z.string() });
const count = z.object({ n: z.number() });

/** A table that holds a studio's rows. Names are quoted where they must be. */
export interface Table {
  name: string;
  /** What its rows are ordered by. */
  key: string;
  /** What is written when rows are put back; the database fills the others itself. */
  columns: string[];
}

export class TablesStore {
  /** The tables that hold a studio's rows, each after those that its rows point to. */
  async tables(tx: Tx): Promise<Table[]> {
    const rows = await tx.many(
      tableRow,
      `select c.relname as name,
         coalesce((select format('%I', a.attname) from pg_attribute a
                   where a.attrelid = c.oid and a.attidentity <> ''),
                  (select string_agg(format('%I', a.attname), ', ' order by k.at)
                   from pg_constraint p, unnest(p.conkey) with ordinality as k(num, at)
                   join pg_attribute a on a.attnum = k.num
                   where p.conrelid = c.oid and p.contype = 'p' and a.attrelid = c.oid)) as key,
         array(select format('%I', a.attname) from pg_attribute a
               where a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped and a.attidentity = ''
                 and a.attgenerated = '' order by a.attnum) as columns,
         array(select distinct r.relname::text from pg_constraint f join pg_class r on r.oid = f.confrelid
               where f.conrelid = c.oid and f.contype = 'f' and f.confrelid <> c.oid) as needs
       from pg_class c join pg_namespace n on n.oid = c.relnamespace
       where n.nspname = 'public' and c.relkind = 'r' and c.relname <> all($1)
         and exists (select from pg_attribute a where a.attrelid = c.oid and a.attname = 'studio_id' and not a.attisdropped)
       order by c.relname`,
      [[...LEFT_OUT]],
    );
    return inOrder(rows);
  }

  /** All rows of a table, one JSON object a line, in the order of its key; numbers are written out whole. */
  async dump(tx: Tx, { name, key }: Pick<Table, 'name' | 'key'>): Promise<string[]> {
    const rows = await tx.many(
      line,
      `select to_jsonb(t)::text as line from "${name}" t where studio_id = $1 order by ${key}`,
      [tx.studioId],
    );
    return rows.map((row) => row.line);
  }

  /** Puts rows back as they were, in this order; what the database numbers itself is numbered anew. @returns how many */
  async load(tx: Tx, { name, columns }: Table, lines: readonly string[]): Promise<number> {
    if (lines.length === 0) return 0;
    return tx.run(
      `insert into "${name}" (${columns.join(', ')})
       select ${columns.map((one) => `r.${one}`).join(', ')}
       from jsonb_array_elements($1::jsonb) with ordinality as l(line, nth),
         lateral jsonb_populate_record(null::"${name}", l.line) as r order by l.nth`,
      [`[${lines.join(',')}]`],
    );
  }

  /** What is still to be done, one JSON object a line. */
  async jobs(tx: Tx): Promise<string[]> {
    const rows = await tx.many(
      line,
      'select to_jsonb(j)::text as line from plateday_queue.waiting() j where $1::uuid = plateday_studio()',
      [tx.studioId],
    );
    return rows.map((row) => row.line);
  }

  async enqueue(tx: Tx, lines: readonly string[]): Promise<void> {
    await tx.run(
      `select plateday_queue.enqueue(j.task, j.payload, j.run_at, j.job_key)
       from jsonb_to_recordset($1::jsonb) as j(task text, payload jsonb, run_at timestamptz, job_key text)`,
      [`[${lines.join(',')}]`],
    );
  }

  async migrations(tx: Tx): Promise<Manifest['migrations']> {
    return tx.many(
      z.object({ name: z.string(), checksum: z.string() }),
      'select name, checksum from migration order by name',
    );
  }

  /** Whether any studio is here. */
  async isEmpty(tx: Tx): Promise<boolean> {
    return (await tx.one(count, 'select count(*)::int as n from studio_directory')).n === 0;
  }

  /** Of each item: what its bottles hold, what its movements come to, and what is set aside. */
  async shelf(tx: Tx): Promise<Manifest['shelf']> {
    return tx.many(
      z.object({ item: z.uuid(), onHand: z.string(), moved: z.string(), setAside: z.string() }),
      `select i.item_id as item,
         coalesce((select sum(l.on_hand) from lot l where l.studio_id = i.studio_id and l.item_id = i.item_id), 0)::text as "onHand",
         coalesce((select sum(m.quantity) from movement m join lot l on l.studio_id = m.studio_id and l.lot_id = m.lot_id
                   where m.studio_id = i.studio_id and l.item_id = i.item_id
                     and m.kind not in ('reserved', 'released')), 0)::text as moved,
         coalesce((select sum(r.quantity) from reservation r
                   where r.studio_id = i.studio_id and r.item_id = i.item_id), 0)::text as "setAside"
       from item i where i.studio_id = $1 order by i.item_id`,
      [tx.studioId],
    );
  }
}

/** Each table after those it needs. @throws Error where tables need each other in a ring */
function inOrder(rows: z.output<typeof tableRow>[]): Table[] {
  const names = new Set(rows.map((row) => row.name));
  const done = new Set<string>();
  const order: Table[] = [];
  while (order.length < rows.length) {
    const ready = rows.filter(
      (row) => !done.has(row.name) && row.needs.every((one) => done.has(one) || !names.has(one)),
    );
    if (ready.length === 0)
      throw new Error('Tables need each other in a ring; they cannot be put back one by one.');
    for (const { needs: _needs, ...table } of ready) {
      done.add(table.name);
      order.push(table);
    }
  }
  return order;
}
