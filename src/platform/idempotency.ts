// The same request sent twice is done once: the first answer is kept under the caller's key, in the
// transaction of the act itself, and told again. A key used for another request is refused.
import { createHash } from 'node:crypto';
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Clock } from './clock.js';
import { bytes } from './db/row.js';
import type { Tx } from './db/tx.js';
import { AppError } from './problems.js';

/** The key under which an act is done once; minted with a form or chosen by an API client. */
export const requestKey = z.string().regex(/^[\x20-\x7e]{8,255}$/, 'A key has 8 to 255 plain characters.');

/** The Idempotency-Key of a call, if it has one. @throws AppError unreadable for a key that cannot be kept */
export function readKey(key: string | undefined): string | undefined {
  if (key !== undefined && !requestKey.safeParse(key).success)
    throw new AppError('unreadable', 'An Idempotency-Key has 8 to 255 plain characters.');
  return key;
}

const keptRow = z.object({ fingerprint: bytes, answer: z.unknown() });

/** Forgets the answers given no later than an instant: the same key then stands for a new act. */
export async function forgetAnswers(tx: Tx, at: Temporal.Instant): Promise<void> {
  await tx.run('delete from idempotency where studio_id = $1 and created_at <= $2', [tx.studioId, at]);
}

/**
 * Runs `act` unless `key` was used for `name` before; then gives the earlier answer back.
 * Two at once: the second waits for the first to commit, and then gets its answer.
 * @throws AppError same_key_other_request when `request` differs from the earlier one
 */
export async function once<T>(
  tx: Tx,
  clock: Clock,
  keyed: { name: string; key: string; request: unknown },
  answer: z.ZodType<T>,
  act: () => Promise<T>,
): Promise<T> {
  const fingerprint = createHash('sha256').update(JSON.stringify(keyed.request)).digest();
  const claimed = await tx.run(
    `insert into idempotency (studio_id, act, key, fingerprint, answer, created_at)
     values ($1, $2, $3, $4, 'null', $5) on conflict do nothing`,
    [tx.studioId, keyed.name, keyed.key, fingerprint, clock.now()],
  );
  if (claimed === 0) {
    const kept = await tx.one(
      keptRow,
      'select fingerprint, answer from idempotency where studio_id = $1 and act = $2 and key = $3',
      [tx.studioId, keyed.name, keyed.key],
    );
    if (!kept.fingerprint.equals(fingerprint)) throw new AppError('same_key_other_request');
    return answer.parse(kept.answer);
  }
  const given = await act();
  await tx.run('update idempotency set answer = $4 where studio_id = $1 and act = $2 and key = $3', [
    tx.studioId,
    keyed.name,
    keyed.key,
    JSON.stringify(given),
  ]);
  return given;
}
