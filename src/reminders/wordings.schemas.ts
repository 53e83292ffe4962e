// The owner's own words for letters: of which kinds, and what is kept of a version.
import { z } from 'zod';
import { shortText, theirLanguage } from '../people/ways.schemas.js';
import { instant } from '../platform/db/row.js';
import type { TeachingLetter, TheirKind } from './letters.schemas.js';

export type { OwnWording } from './own-wording.schemas.js';

/** "owed": the letter of a place owed, which goes where somebody waits again. */
export type WordedKind = TheirKind | 'owed' | `teaching: ${TeachingLetter['change']}`;

export const WORDED: Record<string, readonly WordedKind[]> = {
  'Asking and offers': [
    ...(['asked', 'waiting', 'owed', 'offered', 'refused', 'lapsed', 'run out'] as const),
    ...(['called back', 'declined', 'withdrawn'] as const),
  ],
  'Confirmed and changed': [
    ...(['confirmed', 'moved', 'another day', 'released', 'called off', 'called off for good'] as const),
  ],
  'Before the day': [
    ...(['reminder: travel', 'reminder: week', 'reminder: near', 'reminder: eve', 'reminder: day'] as const),
  ],
  Teaching: [
    ...(['teaching: asked', 'teaching: waiting', 'teaching: offered', 'teaching: refused'] as const),
    ...(['teaching: lapsed', 'teaching: run out', 'teaching: signed', 'teaching: changed'] as const),
    ...(['teaching: declined', 'teaching: withdrawn', 'teaching: released', 'teaching: called off'] as const),
    ...(['teaching: reminder: travel', 'teaching: reminder: week', 'teaching: reminder: near'] as const),
    ...(['teaching: reminder: eve', 'teaching: reminder: day'] as const),
  ],
};
export const WORDED_KINDS = Object.values(WORDED).flat();

/** A kind as it stands in an address. */
export const slugOf = (kind: WordedKind): string => kind.replace(/[: ]+/g, '-');

export const wordingRow = z.object({
  kind: z.string(),
  language: theirLanguage,
  version: z.number(),
  subject: z.string(),
  body: z.string(),
  since: instant,
  who: z.string(),
});
/** A version; without words it goes back to ours. */
export type WordingVersion = z.output<typeof wordingRow>;

const MOST = { subject: 150, body: 5000 };
const lines = (text: string) =>
  text
    .replace(/\r\n?/g, '\n')
    .replace(/[^\P{Cc}\n]/gu, ' ')
    .trim();

export const wordingForm = z.object({
  subject: shortText(10_000, 'Please write a subject.').pipe(
    z.string().max(MOST.subject, `A subject has at most ${MOST.subject} characters.`),
  ),
  body: z
    .string('Please write what the letter says.')
    .transform(lines)
    .pipe(
      z
        .string()
        .min(1, 'Please write what the letter says.')
        .max(
          MOST.body,
          `Please keep this under ${new Intl.NumberFormat('en').format(MOST.body)} characters.`,
        ),
    ),
  /** The newest version when the form was shown; 0 for none. */
  seen: z.coerce.number('Please send the form again.').int().min(0).max(1_000_000),
});
export type WordingForm = z.output<typeof wordingForm>;

export const backForm = z.object({
  /** 0 for ours. */
  version: z.coerce.number('Please choose a version.').int().min(0).max(1_000_000),
});
