// Not checked by a native reader.
import { timeInWords } from '../../lib/words.js';
import type { dates } from '../en/dates.js';

export const WEEKDAYS = ['lundi', 'mardi', 'mercredi', 'jeudi', 'vendredi', 'samedi', 'dimanche'];
export const MONTHS = [
  'janvier',
  'février',
  'mars',
  'avril',
  'mai',
  'juin',
  'juillet',
  'août',
  'septembre',
  'octobre',
  'novembre',
  'décembre',
];

export const frenchDates: typeof dates = {
  /** "vendredi 5 mars 2027"; the first of a month is an ordinal. */
  day: ({ dayOfWeek, day, month, year }) =>
    `${WEEKDAYS[dayOfWeek - 1]} ${day === 1 ? '1er' : day} ${MONTHS[month - 1]} ${year}`,
  month: (month) => MONTHS[month - 1] ?? '',
  time: (time) => timeInWords(time),
};
