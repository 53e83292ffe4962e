// What somebody sends to sign up, to ask for teaching one to one, and what they tell of each student afterwards; by
// form and by API alike.
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { checkWays, longText, shortText, theirLanguage, ways } from '../people/ways.schemas.js';
import { EXPERIENCES } from './estimate.calc.js';

export const MOST_STUDENTS = 6;

const student = z.object({
  name: shortText(200, 'Please give this person a name.'),
  experience: z.enum(EXPERIENCES, 'Please say what this person has done before.').default('none'),
  /** Null: the size of the day. */
  plateSizeId: z.uuid('Please choose a plate size.').nullable().default(null),
  /** A camera of their own, say. */
  brings: longText(500).default(''),
});

const base = ways.extend({
  name: shortText(200, 'Please tell us your name.'),
  students: z
    .array(student)
    .min(1, 'Please say who wants to learn.')
    .max(MOST_STUDENTS, `At most ${MOST_STUDENTS} people can sign up together.`),
  anything: longText(2000).default(''),
  language: theirLanguage.default('en'),
  /** Everybody is as old as the day asks. */
  oldEnough: z.literal(true, 'Please confirm the age of everybody who comes.'),
});
const whenWays = { when: ({ value }: { value: unknown }) => ways.safeParse(value).success };

export const signUpBody = base
  .extend({
    /** Go on the waiting list where the day is full. */
    orWait: z.boolean().default(false),
  })
  .superRefine(checkWays, whenWays);
export type SignUpBody = z.output<typeof signUpBody>;

const NO_DATE = 'Please give a date that the calendar has, with day, month and year.';
export const dateText = z.string().transform((text, context) => {
  try {
    if (!/^(19|20|21)\d{2}-\d{2}-\d{2}$/.test(text)) throw new RangeError();
    return Temporal.PlainDate.from(text, { overflow: 'reject' });
  } catch {
    context.addIssue({ code: 'custom', message: NO_DATE });
    return z.NEVER;
  }
});
export const timeText = z
  .string()
  .regex(/^([01]?\d|2[0-3])[:.][0-5]\d$/, 'Please give a time like 10:00.')
  .transform((text) => Temporal.PlainTime.from(text.replace('.', ':').padStart(5, '0')));
/** The time that was ticked as meant; another one typed since is asked about anew. */
export const meantText = timeText.optional().catch(undefined);
export const isMeant = (time: Temporal.PlainTime, meant: Temporal.PlainTime | undefined): boolean =>
  meant?.equals(time) === true;

export const oneToOneBody = base
  .extend({
    day: dateText,
    /** Came to an earlier day here. */
    cameBefore: z.boolean().default(false),
  })
  .superRefine(checkWays, whenWays);
export type OneToOneBody = z.output<typeof oneToOneBody>;

const details = z.object({
  gear: z.record(z.string(), shortText(40)).default({}),
  access: longText(2000).default(''),
  emergencyName: shortText(200).default(''),
  emergencyTelephone: shortText(40).default(''),
  /** The version of the wording that was agreed to; null leaves what was said before. */
  agreesTo: z.int().nullable().default(null),
});
export type Details = z.output<typeof details>;

/** What is told of one student once they have signed up ... */
export const detailsBody = details.extend({ studentId: z.uuid() });
/** ... and of several in one go, by their ids. */
export const detailsOfSeveral = z.record(z.uuid(), details);
