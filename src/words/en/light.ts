// The days one can sit and their light, in lists and drawings.
import type { Temporal } from 'temporal-polyfill';
import { monthInWords, monthName, weekdayName } from '../../lib/words.js';

export const light = {
  noDays: 'No days are open for asking just now.',
  months: 'Months',
  /** "March 2027". */
  month: (date: Temporal.PlainDate): string => monthInWords(date),
  weekday: (date: Temporal.PlainDate): string => weekdayName(date.dayOfWeek),
  /** "5 March". */
  dayOfMonth: (date: Temporal.PlainDate): string => `${date.day} ${monthName(date.month)}`,
  /** "Friday 5 March at ", before a time. */
  dayAt: (weekday: string, dayOfMonth: string): string => `${weekday} ${dayOfMonth} at `,
  none: 'No good light that day',
  good: (from: string, until: string): string => `Good light from ${from} to ${until}`,
  noneSaid: 'No good light.',
  stretch: (from: string, until: string): string => `${from} to ${until}`,
  /** Before a list of times. */
  said: { open: 'Open: ', held: 'Held: ', taken: 'Taken: ' },
  legend: { light: 'good light', open: 'a place is open', held: 'held for someone', taken: 'taken' },
};
