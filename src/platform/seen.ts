// Two people change the same thing: whoever is second is told what the first has written, beside what they typed
// themselves, and nothing is overwritten unseen. A form carries a mark of what it showed; the act compares it with what
// stands there, under the lock of what it changes.
import { createHash } from 'node:crypto';
import { AppError, type FieldProblem, type ProblemCode } from './problems.js';

/** The hidden field with the mark. */
export const SEEN_FIELD = '_seen';

type Answers = Readonly<Record<string, unknown>>;

/** A mark of what a form shows: the same for the same answers, in whatever order they stand. */
export function seenOf(shown: Answers): string {
  const entries = Object.entries(shown).map(([name, value]) => [name, asTyped(value)]);
  return createHash('sha256')
    .update(JSON.stringify(entries.sort(([a = ''], [b = '']) => (a < b ? -1 : 1))))
    .digest('base64url')
    .slice(0, 22);
}

/**
 * The mark for a form that is shown again: what it was before, so that a change in between is still told; the present
 * one where that was just told.
 */
export function markAgain(stands: Answers, sent: Answers, code: ProblemCode): string {
  const before = sent[SEEN_FIELD];
  return typeof before === 'string' && code !== 'changed_meanwhile' ? before : seenOf(stands);
}

/**
 * To be asked with the lock held. A form without a mark, as the API has none, is let through.
 * @param stands what the form would show now
 * @throws AppError changed_meanwhile, with what stands there beside each field that differs from what was typed
 */
export function refuseChanged(sent: Answers, stands: Answers): void {
  const seen = sent[SEEN_FIELD];
  if (typeof seen !== 'string' || seen === seenOf(stands)) return;
  const differing = Object.entries(stands).flatMap(([field, value]): FieldProblem[] => {
    const now = asTyped(value);
    if (now === asTyped(sent[field])) return [];
    return [{ field, message: now === '' ? 'Meanwhile it was emptied.' : `Meanwhile it says: ${now}` }];
  });
  if (differing.length > 0)
    throw new AppError(
      'changed_meanwhile',
      'Somebody changed this while you were at it. What they wrote stands beside each box; sending again puts yours in its place.',
      differing,
    );
}

/** A value as a form holds it. */
function asTyped(value: unknown): string {
  if (Array.isArray(value)) return value.map(asTyped).join(', ');
  return typeof value === 'string' ? value.replace(/\r\n?/g, '\n').trim() : String(value ?? '');
}
