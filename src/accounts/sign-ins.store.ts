// SQL of sessions: who is signed in, on which device, and since when.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { instant } from '../platform/db/row.js';
import type { Tx } from '../platform/db/tx.js';
import { type Account, accountRow, toAccount } from './accounts.schemas.js';

const withAccount = accountRow.extend({
  session_id: z.uuid(),
  created_at: instant,
  seen_at: instant,
  awaits_code: z.boolean(),
});
const listed = z.object({ session_id: z.uuid(), agent: z.string(), created_at: instant, seen_at: instant });

/** A session that began, or was last seen, no later than these is over. */
export interface SessionLimits {
  begun: Temporal.Instant;
  seen: Temporal.Instant;
}

export interface NewSession {
  id: string;
  tokenHash: Buffer;
  accountId: string;
  agent: string;
  awaitsCode: boolean;
}

export interface OpenSession {
  id: string;
  account: Account;
  seenAt: Temporal.Instant;
  begunAt: Temporal.Instant;
  awaitsCode: boolean;
}

/** One line of the list of sessions. */
export interface ListedSession {
  id: string;
  agent: string;
  begunAt: Temporal.Instant;
  seenAt: Temporal.Instant;
}

export class SignInsStore {
  async insert(tx: Tx, session: NewSession, at: Temporal.Instant): Promise<void> {
    await tx.run(
      `insert into session (studio_id, session_id, token_hash, account_id, agent, awaits_code, created_at, seen_at)
       values ($1, $2, $3, $4, $5, $6, $7, $7)`,
      [tx.studioId, session.id, session.tokenHash, session.accountId, session.agent, session.awaitsCode, at],
    );
  }

  async byHash(tx: Tx, tokenHash: Buffer, after: SessionLimits): Promise<OpenSession | null> {
    const row = await tx.maybe(
      withAccount,
      `select a.*, s.session_id, s.created_at, s.seen_at, s.awaits_code from session s
       join account a on a.studio_id = s.studio_id and a.account_id = s.account_id
       where s.studio_id = $1 and s.token_hash = $2 and s.created_at > $3 and s.seen_at > $4`,
      [tx.studioId, tokenHash, after.begun, after.seen],
    );
    return (
      row && {
        id: row.session_id,
        account: toAccount(row),
        seenAt: row.seen_at,
        begunAt: row.created_at,
        awaitsCode: row.awaits_code,
      }
    );
  }

  /** Those that are in, the last seen first. */
  async ofAccount(tx: Tx, accountId: string, after: SessionLimits): Promise<ListedSession[]> {
    const rows = await tx.many(
      listed,
      `select session_id, agent, created_at, seen_at from session
       where studio_id = $1 and account_id = $2 and not awaits_code and created_at > $3 and seen_at > $4
       order by seen_at desc, session_id`,
      [tx.studioId, accountId, after.begun, after.seen],
    );
    return rows.map((row) => ({
      id: row.session_id,
      agent: row.agent,
      begunAt: row.created_at,
      seenAt: row.seen_at,
    }));
  }

  async touch(tx: Tx, tokenHash: Buffer, at: Temporal.Instant): Promise<void> {
    await tx.run('update session set seen_at = $3 where studio_id = $1 and token_hash = $2', [
      tx.studioId,
      tokenHash,
      at,
    ]);
  }

  async delete(tx: Tx, tokenHash: Buffer): Promise<void> {
    await tx.run('delete from session where studio_id = $1 and token_hash = $2', [tx.studioId, tokenHash]);
  }

  async deleteOne(tx: Tx, accountId: string, sessionId: string): Promise<void> {
    await tx.run('delete from session where studio_id = $1 and account_id = $2 and session_id = $3', [
      tx.studioId,
      accountId,
      sessionId,
    ]);
  }

  /** @param but the session that stays; null for none */
  async deleteOthers(tx: Tx, accountId: string, but: string | null): Promise<void> {
    await tx.run(
      'delete from session where studio_id = $1 and account_id = $2 and session_id is distinct from $3::uuid',
      [tx.studioId, accountId, but],
    );
  }

  async deleteOver(tx: Tx, limits: SessionLimits): Promise<void> {
    await tx.run('delete from session where studio_id = $1 and (created_at <= $2 or seen_at <= $3)', [
      tx.studioId,
      limits.begun,
      limits.seen,
    ]);
  }
}
