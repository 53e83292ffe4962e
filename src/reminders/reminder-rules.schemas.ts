// The studio's rule of reminders: which go, how long before the day, at what hour, and to whom.
import { z } from 'zod';
import { REMINDED_OF } from '../people/letters-to-come.schemas.js';
import { orNothing, whole } from '../stock/preparation-forms.schemas.js';

/** The kinds, from the earliest to the day itself. Of the kind 'travel' somebody is sent one at most. */
export const REMINDER_KINDS = REMINDED_OF;
export type ReminderKind = (typeof REMINDER_KINDS)[number];

/** Whom a rule is for, by how they come. */
export const FOR_WHOM = ['everyone', 'stays a night', 'flies', 'flies from abroad'] as const;
export type ForWhom = (typeof FOR_WHOM)[number];

/** Of which days a rule is: sittings, or days of teaching. */
export const FOR_DAYS = ['sitting', 'teaching'] as const;
export type ForDay = (typeof FOR_DAYS)[number];

/** What a reminder of a teaching day tells besides, each only while it is still open. */
export const TELLS = ['reading', 'safety', 'emergency', 'gear', 'deposit'] as const;
export type Tells = (typeof TELLS)[number];

export interface ReminderRule {
  id: string;
  forDay: ForDay;
  kind: ReminderKind;
  /** Dates before the date of the place, 0 to 365; 0 on the day itself. */
  days: number;
  /** The hour, on the clock of where they will be then; within the waking hours. */
  hour: number;
  forWhom: ForWhom;
  /** Only for who comes at least so far, kilometres over the earth; 0 for all. */
  leastKm: number;
  /** Only where so many days lie between the yes and the day; 0 for all. */
  leastLeadDays: number;
  /** In no order; nothing for sittings. */
  tells: readonly Tells[];
  on: boolean;
}

export const MOST_DAYS_BEFORE = 365;
/** Hours at which somebody may be written to. */
export const DAYTIME = { from: 8, until: 20 };
/** Of sittings, and as many of teaching days. */
export const MOST_RULES = 20;

/**
 * Three days and one day before: of 54,066 people reminded twice fewer stayed away (4.4 %) than of those reminded once (5.3 and
 * 5.8 %; Steiner et al., American Journal of Managed Care 24(8), 2018). The others are assumptions: how long ahead journeys are booked.
 */
const FOR_SITTINGS: readonly ReminderRule[] = [
  rule('travel', 90, 'flies from abroad'),
  rule('travel', 60, 'flies'),
  rule('travel', 21, 'stays a night'),
  rule('week', 7, 'everyone'),
  rule('near', 3, 'everyone'),
  rule('eve', 1, 'everyone'),
  { ...rule('day', 0, 'everyone'), hour: 8 },
];

/** What is missing goes with the letters there are, never as one more: assumption, four letters are enough for anybody. */
const TOLD: Partial<Record<ReminderKind, readonly Tells[]>> = {
  week: TELLS,
  near: ['safety', 'emergency', 'gear', 'deposit'],
  eve: ['reading', 'safety', 'emergency'],
};

export const DEFAULT_REMINDER_RULES: readonly ReminderRule[] = [
  ...FOR_SITTINGS,
  ...FOR_SITTINGS.map((one) => ({
    ...one,
    id: one.id.replace('-8000-', '-8001-'),
    forDay: 'teaching' as const,
    tells: TOLD[one.kind] ?? [],
  })),
];

/** The same ids in every studio, so that a rule can be changed before any was saved. */
function rule(kind: ReminderKind, days: number, forWhom: ForWhom): ReminderRule {
  const id = `00000000-0000-4000-8000-${String(days).padStart(12, '0')}`;
  const more = { hour: 10, leastKm: 0, leastLeadDays: 0, tells: [], on: true };
  return { id, forDay: 'sitting', kind, days, forWhom, ...more };
}

export const reminderRuleRow = z.object({
  rule_id: z.uuid(),
  for_day: z.enum(FOR_DAYS),
  tells: z.array(z.enum(TELLS)),
  kind: z.enum(REMINDER_KINDS),
  days: z.number(),
  hour: z.number(),
  for_whom: z.enum(FOR_WHOM),
  least_km: z.number(),
  least_lead_days: z.number(),
  is_on: z.boolean(),
});

export const toReminderRule = (row: z.output<typeof reminderRuleRow>): ReminderRule => ({
  id: row.rule_id,
  forDay: row.for_day,
  tells: row.tells,
  kind: row.kind,
  days: row.days,
  hour: row.hour,
  forWhom: row.for_whom,
  leastKm: row.least_km,
  leastLeadDays: row.least_lead_days,
  on: row.is_on,
});

const yes = z
  .literal('yes')
  .optional()
  .transform((sent) => sent === 'yes');
const hours = `Please give a full hour, ${DAYTIME.from} to ${DAYTIME.until}.`;

/** A rule as it is typed into the form. */
export const reminderForm = z.object({
  kind: z.enum(REMINDER_KINDS, 'Please choose what it tells.'),
  days: whole(0, MOST_DAYS_BEFORE, `Please give whole days, 0 to ${MOST_DAYS_BEFORE}.`),
  hour: whole(DAYTIME.from, DAYTIME.until, hours),
  forWhom: z.enum(FOR_WHOM, 'Please choose whom it is for.'),
  leastKm: orNothing(whole(0, 20_000, 'Please give whole kilometres, 0 to 20000.')),
  leastLeadDays: orNothing(whole(0, 730, 'Please give whole days, 0 to 730.')),
  /** Ticked boxes: one sends a text, several a list, none nothing. */
  tells: z
    .preprocess(
      (sent) => [sent ?? []].flat().filter((one) => one !== ''),
      z.array(z.enum(TELLS, 'Please choose again.')),
    )
    .default([]),
  off: yes,
});
