// What the catalogue must say of every table so that no studio sees another's rows; see migrations/0001.
import type pg from 'pg';

/** The tables that belong to no studio: who is where, and which migrations were applied. */
export const SHARED_TABLES = ['migration', 'studio_directory'];

const OWN = '(studio_id = plateday_studio())';

interface Found {
  name: string;
  kind: string;
  owner: string;
  secured: boolean;
  forced: boolean;
  first_key: string | null;
  policies: string[];
}

/** One sentence per fault of a table, view or function in the schema `public`; none when all is well. */
export async function unguarded(client: pg.Client): Promise<string[]> {
  const faults = (await relations(client)).flatMap((one) => {
    const fault = (what: string) => `${one.name} ${what}`;
    if (one.owner === 'plateday_app') return [fault('belongs to the app')];
    if (SHARED_TABLES.includes(one.name)) return [];
    if (one.kind !== 'r') return [fault('is no plain table')];
    return [
      ...(one.secured ? [] : [fault('has no row security')]),
      ...(one.forced ? [] : [fault('does not force row security')]),
      ...(one.first_key === 'studio_id' ? [] : [fault('has another key first')]),
      ...(one.policies.join() === `PERMISSIVE ALL public ${OWN} ${OWN}` ? [] : [fault('has other policies')]),
    ];
  });
  const { rows } = await client.query<{ fault: string }>(
    `select p.oid::regprocedure || ' runs with its owner''s rights' as fault from pg_proc p
     where pronamespace = 'public'::regnamespace and prosecdef order by 1`,
  );
  return [...faults, ...rows.map(({ fault }) => fault)];
}

export async function tenantTables(client: pg.Client): Promise<string[]> {
  const names = (await relations(client)).map(({ name }) => name);
  return names.filter((name) => !SHARED_TABLES.includes(name));
}

async function relations(client: pg.Client): Promise<Found[]> {
  const { rows } = await client.query<Found>(
    `select relname as name, relkind as kind, relowner::regrole::text as owner, relrowsecurity as secured,
       relforcerowsecurity as forced,
       (select attname from pg_index i join pg_attribute a on a.attrelid = i.indrelid and a.attnum = i.indkey[0]
        where i.indrelid = c.oid and i.indisprimary) as first_key,
       (select coalesce(array_agg(concat_ws(' ', permissive, cmd, array_to_string(roles, ','), qual, with_check)), '{}')
        from pg_policies p where p.schemaname = 'public' and p.tablename = relname) as policies
     from pg_class c where relnamespace = 'public'::regnamespace and relkind in ('r', 'p', 'v', 'm', 'f')
     order by relname`,
  );
  return rows;
}
