// What people put right about themselves on their own page, and what they may only ask for: checked field by field.
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { theirLanguage } from '../people/ways.schemas.js';
import { checkWays, guardian, longText, MOST_SITTERS, personName, ways } from './request.schemas.js';
import type { SittingState } from './states.calc.js';

/** Details are put right and other plates are asked for while something lies ahead. */
export const CORRECTED_IN: readonly SittingState[] = ['requested', 'waiting', 'offered', 'confirmed'];

export const corrections = ways
  .extend({
    name: personName('Please tell us your name.'),
    /** In the order in which they were named; as many as there are. */
    sitters: z.array(personName('Please give this person a name.')).min(1).max(MOST_SITTERS),
    /** GeoNames id; null: they come from where we know. */
    homeId: z.int().positive('Please choose the place you travel from.').nullable(),
    /** Absent: as it was. */
    language: theirLanguage.optional(),
    brings: longText(2000).default(''),
    /** Takes the place of what we were told; '' leaves that as it is. */
    access: longText(2000).default(''),
    /** What we were told is taken away. */
    accessGone: z.boolean().default(false),
    /** Absent: as it was. */
    guardian: guardian.nullable().optional(),
  })
  .superRefine(checkWays, { when: ({ value }) => ways.safeParse(value).success });
export type Corrections = z.output<typeof corrections>;

export const wishForm = z.object({
  words: longText(2000).pipe(z.string().min(1, 'Please tell the studio what you would like.')),
});

/** Which wish was answered: as it was read. */
export const wishAnswered = z.object({
  asked: z.string().transform((text, context) => {
    try {
      return Temporal.Instant.from(text);
    } catch {
      context.addIssue({ code: 'custom', message: 'Please answer the wish as it stands now.' });
      return z.NEVER;
    }
  }),
});

/** What somebody asks to change that would change the plan. */
export interface Wish {
  sittingId: string;
  words: string;
  askedAt: Temporal.Instant;
}
