// What can go wrong with an outside calendar, in plain words, and how long to wait before it is tried again.
import type { Unreadable } from './ics-read.calc.js';

export const FAILURES = [
  'no address',
  'other kind',
  'other door',
  'with a password',
  'no such name',
  'not public',
  'led about',
  'gone',
  'not let in',
  'not trusted',
  'out of order',
  'odd answer',
  'too slow',
  'too large',
  'not a calendar',
  'broken',
  'too often',
  'too many',
  'too long',
  'key lost',
] as const satisfies readonly (Unreadable | string)[];
export type Failure = (typeof FAILURES)[number];

export const FAILURE_WORDS: Record<Failure, string> = {
  'no address': 'This is not an address; it begins with https:// or webcal://.',
  'other kind': 'An address of a calendar begins with https://, webcal:// or http://.',
  'other door': 'The address names a port; only the usual ones (80 and 443) are asked.',
  'with a password':
    'Please leave the name and password out of the address; take the calendar’s secret address instead.',
  'no such name': 'There is no machine of that name.',
  'not public': 'The address leads into a private network, where we do not look.',
  'led about': 'The address only led on to others.',
  gone: 'There is no calendar at this address any more. Whoever gave it can give a new one.',
  'not let in': 'We are not let in there: the calendar is private. Its owner can give a secret address.',
  'not trusted': 'The other side could not prove who it is (its certificate is not valid).',
  'out of order': 'The other side did not answer as it should; this may pass by itself.',
  'odd answer': 'The answer could not be understood.',
  'too slow': 'The answer took too long.',
  'too large': 'The calendar is larger than 2 MB.',
  'not a calendar': 'What is there is not a calendar; perhaps it is a page that asks to sign in.',
  broken: 'The calendar is damaged and cannot be read.',
  'too often':
    'Something in the calendar comes too often, every minute or second; such a calendar is not read.',
  'too many': 'The calendar has too many entries to be looked through.',
  'too long': 'Reading the calendar took too long, so we stopped.',
  'key lost':
    'The address cannot be read any more, since the key of this installation is another. Please enter it again.',
};

/** Hourly; after a failure later each time, up to a day (assumption: most disturbances are over within an hour). */
export function hoursUntilNext(failures: number): number {
  return Math.min(24, 2 ** Math.min(failures, 5));
}
