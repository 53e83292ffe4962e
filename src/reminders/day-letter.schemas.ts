// The owner's letter about the day ahead: when it goes, and what it tells.
import { z } from 'zod';
import { whole } from '../stock/preparation-forms.schemas.js';
import { letterStudio } from './letters.schemas.js';

export interface DayLetterRule {
  /** The hour on the studio's clock, 4 to 21; from EVENING on it tells of tomorrow only. */
  hour: number;
  on: boolean;
}
/** Before the bench is set up. Assumption. */
export const DEFAULT_DAY_LETTER: DayLetterRule = { hour: 7, on: true };
export const HOURS = { from: 4, until: 21 };
/** A letter at such an hour, or later, is about tomorrow. */
export const EVENING = 15;

export const dayLetterRow = z.object({ hour: z.number(), is_on: z.boolean() });

/** The rule as it is typed into the form. */
export const dayLetterForm = z.object({
  hour: whole(HOURS.from, HOURS.until, `Please give a full hour, ${HOURS.from} to ${HOURS.until}.`),
  off: z
    .literal('yes')
    .optional()
    .transform((sent) => sent === 'yes'),
});

const comes = z.object({
  at: z.string(),
  name: z.string(),
  /** Null for a sitting; else how many learn. */
  learn: z.number().nullable(),
});
/** Somebody with a place, or a teaching day. */
export type Comes = z.output<typeof comes>;

export const dayLetter = z.object({
  studio: letterStudio,
  /** The date it is sent on. */
  day: z.string(),
  evening: z.boolean(),
  /** Who comes; today is empty in the evening. */
  today: z.array(comes),
  tomorrow: z.array(comes),
  /** What must be done by a date, the first first. */
  due: z.array(z.object({ what: z.string(), by: z.string() })),
  /** Offers that run out today or tomorrow: the wall time at the studio. */
  offers: z.array(z.object({ name: z.string(), until: z.string() })),
  /** Whom mail does not reach: to telephone, or null where it is a letter to post. */
  calls: z.array(z.object({ name: z.string(), telephone: z.string().nullable() })),
});
export type DayLetter = z.output<typeof dayLetter>;
