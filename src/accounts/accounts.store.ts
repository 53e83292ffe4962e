// SQL of accounts and their sessions.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { instant } from '../platform/db/row.js';
import type { Tx } from '../platform/db/tx.js';
import { type Account, accountRow } from './accounts.schemas.js';

const withPassword = accountRow.extend({ password_hash: z.string().nullable() });
const sessionRow = accountRow.extend({ created_at: instant, seen_at: instant });

const toAccount = (row: z.output<typeof accountRow>): Account => ({
  id: row.account_id,
  role: row.role,
  name: row.name,
  email: row.email,
});

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

  async insertSession(tx: Tx, tokenHash: Buffer, accountId: string, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `insert into session (studio_id, token_hash, account_id, created_at, seen_at) values ($1, $2, $3, $4, $4)`,
      [tx.studioId, tokenHash, accountId, at],
    );
  }

  /** The account behind a session that began after `begunAfter` and was seen after `seenAfter`. */
  async bySession(
    tx: Tx,
    tokenHash: Buffer,
    begunAfter: Temporal.Instant,
    seenAfter: Temporal.Instant,
  ): Promise<{ account: Account; seenAt: Temporal.Instant } | null> {
    const row = await tx.maybe(
      sessionRow,
      `select a.*, s.created_at, s.seen_at from session s
       join account a on a.studio_id = s.studio_id and a.account_id = s.account_id
       where s.studio_id = $1 and s.token_hash = $2 and s.created_at > $3 and s.seen_at > $4`,
      [tx.studioId, tokenHash, begunAfter, seenAfter],
    );
    return row && { account: toAccount(row), seenAt: row.seen_at };
  }

  async touchSession(tx: Tx, tokenHash: Buffer, at: Temporal.Instant): Promise<void> {
    await tx.run('update session set seen_at = $3 where studio_id = $1 and token_hash = $2', [
      tx.studioId,
      tokenHash,
      at,
    ]);
  }

  async deleteSession(tx: Tx, tokenHash: Buffer): Promise<void> {
    await tx.run('delete from session where studio_id = $1 and token_hash = $2', [tx.studioId, tokenHash]);
  }

  /** Deletes the sessions that began, or were last seen, no later than these instants. */
  async deleteSessionsOver(tx: Tx, begun: Temporal.Instant, seen: Temporal.Instant): Promise<void> {
    await tx.run('delete from session where studio_id = $1 and (created_at <= $2 or seen_at <= $3)', [
      tx.studioId,
      begun,
      seen,
    ]);
  }
}
