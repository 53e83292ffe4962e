// The reminders that somebody with a place is still to get: for their own page, and for programs at their own door.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Visit } from '../travel/journey.calc.js';
import { type Contact, REACHED_BY } from './people.schemas.js';

/** What a reminder is about, from the earliest to the day itself. */
export const REMINDED_OF = ['travel', 'week', 'near', 'eve', 'day'] as const;

/** A place that is theirs, of a sitting or of a day of teaching. */
export interface FirmPlace {
  of: { sittingId: string } | { signUpId: string };
  /** How often it was changed: reminders of an earlier place are of no use. */
  turns: number;
  contact: Contact;
  place: Visit & { zone: string; wallStart: Temporal.PlainDateTime };
}

export interface LetterToCome {
  about: (typeof REMINDED_OF)[number];
  /** The date where they will be then. */
  on: Temporal.PlainDate;
  by: Contact['reachBy'];
}

export const remindersAnswer = z.object({
  /** They said that they want none. */
  stopped: z.boolean(),
  /** The earliest first; null without a place, before they are planned, and while none goes. */
  toCome: z
    .array(z.object({ about: z.enum(REMINDED_OF), on: z.iso.date(), by: z.enum(REACHED_BY) }))
    .nullable(),
});

export const toReminders = (
  { remindersStoppedAt }: Pick<Contact, 'remindersStoppedAt'>,
  letters: LetterToCome[] | null,
): z.output<typeof remindersAnswer> => ({
  stopped: remindersStoppedAt !== null,
  toCome: letters?.map(({ about, on, by }) => ({ about, on: on.toString(), by })) ?? null,
});
