// Dates and times in words, the same in pages, letters and calendars.
import type { Temporal } from 'temporal-polyfill';

const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];
const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

type HasDay = Pick<Temporal.PlainDate, 'dayOfWeek' | 'day' | 'month' | 'year'>;

/** "Friday 14 May 2027". */
export function dayInWords(date: HasDay): string {
  return `${weekdayName(date.dayOfWeek)} ${date.day} ${monthName(date.month)} ${date.year}`;
}

/** "May 2027". */
export function monthInWords(date: HasDay): string {
  return `${monthName(date.month)} ${date.year}`;
}

/** 1 = "Monday" ... 7 = "Sunday". */
export function weekdayName(weekday: number): string {
  return WEEKDAYS[weekday - 1] ?? '';
}

export function monthName(month: number): string {
  return MONTHS[month - 1] ?? '';
}

/** "14:05". */
export function timeInWords(time: Pick<Temporal.PlainTime, 'hour' | 'minute'>): string {
  return `${String(time.hour).padStart(2, '0')}:${String(time.minute).padStart(2, '0')}`;
}

/** "one plate", "3 plates": the plural is given when it is not the singular with an s. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return count === 1 ? `one ${one}` : `${count} ${many}`;
}
