// Signing in and out, by password or by a mailed link that works once within ten minutes.
import { Injectable, Logger } from '@nestjs/common';
import { hash, verify } from '@node-rs/argon2';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { Jobs } from '../platform/jobs/registry.js';
import { AppError } from '../platform/problems.js';
import { type Account, type NewAccount, newAccount, SIGN_IN_LINK_MINUTES } from './accounts.schemas.js';
import { AccountsStore } from './accounts.store.js';
import { LinksService } from './links.service.js';
import { SecondFactorService } from './second-factor.service.js';
import { SignInsService } from './sign-ins.service.js';
import type { OpenSession } from './sign-ins.store.js';
import { SignInLimit } from './sign-in-limit.js';

/** A hash of nothing anyone can type, so that an unknown address takes as long as a wrong password. */
const NOBODY = hash(Buffer.from('nobody has this password'));

@Injectable()
export class AccountsService {
  private readonly store = new AccountsStore();
  /** Who was refused, by ids: an address may be anybody's, or a password in the wrong box. */
  private readonly log = new Logger('Sign-in');

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly jobs: Jobs,
    private readonly links: LinksService,
    private readonly limit: SignInLimit,
    private readonly sessions: SignInsService,
    private readonly factor: SecondFactorService,
  ) {}

  async create(tx: Tx, input: NewAccount): Promise<Account> {
    const { password, ...wanted } = newAccount.parse(input);
    const account = { id: this.random.id(), ...wanted };
    await this.store.insert(tx, account, password ? await hash(password) : null, this.clock.now());
    return account;
  }

  /**
   * @param agent what the browser says of itself
   * @returns the secret of a new session, which may still wait for a code: see `awaitsCode`
   * @throws AppError wrong_sign_in, the same for both mistakes; too_many_requests
   */
  async signIn(studioId: string, email: string, password: string, agent = ''): Promise<string> {
    this.limit.count(studioId, 'password', email);
    const found = await this.db.inStudio(studioId, (tx) => this.store.byEmail(tx, email));
    const right = await verify(found?.passwordHash ?? (await NOBODY), password);
    if (!found?.passwordHash || !right) {
      this.log.warn(`Studio ${studioId}, account ${found?.account.id ?? 'of nobody'}: wrong password.`);
      throw new AppError('wrong_sign_in');
    }
    this.limit.forget(studioId, 'password', email);
    return this.db.inStudio(studioId, (tx) => this.begin(tx, found.account, agent));
  }

  /**
   * Mails a sign-in link if the address belongs to someone here, who has come in by their invitation before. For any
   * other address the same is done for nobody, so that neither the answer nor its time tells the caller which it was.
   * @throws AppError too_many_requests
   */
  async askForLink(studioId: string, email: string): Promise<void> {
    this.limit.count(studioId, 'link', email);
    await this.db.inStudio(studioId, async (tx) => {
      const found = await this.store.byEmail(tx, email);
      const invited = found?.account.role === 'assistant' && found.passwordHash === null;
      const subject = found && !invited ? found.account.id : this.random.id();
      const expires = this.clock.now().add({ minutes: SIGN_IN_LINK_MINUTES });
      const link = await this.links.make(tx, 'sign-in', subject, expires);
      await this.jobs.enqueue(tx, 'sign-in.asked', { linkId: link.id }, { key: link.id });
    });
  }

  /** Whether a sign-in link still works; changes nothing. @throws AppError not_found, link_expired, link_used */
  async checkLink(studioId: string, token: string): Promise<void> {
    await this.db.inStudio(studioId, (tx) => this.links.open(tx, 'sign-in', token));
  }

  /** Uses a sign-in link up. @returns the secret of a new session, which may still wait for a code */
  async signInByLink(studioId: string, token: string, agent = ''): Promise<string> {
    return this.db.inStudio(studioId, async (tx) => {
      const link = await this.links.open(tx, 'sign-in', token);
      await this.links.use(tx, link);
      const account = await this.store.byId(tx, link.subjectId);
      if (!account) throw new AppError('not_found');
      return this.begin(tx, account, agent);
    });
  }

  /** Whether a session waits for its code and opens nothing yet. */
  async awaitsCode(studioId: string, secret: string | undefined): Promise<boolean> {
    if (!secret) return false;
    return this.db.inStudio(studioId, async (tx) => (await this.sessions.awaitingCode(tx, secret)) !== null);
  }

  /**
   * Uses a code up for a session that waits for one, which ends.
   * @returns the secret of the session that follows it
   * @throws AppError bad_input, too_many_requests; sign_in_needed when none waits, or it waited too long
   */
  async giveCode(studioId: string, secret: string, code: string, agent = ''): Promise<string> {
    return this.db.inStudio(studioId, async (tx) => {
      const half = await this.sessions.awaitingCode(tx, secret);
      if (!half) throw new AppError('sign_in_needed', 'That took too long. Please sign in again.');
      const { account } = half;
      this.limit.count(studioId, 'code', account.email);
      await this.factor.use(tx, account.id, code).catch((error) => {
        this.log.warn(`Studio ${studioId}, account ${account.id}: wrong code.`);
        throw error;
      });
      this.limit.forget(studioId, 'code', account.email);
      await this.sessions.end(tx, secret);
      await this.recordSignIn(tx, account);
      return this.sessions.begin(tx, account.id, agent, false);
    });
  }

  /** Who holds a session, or null. */
  async signedIn(studioId: string, secret: string | undefined): Promise<Account | null> {
    return (await this.session(studioId, secret))?.account ?? null;
  }

  /** The session of a secret, or null. */
  async session(studioId: string, secret: string | undefined): Promise<OpenSession | null> {
    if (!secret) return null;
    return this.db.inStudio(studioId, (tx) => this.sessions.signedIn(tx, secret));
  }

  async signOut(studioId: string, secret: string): Promise<void> {
    await this.db.inStudio(studioId, (tx) => this.sessions.end(tx, secret));
  }

  async byId(tx: Tx, id: string): Promise<Account | null> {
    return this.store.byId(tx, id);
  }

  async owner(tx: Tx): Promise<Account> {
    return this.store.owner(tx);
  }

  private async begin(tx: Tx, account: Account, agent: string): Promise<string> {
    const awaitsCode = await this.factor.isOn(tx, account.id);
    if (!awaitsCode) await this.recordSignIn(tx, account);
    return this.sessions.begin(tx, account.id, agent, awaitsCode);
  }

  private recordSignIn(tx: Tx, { id, name }: Account): Promise<void> {
    return recordHistory(tx, this.clock, {
      who: name,
      aboutKind: 'account',
      aboutId: id,
      event: 'signed in',
    });
  }
}
