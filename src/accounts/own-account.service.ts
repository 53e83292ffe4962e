// What somebody does with their own account: password, sessions, second factor. Whoever changes how to come in gives
// the password once more, or a code, so that a screen left open is not enough.
import { Injectable } from '@nestjs/common';
import { hash, verify } from '@node-rs/argon2';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import type { Studio } from '../studios/studios.schemas.js';
import { type Account, codeForm, endSessionForm, passwordForm, turnOnForm } from './accounts.schemas.js';
import { AccountsStore } from './accounts.store.js';
import { passwordProblem } from './passwords.calc.js';
import { type Proposed, SecondFactorService } from './second-factor.service.js';
import { SignInsService } from './sign-ins.service.js';
import type { ListedSession } from './sign-ins.store.js';
import { SignInLimit } from './sign-in-limit.js';

export interface OwnAccount {
  sessions: (ListedSession & { current: boolean })[];
  factorOn: boolean;
  recoveryLeft: number;
  hasPassword: boolean;
}

/** What was done at the machine's console. */
export interface TurnedOff {
  account: Account;
  wasOn: boolean;
  /** So many were signed in. */
  sessions: number;
}

const WHO_HAS_THE_MACHINE = 'whoever has the machine';

@Injectable()
export class OwnAccountService {
  private readonly store = new AccountsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly sessions: SignInsService,
    private readonly factor: SecondFactorService,
    private readonly limit: SignInLimit,
  ) {}

  /** @param secret of the session that looks */
  async of(studioId: string, account: Account, secret: string | undefined): Promise<OwnAccount> {
    return this.db.inStudio(studioId, async (tx) => {
      const here = await this.here(tx, secret);
      const all = await this.sessions.ofAccount(tx, account);
      const found = await this.store.byEmail(tx, account.email);
      return {
        sessions: all.map((one) => ({ ...one, current: one.id === here })),
        factorOn: await this.factor.isOn(tx, account.id),
        recoveryLeft: await this.factor.recoveryLeft(tx, account.id),
        hasPassword: found?.passwordHash != null,
      };
    });
  }

  /** Sets another password and ends all other sessions. @throws AppError bad_input, too_many_requests */
  async changePassword(
    studio: Studio,
    account: Account,
    secret: string | undefined,
    input: unknown,
  ): Promise<void> {
    const { current, next } = readInput(passwordForm, input);
    const found = await this.db.inStudio(studio.id, (tx) => this.store.byEmail(tx, account.email));
    await this.prove(studio.id, account, found?.passwordHash, 'current', current);
    const problem = passwordProblem(next, [account.email, account.name, studio.name]);
    if (problem) throw new AppError('bad_input', undefined, [{ field: 'next', message: problem }]);
    const hashed = await hash(next);
    await this.db.inStudio(studio.id, async (tx) => {
      await this.store.setPassword(tx, account.id, hashed);
      await this.sessions.endOthers(tx, account.id, await this.here(tx, secret));
      await this.record(tx, account, 'password changed');
    });
  }

  /** What an authenticator is to be given; null where one is in force. */
  async proposed(studio: Studio, account: Account): Promise<Proposed | null> {
    return this.db.inStudio(studio.id, (tx) => this.factor.proposed(tx, account, studio.name));
  }

  /**
   * Takes the password too, since whoever finds the screen open sees the secret.
   * @returns the recovery codes, told this once. @throws AppError bad_input, wrong_state, too_many_requests
   */
  async turnOn(studioId: string, account: Account, input: unknown): Promise<string[]> {
    const { code, password } = readInput(turnOnForm, input);
    const found = await this.db.inStudio(studioId, (tx) => this.store.byEmail(tx, account.email));
    await this.prove(studioId, account, found?.passwordHash, 'password', password);
    return this.counted(studioId, account, async (tx) => {
      const codes = await this.factor.confirm(tx, account.id, code);
      await this.record(tx, account, 'second step turned on');
      return codes;
    });
  }

  /** @throws AppError bad_input, too_many_requests */
  async turnOff(studioId: string, account: Account, input: unknown): Promise<void> {
    const { code } = readInput(codeForm, input);
    await this.counted(studioId, account, async (tx) => {
      await this.factor.use(tx, account.id, code);
      await this.factor.turnOff(tx, account.id);
      await this.record(tx, account, 'second step turned off');
    });
  }

  /**
   * For whoever has neither phone nor recovery codes, and has the machine. Ends all their sessions.
   * @returns whose it was; null where nobody works here by that address
   */
  async turnOffAtMachine(studioId: string, email: string): Promise<TurnedOff | null> {
    return this.db.inStudio(studioId, async (tx) => {
      const account = (await this.store.byEmail(tx, email.trim().toLowerCase()))?.account;
      if (!account) return null;
      if (!(await this.factor.isOn(tx, account.id))) return { account, wasOn: false, sessions: 0 };
      const sessions = await this.sessions.ofAccount(tx, account);
      await this.factor.turnOff(tx, account.id);
      await this.sessions.endOthers(tx, account.id);
      await this.record(tx, account, 'second step turned off', WHO_HAS_THE_MACHINE);
      return { account, wasOn: true, sessions: sessions.length };
    });
  }

  /** @returns new recovery codes; the old ones work no more. @throws AppError bad_input, too_many_requests */
  async newRecovery(studioId: string, account: Account, input: unknown): Promise<string[]> {
    const { code } = readInput(codeForm, input);
    return this.counted(studioId, account, async (tx) => {
      await this.factor.use(tx, account.id, code);
      await this.record(tx, account, 'new recovery codes');
      return this.factor.newRecovery(tx, account.id);
    });
  }

  /** @returns the secret of a session to go on with after the password was given once more */
  async newSession(studioId: string, account: Account, agent: string): Promise<string> {
    return this.db.inStudio(studioId, (tx) => this.sessions.begin(tx, account.id, agent, false));
  }

  /** Nothing happens for a session that has ended, or is somebody else's. @throws AppError bad_input */
  async endSession(studioId: string, account: Account, input: unknown): Promise<void> {
    const { session } = readInput(endSessionForm, input);
    await this.db.inStudio(studioId, (tx) => this.sessions.endOne(tx, account.id, session));
  }

  /** Signs out everywhere but here. */
  async endOthers(studioId: string, account: Account, secret: string | undefined): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      await this.sessions.endOthers(tx, account.id, await this.here(tx, secret));
      await this.record(tx, account, 'signed out elsewhere');
    });
  }

  private async here(tx: Tx, secret: string | undefined): Promise<string | null> {
    return secret ? ((await this.sessions.signedIn(tx, secret))?.id ?? null) : null;
  }

  /** Nothing is asked of an account that has no password. */
  private async prove(
    studioId: string,
    account: Account,
    passwordHash: string | null | undefined,
    field: string,
    typed: string,
  ): Promise<void> {
    if (!passwordHash) return;
    this.limit.count(studioId, 'password', account.email);
    if (!(await verify(passwordHash, typed)))
      throw new AppError('bad_input', undefined, [{ field, message: 'This is not your password.' }]);
    this.limit.forget(studioId, 'password', account.email);
  }

  /** Codes are counted like those at the sign-in, so that a screen left open cannot be used to guess one. */
  private async counted<T>(studioId: string, account: Account, act: (tx: Tx) => Promise<T>): Promise<T> {
    this.limit.count(studioId, 'code', account.email);
    const done = await this.db.inStudio(studioId, act);
    this.limit.forget(studioId, 'code', account.email);
    return done;
  }

  private record(tx: Tx, account: Account, event: string, who = account.name): Promise<void> {
    return recordHistory(tx, this.clock, {
      who,
      aboutKind: 'account',
      aboutId: account.id,
      event,
      note: who === account.name ? '' : account.name,
    });
  }
}
