// Sessions: begun at the sign-in, listed, ended one by one or all at once. Its methods take the caller's transaction.
import { Injectable } from '@nestjs/common';
import { Clock, Random } from '../platform/clock.js';
import type { Tx } from '../platform/db/tx.js';
import { hashOf, looksLikeToken } from '../platform/security/tokens.js';
import type { Account } from './accounts.schemas.js';
import { type ListedSession, type OpenSession, type SessionLimits, SignInsStore } from './sign-ins.store.js';

/** How long a session lives at most, and unused. Also the cookie's age. */
export const SESSION_DAYS = 30;
const SESSION_IDLE_DAYS = 14;
/** So long a right password waits for its code. */
export const CODE_MINUTES = 10;
const LONGEST_AGENT = 300;

@Injectable()
export class SignInsService {
  private readonly store = new SignInsStore();

  constructor(
    private readonly clock: Clock,
    private readonly random: Random,
  ) {}

  /** @returns the secret of a new session, of which only a hash is kept */
  async begin(tx: Tx, accountId: string, agent: string, awaitsCode: boolean): Promise<string> {
    const secret = this.random.bytes(32).toString('base64url');
    await this.store.deleteOver(tx, this.limits());
    await this.store.insert(
      tx,
      {
        id: this.random.id(),
        tokenHash: hashOf(secret),
        accountId,
        agent: agent.slice(0, LONGEST_AGENT),
        awaitsCode,
      },
      this.clock.now(),
    );
    return secret;
  }

  /** Who holds a session, or null. */
  async signedIn(tx: Tx, secret: string): Promise<OpenSession | null> {
    const found = await this.open(tx, secret);
    if (!found || found.awaitsCode) return null;
    const now = this.clock.now();
    if (found.seenAt.epochMilliseconds < now.epochMilliseconds - 3_600_000)
      await this.store.touch(tx, hashOf(secret), now);
    return found;
  }

  /** Whoever gave the right password a few minutes ago and is still to give a code, or null. */
  async awaitingCode(tx: Tx, secret: string): Promise<OpenSession | null> {
    const found = await this.open(tx, secret);
    const late = this.clock.now().subtract({ minutes: CODE_MINUTES });
    return found?.awaitsCode && found.begunAt.epochMilliseconds > late.epochMilliseconds ? found : null;
  }

  async ofAccount(tx: Tx, account: Account): Promise<ListedSession[]> {
    return this.store.ofAccount(tx, account.id, this.limits());
  }

  async end(tx: Tx, secret: string): Promise<void> {
    await this.store.delete(tx, hashOf(secret));
  }

  async endOne(tx: Tx, accountId: string, sessionId: string): Promise<void> {
    await this.store.deleteOne(tx, accountId, sessionId);
  }

  /** Ends all sessions of an account, but one if it is given. */
  async endOthers(tx: Tx, accountId: string, but: string | null = null): Promise<void> {
    await this.store.deleteOthers(tx, accountId, but);
  }

  private async open(tx: Tx, secret: string): Promise<OpenSession | null> {
    return looksLikeToken(secret) ? this.store.byHash(tx, hashOf(secret), this.limits()) : null;
  }

  private limits(): SessionLimits {
    const now = this.clock.now();
    return {
      begun: now.subtract({ hours: 24 * SESSION_DAYS }),
      seen: now.subtract({ hours: 24 * SESSION_IDLE_DAYS }),
    };
  }
}
