// Signing in and out, by password or by a mailed link that works once within ten minutes.
import { Injectable } from '@nestjs/common';
import { hash, verify } from '@node-rs/argon2';
import type { Temporal } from 'temporal-polyfill';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { Jobs } from '../platform/jobs/registry.js';
import { AppError } from '../platform/problems.js';
import { hashOf, looksLikeToken } from '../platform/security/tokens.js';
import { type Account, type NewAccount, newAccount, SIGN_IN_LINK_MINUTES } from './accounts.schemas.js';
import { AccountsStore } from './accounts.store.js';
import { LinksService } from './links.service.js';
import { SignInLimit } from './sign-in-limit.js';

/** How long a session lives at most, and unused. Also the cookie's age. */
export const SESSION_DAYS = 30;
const SESSION_IDLE_DAYS = 14;
/** A hash of nothing anyone can type, so that an unknown address takes as long as a wrong password. */
const NOBODY = hash(Buffer.from('nobody has this password'));

@Injectable()
export class AccountsService {
  private readonly store = new AccountsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly jobs: Jobs,
    private readonly links: LinksService,
    private readonly limit: SignInLimit,
  ) {}

  async create(tx: Tx, input: NewAccount): Promise<Account> {
    const { password, ...wanted } = newAccount.parse(input);
    const account = { id: this.random.id(), ...wanted };
    await this.store.insert(tx, account, password ? await hash(password) : null, this.clock.now());
    return account;
  }

  /** @returns the secret of a new session. @throws AppError wrong_sign_in, the same for both mistakes; too_many_requests */
  async signIn(studioId: string, email: string, password: string): Promise<string> {
    this.limit.count(studioId, 'password', email);
    const found = await this.db.inStudio(studioId, (tx) => this.store.byEmail(tx, email));
    const right = await verify(found?.passwordHash ?? (await NOBODY), password);
    if (!found?.passwordHash || !right) throw new AppError('wrong_sign_in');
    this.limit.forget(studioId, 'password', email);
    return this.db.inStudio(studioId, (tx) => this.beginSession(tx, found.account));
  }

  /** Mails a sign-in link if the address belongs to someone here; the caller cannot tell whether it did. @throws AppError too_many_requests */
  async askForLink(studioId: string, email: string): Promise<void> {
    this.limit.count(studioId, 'link', email);
    await this.db.inStudio(studioId, async (tx) => {
      const found = await this.store.byEmail(tx, email);
      if (!found) return;
      const expires = this.clock.now().add({ minutes: SIGN_IN_LINK_MINUTES });
      const link = await this.links.make(tx, 'sign-in', found.account.id, expires);
      await this.jobs.enqueue(tx, 'sign-in.asked', { linkId: link.id }, { key: link.id });
    });
  }

  /** Whether a sign-in link still works; changes nothing. @throws AppError not_found, link_expired, link_used */
  async checkLink(studioId: string, token: string): Promise<void> {
    await this.db.inStudio(studioId, (tx) => this.links.open(tx, 'sign-in', token));
  }

  /** Uses a sign-in link up. @returns the secret of a new session */
  async signInByLink(studioId: string, token: string): Promise<string> {
    return this.db.inStudio(studioId, async (tx) => {
      const link = await this.links.open(tx, 'sign-in', token);
      await this.links.use(tx, link);
      const account = await this.store.byId(tx, link.subjectId);
      if (!account) throw new AppError('not_found');
      return this.beginSession(tx, account);
    });
  }

  /** Who holds a session, or null. */
  async signedIn(studioId: string, secret: string | undefined): Promise<Account | null> {
    if (!secret || !looksLikeToken(secret)) return null;
    const now = this.clock.now();
    return this.db.inStudio(studioId, async (tx) => {
      const { begun, seen } = this.sessionLimits();
      const found = await this.store.bySession(tx, hashOf(secret), begun, seen);
      if (!found) return null;
      if (found.seenAt.epochMilliseconds < now.epochMilliseconds - 3_600_000)
        await this.store.touchSession(tx, hashOf(secret), now);
      return found.account;
    });
  }

  async signOut(studioId: string, secret: string): Promise<void> {
    await this.db.inStudio(studioId, (tx) => this.store.deleteSession(tx, hashOf(secret)));
  }

  async byId(tx: Tx, id: string): Promise<Account | null> {
    return this.store.byId(tx, id);
  }

  async owner(tx: Tx): Promise<Account> {
    return this.store.owner(tx);
  }

  private async beginSession(tx: Tx, account: Account): Promise<string> {
    const secret = this.random.bytes(32).toString('base64url');
    const { begun, seen } = this.sessionLimits();
    await this.store.deleteSessionsOver(tx, begun, seen);
    await this.store.insertSession(tx, hashOf(secret), account.id, this.clock.now());
    return secret;
  }

  /** A session that began, or was last seen, no later than these is over. */
  private sessionLimits(): { begun: Temporal.Instant; seen: Temporal.Instant } {
    const now = this.clock.now();
    return {
      begun: now.subtract({ hours: 24 * SESSION_DAYS }),
      seen: now.subtract({ hours: 24 * SESSION_IDLE_DAYS }),
    };
  }
}
