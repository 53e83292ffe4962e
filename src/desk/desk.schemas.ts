// What the owner sends from the desk's forms, checked, with a plain sentence for each mistake.
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { SITTER_AGE_BANDS } from '../people/people.schemas.js';

const CHOOSE = 'Please choose one of the places.';
export const LONGEST_MESSAGE = 2000;

/** A start as the page's own choices give it: "2027-05-14T11:15", time at the studio. */
export const approveForm = z.object({
  start: z.string(CHOOSE).transform((text, context) => {
    try {
      if (!/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/.test(text)) throw new RangeError();
      return Temporal.PlainDateTime.from(text);
    } catch {
      context.addIssue({ code: 'custom', message: CHOOSE });
      return z.NEVER;
    }
  }),
});

/** A ticked box is sent as "yes", an empty one not at all. */
export const poseForm = z.object({
  ageBand: z.enum(SITTER_AGE_BANDS, 'Please choose an age.'),
  headRest: z
    .literal('yes')
    .optional()
    .transform((sent) => sent === 'yes'),
});

/** What no database holds is dropped, and with it half of each line break that a browser sends. */
export const declineForm = z.object({
  message: z
    .string('Please say a word to them.')
    .transform((text) => text.replace(/[^\P{Cc}\n\t]/gu, '').trim()),
});

/** The act to be undone. */
export const undoForm = z.object({ act: z.uuid('Please choose again.') });
