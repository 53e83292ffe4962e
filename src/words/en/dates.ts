import type { Temporal } from 'temporal-polyfill';
import { dayInWords, timeInWords } from '../../lib/words.js';

export const dates = {
  /** "Friday 5 March 2027". */
  day: (date: Pick<Temporal.PlainDate, 'dayOfWeek' | 'day' | 'month' | 'year'>): string => dayInWords(date),
  /** "09:30". */
  time: (time: Pick<Temporal.PlainTime, 'hour' | 'minute'>): string => timeInWords(time),
};
