// How somebody can be reached, checked field by field: the chosen way has to work; another that is given as well, too.
import { z } from 'zod';
import { LANGUAGES } from '../words/languages.js';

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

/** One line of text: line breaks and other control characters become spaces. */
export const shortText = (most: number, missing?: string) =>
  z
    .string()
    .transform(oneLine)
    .pipe(
      missing === undefined
        ? z.string().max(most, `Please keep this under ${most} characters.`)
        : z.string().min(1, missing).max(most, `Please keep this under ${most} characters.`),
    );
/** Several lines as they were typed, without what no text of the database can hold. */
export const longText = (most: number) =>
  z
    .string()
    .transform(lines)
    .pipe(z.string().max(most, `Please keep this under ${most} characters.`));

/** In which letters to them are written. */
export const theirLanguage = z.enum(LANGUAGES, 'Please choose one of the languages.');

export const ways = z.object({
  reachBy: z.enum(['email', 'telephone', 'letter'], 'Please say how we can reach you.'),
  email: shortText(254).default(''),
  telephone: shortText(40).default(''),
  postalAddress: longText(500).default(''),
});

/** For superRefine of whatever is extended from `ways`. */
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
