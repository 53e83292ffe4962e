// Forms that take several steps, kept as they are typed: a row behind a secret in the address, of which only a hash is
// kept. What a form means is for its feature to say.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Tx } from './db/tx.js';
import { hashOf, looksLikeToken } from './security/tokens.js';

/** So long a draft waits for its writer to go on. */
export const DRAFTS_KEPT_DAYS = 14;

/** What was typed, by the names of the fields. */
export type Typed = Record<string, unknown>;

const draftRow = z.object({
  draft_id: z.uuid(),
  answers: z.record(z.string(), z.unknown()),
  sitting_id: z.uuid().nullable(),
});

export interface Draft {
  id: string;
  answers: Typed;
  /** The request it became; its answers are empty then. */
  sittingId: string | null;
}

/** NUL, and half a surrogate pair, no text of the database can hold: they become spaces. */
const asText = (typed: Typed) =>
  JSON.stringify(typed, (_name, value: unknown) =>
    typeof value === 'string' ? value.replace(/\0|\p{Cs}/gu, ' ') : value,
  );

export async function keepDraft(
  tx: Tx,
  draft: { id: string; token: string; answers: Typed; at: Temporal.Instant },
): Promise<void> {
  await tx.run(
    `insert into request_draft (studio_id, draft_id, token_hash, answers, saved_at)
     values ($1, $2, $3, $4::jsonb, $5)`,
    [tx.studioId, draft.id, hashOf(draft.token), asText(draft.answers), draft.at],
  );
}

/** The draft behind a secret, locked until the transaction ends; null when there is none (any more). */
export async function openDraft(tx: Tx, token: string): Promise<Draft | null> {
  if (!looksLikeToken(token)) return null;
  const row = await tx.maybe(
    draftRow,
    'select draft_id, answers, sitting_id from request_draft where studio_id = $1 and token_hash = $2 for update',
    [tx.studioId, hashOf(token)],
  );
  return row && { id: row.draft_id, answers: row.answers, sittingId: row.sitting_id };
}

export async function saveDraft(tx: Tx, id: string, answers: Typed, at: Temporal.Instant): Promise<void> {
  await tx.run(
    'update request_draft set answers = $3::jsonb, saved_at = $4 where studio_id = $1 and draft_id = $2',
    [tx.studioId, id, asText(answers), at],
  );
}

/** The draft has become a request: what was typed is kept there now, and here no more. */
export async function endDraft(tx: Tx, id: string, sittingId: string): Promise<void> {
  await tx.run(
    `update request_draft set answers = '{}', sitting_id = $3 where studio_id = $1 and draft_id = $2`,
    [tx.studioId, id, sittingId],
  );
}

/** Forgets the drafts that nobody has gone on with since an instant. */
export async function forgetDrafts(tx: Tx, at: Temporal.Instant): Promise<void> {
  for (const table of ['request_draft', 'bring_in_draft'])
    await tx.run(`delete from ${table} where studio_id = $1 and saved_at <= $2`, [tx.studioId, at]);
}
