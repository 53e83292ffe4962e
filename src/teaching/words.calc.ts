// Teaching as it is told on screen.
import type { Temporal } from 'temporal-polyfill';
import type { PlateSize } from '../stock/stock.schemas.js';
import { LANGUAGE_OF_DESK } from '../words/languages.js';
import { type Words, wordsFor } from '../words/words-for.js';
import type { Attendance } from './after.schemas.js';
import type { Course, CoursePlates, Where } from './course.schemas.js';
import type { Experience } from './estimate.calc.js';
import type { SessionState, SignUpState } from './states.calc.js';

/** As the desk reads them; who comes reads those of their own language. */
export const WHERE_WORDS: Record<Where, string> = wordsFor(LANGUAGE_OF_DESK).teaching.where;
export const EXPERIENCE_WORDS: Record<Experience, string> = wordsFor(LANGUAGE_OF_DESK).teaching.experience;

export const ATTENDANCE_WORDS: Record<Attendance, string> = {
  present: 'Was there',
  late: 'Came late',
  did_not_come: 'Did not come',
};

export const SESSION_WORDS: Record<SessionState, string> = {
  draft: 'draft: nobody sees it',
  open: 'open for sign-up',
  full: 'full',
  run: 'held',
  called_off: 'called off',
};

export const SIGN_UP_WORDS: Record<SignUpState, string> = {
  requested: 'asked for',
  waiting: 'on the waiting list',
  offered: 'a place is offered',
  signed: 'has a place',
  attended: 'was there',
  did_not_come: 'did not come',
  declined: 'said no to',
  withdrawn: 'withdrawn',
  lapsed: 'offers ran out',
  released: 'given back',
  called_off: 'called off',
};

export const DEPOSIT_WORDS = wordsFor(LANGUAGE_OF_DESK).student.day.deposit;

/** "Wednesday 7 April 2027, 10:00 to 16:00". */
export const whenInWords = (
  { wallStart, wallEnd }: { wallStart: Temporal.PlainDateTime; wallEnd: Temporal.PlainDateTime },
  { dates, teaching }: Words = wordsFor(LANGUAGE_OF_DESK),
): string => teaching.when(dates.day(wallStart), dates.time(wallStart), dates.time(wallEnd));

/** "3 plates, Half plate; one plate, Whole plate"; '' for none. */
export const platesInWords = (
  plates: readonly CoursePlates[],
  sizes: readonly PlateSize[],
  { teaching }: Words = wordsFor(LANGUAGE_OF_DESK),
): string =>
  plates
    .map(({ plateSizeId, count }) => {
      const size = sizes.find(({ id }) => id === plateSizeId);
      return `${teaching.plates(count)}${size ? `, ${size.name}` : ''}`;
    })
    .join('; ');

/** When each part of a day begins. */
export function partsWithTimes(
  parts: Course['parts'],
  start: Temporal.PlainDateTime,
  { dates, teaching }: Words = wordsFor(LANGUAGE_OF_DESK),
): { at: string; title: string; where: string; minutes: number }[] {
  let at = start;
  return parts.map(({ title, where, minutes }) => {
    const begins = dates.time(at);
    at = at.add({ minutes });
    return { at: begins, title, where: teaching.where[where], minutes };
  });
}
