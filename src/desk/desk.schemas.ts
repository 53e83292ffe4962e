// What the owner sends from the desk's forms, checked, with a plain sentence for each mistake.
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';

const CHOOSE = 'Please choose one of the places.';
export const LONGEST_MESSAGE = 2000;

/** A start as the page's own choices give it: "2027-05-14T11:15", time at the studio. */
export const approveForm = z.object({
  start: z.string(CHOOSE).transform((text, context) => {
    try {
      if (!/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/.test(text)) throw new RangeError();
      return Temporal.PlainDateTime.from(text, { overflow: 'reject' });
    } catch {
      context.addIssue({ code: 'custom', message: CHOOSE });
      return z.NEVER;
    }
  }),
});

/** Line breaks of a browser count as one character, and what no database holds is dropped. */
export const declineForm = z.object({
  message: z.string('Please say a word to them.').transform((text) =>
    text
      .replace(/\r\n?/g, '\n')
      .replace(/[^\P{Cc}\n\t]/gu, '')
      .trim(),
  ),
});
