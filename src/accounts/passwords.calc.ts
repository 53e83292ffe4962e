// Which passwords are taken: long enough, not among those that everybody tries, not the name of the house. No rules
// about figures and signs, and no term (NIST SP 800-63B, 3.1.1.2; OWASP ASVS 5.0, 6.2). Pure.
import { dictionary } from '@zxcvbn-ts/language-common';

/** ASVS 5.0, 6.2.1: at least 8, 15 recommended. */
export const LEAST_CHARACTERS = 8;
export const MOST_CHARACTERS = 500;

/** The list of zxcvbn, made of passwords that were found out elsewhere; the commonest first. */
const COMMON: ReadonlySet<string> = new Set(dictionary['passwords-common']);

/**
 * What is wrong with a password, in a sentence; null for nothing.
 * @param about words that whoever knows the studio would try: its name, the e-mail address
 */
export function passwordProblem(password: string, about: readonly string[]): string | null {
  const length = [...password].length;
  if (length < LEAST_CHARACTERS)
    return `A password has at least ${LEAST_CHARACTERS} characters; a sentence of your own is good.`;
  if (length > MOST_CHARACTERS) return `A password has at most ${MOST_CHARACTERS} characters.`;
  const small = password.toLowerCase();
  if (COMMON.has(small))
    return 'This is one of the passwords that everybody tries first. Please think of another.';
  const bare = (text: string) => text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');
  const known = about.flatMap((one) => [bare(one), bare(one.split('@')[0] ?? '')]).filter(Boolean);
  const rest = known.reduce((left, one) => left.replaceAll(one, ''), bare(password));
  return rest.length < 4 && rest !== bare(password)
    ? 'This is too near to your address or the name of the studio. Please think of another.'
    : null;
}
