// What a person sends to ask for a sitting, checked field by field, with a plain sentence for each mistake.
// Used by the form and by the API alike.
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { SITTER_AGE_BANDS } from '../people/people.schemas.js';
import { theirLanguage } from '../people/ways.schemas.js';

export const MOST_SITTERS = 12;
export const MOST_PLATES = 6;

/** Line breaks and other control characters have no place in a name; they become spaces. */
const oneLine = (text: string) =>
  text
    .replace(/[\p{Cc}\u2028\u2029]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim();
const lines = (text: string) =>
  text
    .replace(/\r\n?/g, '\n')
    .replace(/[^\P{Cc}\n\t]/gu, '')
    .trim();

const shortText = (most: number, tooLong: string) =>
  z.string().transform(oneLine).pipe(z.string().max(most, tooLong));
/** Several lines as they were typed, without what no text of the database can hold. */
export const longText = (most: number) =>
  z
    .string()
    .transform(lines)
    .pipe(
      z.string().max(most, `Please keep this under ${new Intl.NumberFormat('en').format(most)} characters.`),
    );

/** The name of a person, in one line. @param missing what is said where there is none */
export const personName = (missing: string) =>
  shortText(200, 'A name has at most 200 characters.').pipe(z.string().min(1, missing));
const NO_DATE = 'Please give a date that the calendar has, with day, month and year.';
const date = z.string().transform((text, context) => {
  try {
    if (!/^(19|20|21)\d{2}-\d{2}-\d{2}$/.test(text)) throw new RangeError(); // no year 0, which no database knows
    return Temporal.PlainDate.from(text, { overflow: 'reject' });
  } catch {
    context.addIssue({ code: 'custom', message: NO_DATE });
    return z.NEVER;
  }
});

const plate = z.object({
  plateSizeId: z.uuid('Please choose a plate size.'),
  /** Positions in `sitters`, from 0. */
  sitters: z
    .array(z.int().min(0))
    .min(1, 'Please say who is on this plate.')
    .refine((all) => new Set(all).size === all.length, 'Each person is on a plate once.'),
});

const suits = z.discriminatedUnion('kind', [
  z
    .object({
      kind: z.literal('any'),
      from: date,
      until: date,
      /** Either a range or particular days: none are dropped unseen. */
      days: z
        .array(z.string())
        .max(0, 'You have ticked days and chosen any open day: please say which of the two.')
        .optional(),
    })
    .refine((range) => Temporal.PlainDate.compare(range.from, range.until) <= 0, {
      path: ['until'],
      message: 'The last day must not be before the first.',
    }),
  z.object({
    kind: z.literal('these'),
    days: z.array(date).min(1, 'Please choose at least one day.').max(60, 'Please choose at most 60 days.'),
  }),
]);

/** The chosen way of reaching somebody has to work; another that is given as well, too. */
export const ways = z.object({
  reachBy: z.enum(['email', 'telephone', 'letter'], 'Please say how we can reach you.'),
  email: shortText(254, 'An e-mail address has at most 254 characters.').default(''),
  telephone: shortText(40, 'A telephone number has at most 40 characters.').default(''),
  postalAddress: longText(500).default(''),
});

export const checkWays: Parameters<typeof ways.superRefine>[0] = ({ reachBy, ...given }, context) => {
  const wrong = (field: keyof typeof given, message: string) =>
    context.addIssue({ code: 'custom', path: [field], message });
  if ((reachBy === 'email' || given.email !== '') && !z.email().safeParse(given.email).success)
    wrong('email', 'Please give an e-mail address like name@example.org.');
  if (reachBy === 'telephone' && !/\d{4,}/.test(given.telephone.replace(/[\s()./-]/g, '')))
    wrong('telephone', 'Please give a telephone number we can ring.');
  if (reachBy === 'letter' && given.postalAddress === '')
    wrong('postalAddress', 'Please give the address for our letter.');
};

export const guardian = z.object({
  name: personName('Please name a parent or guardian: somebody who sits is under 18.'),
  relation: shortText(80, 'Please keep this under 80 characters.').default(''),
  reach: shortText(254, 'Please keep this under 254 characters.').pipe(
    z.string().min(1, 'Please tell us how to reach the parent or guardian.'),
  ),
});

/** Somebody who sits is under 18, as it was said or by an age. */
export const isForMinor = (of: { minor: boolean; bands: string[] }): boolean =>
  of.minor || of.bands.some((band) => band !== 'adult');

const bands = z
  .array(z.enum(SITTER_AGE_BANDS, 'Please choose one of the three ages.'))
  .max(MOST_SITTERS)
  .default([]);
const minor = z.boolean().default(false);
const forGuardian = z.object({ bands, minor, guardian: guardian.nullable().default(null) });

const checkGuardian: Parameters<typeof forGuardian.superRefine>[0] = (request, context) => {
  if (request.guardian === null && isForMinor(request))
    context.addIssue({
      code: 'custom',
      path: ['guardian', 'name'],
      message: 'Please name a parent or guardian: somebody who sits is under 18.',
    });
};

export const sittingRequest = ways
  .extend({
    name: personName('Please tell us your name.'),
    sitters: z
      .array(personName('Please give this person a name.'))
      .min(1, 'Please say who sits.')
      .max(MOST_SITTERS, 'At most 12 people can sit together.'),
    plates: z
      .array(plate)
      .min(1, 'Please ask for at least one plate.')
      .max(MOST_PLATES, 'At most six plates fit into one sitting.'),
    language: theirLanguage.default('en'),
    /** Age bands of the sitters, in their order; adult where none is said. */
    bands,
    /** Null: the studio's usual kind of sitting. */
    kindId: z.uuid('Please choose one of the kinds of sitting.').nullable().default(null),
    /** GeoNames id of the home place. */
    homeId: z.int().positive('Please choose the place you travel from.'),
    suits,
    hopes: longText(2000).default(''),
    anything: longText(2000).default(''),
    /** What helps them here; no matters of health. */
    access: longText(2000).default(''),
    /** Props, dress, a dog. */
    brings: longText(2000).default(''),
    /** The number of a gift voucher; '' for none. */
    voucher: shortText(20, 'The number of a voucher has at most 20 characters.')
      .transform((text) => text.toUpperCase())
      .default(''),
    /** Whether somebody who sits is under 18; so it is as well where an age says so. */
    minor,
    /** Who answers for somebody under 18. */
    guardian: guardian.nullable().default(null),
  })
  // Checked whatever else is wrong, so that all mistakes are told at once.
  .superRefine(checkWays, { when: ({ value }) => ways.safeParse(value).success })
  .superRefine(checkGuardian, { when: ({ value }) => forGuardian.safeParse(value).success })
  .superRefine((request, context) => {
    request.plates.forEach((one, position) => {
      if (one.sitters.some((sitter) => sitter >= request.sitters.length))
        context.addIssue({
          code: 'custom',
          path: ['plates', position, 'sitters'],
          message: 'Please choose among the people named above.',
        });
    });
  });

export type SittingRequest = z.output<typeof sittingRequest>;
