// SQL of authenticators and recovery codes.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { instant } from '../platform/db/row.js';
import type { Tx } from '../platform/db/tx.js';

const factorRow = z.object({ generation: z.number(), confirmed_at: instant.nullable() });

export interface SecondFactor {
  generation: number;
  /** Null while it is off. */
  confirmedAt: Temporal.Instant | null;
}

export class SecondFactorStore {
  async of(tx: Tx, accountId: string): Promise<SecondFactor | null> {
    const row = await tx.maybe(
      factorRow,
      'select generation, confirmed_at from second_factor where studio_id = $1 and account_id = $2',
      [tx.studioId, accountId],
    );
    return row && { generation: row.generation, confirmedAt: row.confirmed_at };
  }

  /** False when one was taken in force meanwhile. */
  async confirm(
    tx: Tx,
    accountId: string,
    generation: number,
    step: number,
    at: Temporal.Instant,
  ): Promise<boolean> {
    const touched = await tx.run(
      `insert into second_factor (studio_id, account_id, generation, last_step, confirmed_at)
       values ($1, $2, $3, $4, $5)
       on conflict (studio_id, account_id) do update set confirmed_at = $5, last_step = $4
       where second_factor.confirmed_at is null and second_factor.generation = $3`,
      [tx.studioId, accountId, generation, step, at],
    );
    return touched === 1;
  }

  /** False when the code of this step, or of a later one, was taken before, whoever was first. */
  async takeStep(tx: Tx, accountId: string, step: number): Promise<boolean> {
    const touched = await tx.run(
      'update second_factor set last_step = $3 where studio_id = $1 and account_id = $2 and last_step < $3',
      [tx.studioId, accountId, step],
    );
    return touched === 1;
  }

  /** Its next secret is another. */
  async turnOff(tx: Tx, accountId: string): Promise<void> {
    await tx.run(
      `update second_factor set confirmed_at = null, generation = generation + 1
       where studio_id = $1 and account_id = $2`,
      [tx.studioId, accountId],
    );
    await this.replaceRecovery(tx, accountId, []);
  }

  async replaceRecovery(tx: Tx, accountId: string, hashes: Buffer[]): Promise<void> {
    await tx.run('delete from recovery_code where studio_id = $1 and account_id = $2', [
      tx.studioId,
      accountId,
    ]);
    await tx.run(
      'insert into recovery_code (studio_id, account_id, code_hash) select $1, $2, unnest($3::bytea[])',
      [tx.studioId, accountId, hashes],
    );
  }

  /** False when there is none such, or it was used before. */
  async useRecovery(tx: Tx, accountId: string, hash: Buffer, at: Temporal.Instant): Promise<boolean> {
    const touched = await tx.run(
      `update recovery_code set used_at = $4
       where studio_id = $1 and account_id = $2 and code_hash = $3 and used_at is null`,
      [tx.studioId, accountId, hash, at],
    );
    return touched === 1;
  }

  async recoveryLeft(tx: Tx, accountId: string): Promise<number> {
    const row = await tx.one(
      z.object({ left: z.number() }),
      `select count(*)::int as left from recovery_code
       where studio_id = $1 and account_id = $2 and used_at is null`,
      [tx.studioId, accountId],
    );
    return row.left;
  }
}
