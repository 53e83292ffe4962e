// Teaching as it is told on screen.
import type { Temporal } from 'temporal-polyfill';
import { counted, dayInWords, timeInWords } from '../lib/words.js';
import type { PlateSize } from '../stock/stock.schemas.js';
import type { Attendance } from './after.schemas.js';
import type { Course, CoursePlates, Where } from './course.schemas.js';
import type { Experience } from './estimate.calc.js';
import type { SessionState, SignUpState } from './states.calc.js';

export const WHERE_WORDS: Record<Where, string> = {
  studio: 'in the studio',
  darkroom: 'in the darkroom',
  outside: 'outside',
  table: 'at the table',
  break: 'a break',
};

export const EXPERIENCE_WORDS: Record<Experience, string> = {
  none: 'Has never poured a plate',
  some: 'Has poured some plates, or taken a class',
  practised: 'Makes plates of their own',
};

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

export const DEPOSIT_WORDS = { none: 'none noted', due: 'due', received: 'received' } as const;

/** "Wednesday 7 April 2027, 10:00 to 16:00". */
export const whenInWords = (place: { wallStart: Temporal.PlainDateTime; wallEnd: Temporal.PlainDateTime }) =>
  `${dayInWords(place.wallStart)}, ${timeInWords(place.wallStart)} to ${timeInWords(place.wallEnd)}`;

/** "3 plates, Half plate; 1 plate, Whole plate"; '' for none. */
export const platesInWords = (plates: readonly CoursePlates[], sizes: readonly PlateSize[]): string =>
  plates
    .map(({ plateSizeId, count }) => {
      const size = sizes.find(({ id }) => id === plateSizeId);
      return `${counted(count, 'plate')}${size ? `, ${size.name}` : ''}`;
    })
    .join('; ');

/** When each part of a day begins. */
export function partsWithTimes(
  parts: Course['parts'],
  start: Temporal.PlainDateTime,
): { at: string; title: string; where: string; minutes: number }[] {
  let at = start;
  return parts.map(({ title, where, minutes }) => {
    const begins = timeInWords(at);
    at = at.add({ minutes });
    return { at: begins, title, where: WHERE_WORDS[where], minutes };
  });
}
