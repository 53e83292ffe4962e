import type { Temporal } from 'temporal-polyfill';
import { dayInWords, monthName, timeInWords } from '../../lib/words.js';

export const dates = {
  /** "Friday 5 March 2027". */
  day: (date: Pick<Temporal.PlainDate, 'dayOfWeek' | 'day' | 'month' | 'year'>): string => dayInWords(date),
  /** "March", of 3. */
  month: (month: number): string => monthName(month),
  /** "09:30". */
  time: (time: Pick<Temporal.PlainTime, 'hour' | 'minute'>): string => timeInWords(time),
};
