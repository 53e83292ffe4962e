// Two people change the same thing: whoever is second is told what the first has written, beside what they typed
// themselves, and nothing is overwritten unseen. A form carries a mark of what it showed; the act compares it with what
// stands there, under the lock of what it changes.
import { createHash } from 'node:crypto';
import { AppError, type FieldProblem } from './problems.js';

/** The hidden field with the mark. */
export const SEEN_FIELD = '_seen';

type Answers = Readonly<Record<string, unknown>>;

/** Above the form; what stands there now is told beside each box. */
const WHAT_HAPPENED =
  'Somebody changed this while you were at it. What they wrote stands beside each box; sending again puts yours in its place.';

/** A mark of what a form shows: the same for the same answers, in whatever order they stand. */
export function seenOf(shown: Answers): string {
  const entries = Object.entries(shown).map(([name, value]) => [name, asTyped(value)]);
  return createHash('sha256')
    .update(JSON.stringify(entries.sort(([a = ''], [b = '']) => (a < b ? -1 : 1))))
    .digest('base64url')
    .slice(0, 22);
}

/**
 * To be asked with the lock held. A form without a mark, as the API has none, is let through. What is refused is told,
 * so the answers go on with the mark of what was told: sent again, they are taken.
 * @param stands what the form would show now
 * @param words how values of choices read
 * @throws AppError changed_meanwhile, with what stands there beside each field that differs from what was typed
 */
export function refuseChanged(
  sent: Record<string, unknown>,
  stands: Answers,
  words: Readonly<Record<string, string>> = {},
): void {
  const seen = sent[SEEN_FIELD];
  if (typeof seen !== 'string' || seen === seenOf(stands)) return;
  const differing = Object.entries(stands).flatMap(([field, value]): FieldProblem[] => {
    const [typed, now] = [asTyped(sent[field]), asTyped(value)];
    return typed === now ? [] : [{ field, message: inWords(typed, now, asTyped(value, words)) }];
  });
  if (differing.length === 0) return;
  sent[SEEN_FIELD] = seenOf(stands);
  throw new AppError('changed_meanwhile', WHAT_HAPPENED, [
    { field: '', message: WHAT_HAPPENED },
    ...differing,
  ]);
}

/** How choices by id read. */
export const namesOf = (things: readonly { id: string; name: string }[]): Record<string, string> =>
  Object.fromEntries(things.map(({ id, name }) => [id, name]));

/** What somebody else made of it; a tick is "yes" or nothing. */
function inWords(typed: string, now: string, told: string): string {
  if (now === 'yes' && typed === '') return 'Meanwhile it was ticked.';
  if (now === '') return typed === 'yes' ? 'Meanwhile the tick was taken away.' : 'Meanwhile it was emptied.';
  return `Meanwhile it says: ${told}`;
}

/** A value as a form holds it. */
function asTyped(value: unknown, words: Readonly<Record<string, string>> = {}): string {
  if (Array.isArray(value)) return value.map((one) => asTyped(one, words)).join(', ');
  const typed = typeof value === 'string' ? value.replace(/\r\n?/g, '\n').trim() : String(value ?? '');
  return words[typed] ?? typed;
}
