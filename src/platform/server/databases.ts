// Databases and the one login of a server, made by its superuser; used by the launcher and by tests.
import pg from 'pg';

/** The migrating login: owns its databases and may create roles, and is no superuser. */
export const LOGIN = 'plateday';

export interface NewDatabase {
  /** Drop what is there first, with everyone connected to it. */
  fresh?: boolean;
  /** A database to copy; nobody may be connected to it. */
  template?: string;
}

export async function ensureLogin(adminUrl: string, password: string): Promise<void> {
  await asAdmin(adminUrl, async (admin) => {
    const { rowCount } = await admin.query('select from pg_roles where rolname = $1', [LOGIN]);
    if (rowCount === 0)
      await admin.query(
        `create role ${LOGIN} login nosuperuser createrole nocreatedb password ${pg.escapeLiteral(password)}`,
      );
  });
}

/** Creates the database, owned by LOGIN, unless it is there. */
export async function ensureDatabase(
  adminUrl: string,
  name: string,
  { fresh, template }: NewDatabase = {},
): Promise<void> {
  const quoted = pg.escapeIdentifier(name);
  await asAdmin(adminUrl, async (admin) => {
    if (fresh) await admin.query(`drop database if exists ${quoted} with (force)`);
    const { rowCount } = await admin.query('select from pg_database where datname = $1', [name]);
    if (rowCount !== 0) return;
    const source = template ? pg.escapeIdentifier(template) : `template0 encoding 'UTF8'`;
    await admin.query(`create database ${quoted} owner ${LOGIN} template ${source}`);
  });
}

export async function asAdmin<T>(adminUrl: string, act: (admin: pg.Client) => Promise<T>): Promise<T> {
  const admin = new pg.Client({ connectionString: adminUrl });
  await admin.connect();
  try {
    return await act(admin);
  } finally {
    await admin.end();
  }
}
