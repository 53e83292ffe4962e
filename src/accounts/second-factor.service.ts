// The second factor: a code of an authenticator, or one of the recovery codes, beside the password or the mailed link.
// Its methods take the caller's transaction.
import { Injectable } from '@nestjs/common';
import { Clock, Random } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { derived, hashOf } from '../platform/security/tokens.js';
import type { Account } from './accounts.schemas.js';
import {
  forAuthenticator,
  RECOVERY_BYTES,
  RECOVERY_CODES,
  recoveryCode,
  recoveryCodeTyped,
  SECRET_BYTES,
  stepOfCode,
} from './one-time-code.calc.js';
import { SecondFactorStore } from './second-factor.store.js';

/** What an authenticator is given; shown only until it is confirmed. */
export interface Proposed {
  uri: string;
  typed: string;
}

@Injectable()
export class SecondFactorService {
  private readonly store = new SecondFactorStore();

  constructor(
    private readonly config: Config,
    private readonly clock: Clock,
    private readonly random: Random,
  ) {}

  /** Whether an account is asked for a code. */
  async isOn(tx: Tx, accountId: string): Promise<boolean> {
    return ((await this.store.of(tx, accountId))?.confirmedAt ?? null) !== null;
  }

  async recoveryLeft(tx: Tx, accountId: string): Promise<number> {
    return this.store.recoveryLeft(tx, accountId);
  }

  /** What an authenticator is to be given while the second step is off; null while it is on. */
  async proposed(tx: Tx, account: Account, studioName: string): Promise<Proposed | null> {
    const found = await this.store.of(tx, account.id);
    if (found?.confirmedAt) return null;
    return forAuthenticator(this.secret(account.id, found?.generation ?? 1), studioName, account.email);
  }

  /** Turns it on. @returns the recovery codes, told this once. @throws AppError bad_input, wrong_state */
  async confirm(tx: Tx, accountId: string, typed: string): Promise<string[]> {
    const found = await this.store.of(tx, accountId);
    if (found?.confirmedAt) throw new AppError('wrong_state');
    const generation = found?.generation ?? 1;
    const now = this.clock.now();
    const step = stepOfCode(this.secret(accountId, generation), typed, now.epochMilliseconds);
    if (step === null) throw wrongCode();
    if (!(await this.store.confirm(tx, accountId, generation, step, now))) throw new AppError('wrong_state');
    return this.newRecovery(tx, accountId);
  }

  /** Replaces all recovery codes. @returns the new ones, told this once */
  async newRecovery(tx: Tx, accountId: string): Promise<string[]> {
    const codes = Array.from({ length: RECOVERY_CODES }, () =>
      recoveryCode(this.random.bytes(RECOVERY_BYTES)),
    );
    await this.store.replaceRecovery(tx, accountId, codes.map(hashOf));
    return codes;
  }

  /** Uses a code up, of the authenticator or for recovery. @throws AppError bad_input for a wrong one, or one used before */
  async use(tx: Tx, accountId: string, typed: string): Promise<void> {
    const found = await this.store.of(tx, accountId);
    if (!found?.confirmedAt) throw new AppError('wrong_state');
    const now = this.clock.now().epochMilliseconds;
    const step = stepOfCode(this.secret(accountId, found.generation), typed, now);
    if (step !== null && (await this.store.takeStep(tx, accountId, step))) return;
    const recovery = recoveryCodeTyped(typed);
    if (recovery && (await this.store.useRecovery(tx, accountId, hashOf(recovery), this.clock.now()))) return;
    throw wrongCode();
  }

  async turnOff(tx: Tx, accountId: string): Promise<void> {
    await this.store.turnOff(tx, accountId);
  }

  private secret(accountId: string, generation: number): Buffer {
    return derived(this.config.secretKey, 'second factor', accountId, generation).subarray(0, SECRET_BYTES);
  }
}

const wrongCode = () =>
  new AppError('bad_input', undefined, [
    {
      field: 'code',
      message:
        'This code is not right, or was used already. Wait for the next one, or check the clock of your phone.',
    },
  ]);
