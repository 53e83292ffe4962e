// SQL of accounts.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import { type Account, accountRow, toAccount } from './accounts.schemas.js';

const withPassword = accountRow.extend({ password_hash: z.string().nullable() });

export class AccountsStore {
  async insert(tx: Tx, account: Account, passwordHash: string | null, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `insert into account (studio_id, account_id, role, name, email, password_hash, created_at)
       values ($1, $2, $3, $4, $5, $6, $7)`,
      [tx.studioId, account.id, account.role, account.name, account.email, passwordHash, at],
    );
  }

  async byEmail(tx: Tx, email: string): Promise<{ account: Account; passwordHash: string | null } | null> {
    const row = await tx.maybe(withPassword, 'select * from account where studio_id = $1 and email = $2', [
      tx.studioId,
      email,
    ]);
    return row && { account: toAccount(row), passwordHash: row.password_hash };
  }

  async byId(tx: Tx, id: string): Promise<Account | null> {
    const row = await tx.maybe(accountRow, 'select * from account where studio_id = $1 and account_id = $2', [
      tx.studioId,
      id,
    ]);
    return row && toAccount(row);
  }

  async owner(tx: Tx): Promise<Account> {
    const rows = await tx.many(
      accountRow,
      `select * from account where studio_id = $1 and role = 'owner' order by created_at limit 1`,
      [tx.studioId],
    );
    if (!rows[0]) throw new Error('A studio has an owner.');
    return toAccount(rows[0]);
  }

  /** Everybody who works here, the owner first. `joined` false: invited, and not here yet. */
  async all(tx: Tx): Promise<{ account: Account; joined: boolean }[]> {
    const rows = await tx.many(
      withPassword,
      `select * from account where studio_id = $1 order by role desc, name, account_id`,
      [tx.studioId],
    );
    return rows.map((row) => ({ account: toAccount(row), joined: row.password_hash !== null }));
  }

  async setPassword(tx: Tx, id: string, passwordHash: string): Promise<void> {
    await tx.run('update account set password_hash = $3 where studio_id = $1 and account_id = $2', [
      tx.studioId,
      id,
      passwordHash,
    ]);
  }

  async rename(tx: Tx, id: string, name: string): Promise<void> {
    await tx.run('update account set name = $3 where studio_id = $1 and account_id = $2', [
      tx.studioId,
      id,
      name,
    ]);
  }

  /** With it go its sessions, authenticator and recovery codes. */
  async delete(tx: Tx, id: string): Promise<void> {
    await tx.run('delete from account where studio_id = $1 and account_id = $2', [tx.studioId, id]);
  }
}
