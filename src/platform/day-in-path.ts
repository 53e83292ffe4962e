// A day in an address, for the doors that have one in their path.
import { Temporal } from 'temporal-polyfill';
import { AppError } from './problems.js';

const ISO_DAY = /^\d{4}-\d{2}-\d{2}$/;

/** A day as "2027-04-02". @throws AppError not_found */
export function readDay(text: string): Temporal.PlainDate {
  try {
    const day = ISO_DAY.test(text) ? Temporal.PlainDate.from(text) : null;
    if (day && day.year >= 1972 && day.year < 2099) return day;
  } catch {
    // no such day in the calendar
  }
  throw new AppError('not_found', 'There is no such day.');
}
