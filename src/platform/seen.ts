// Two people change the same thing: whoever is second is told what the first has written, beside what they typed
// themselves, and nothing is overwritten unseen. A form carries a mark of what it showed; the act compares it with what
// stands there, under the lock of what it changes.
import { createHash } from 'node:crypto';
import { AppError, type FieldProblem } from './problems.js';

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

const EMPTIED = 'Meanwhile it was emptied.';
const SAYS = 'Meanwhile it says: ';

/**
 * The mark of a form that is shown: of what stands there; the one it was sent with where it is shown again, so that a
 * change in between is still told, once.
 * @param values what the form is shown with: what was sent, or what stands there
 * @param errors what is told beside its fields
 */
export function markOf(stands: Answers, values: Answers, errors: readonly FieldProblem[]): string {
  const before = values[SEEN_FIELD];
  const isTold = errors.some(({ message }) => message === EMPTIED || message.startsWith(SAYS));
  return typeof before === 'string' && !isTold ? before : seenOf(stands);
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
    return [{ field, message: now === '' ? EMPTIED : `${SAYS}${now}` }];
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
