// Who is there on which day, and which sittings need a helper. A missing helper is told, never a bar.
import type { Temporal } from 'temporal-polyfill';
import { GROUP } from './pose.calc.js';

/** Days of one person: weekdays (1 = Monday), and single dates otherwise. */
export interface Attendance {
  weekdays: number[];
  /** ISO dates on which the person is there although it is another weekday ... */
  also: string[];
  /** ... and away although it is one of them; away wins. */
  away: string[];
}

/** Until the studio says otherwise: the owner always, the helper never. */
export const OWNER_ALWAYS: Attendance = { weekdays: [1, 2, 3, 4, 5, 6, 7], also: [], away: [] };
export const HELPER_NEVER: Attendance = { weekdays: [], also: [], away: [] };

export function isThere(attendance: Attendance, date: Temporal.PlainDate): boolean {
  const { weekdays, also, away } = attendance;
  if (also.length === 0 && away.length === 0) return weekdays.includes(date.dayOfWeek);
  const day = date.toString();
  return !away.includes(day) && (weekdays.includes(date.dayOfWeek) || also.includes(day));
}

/** A whole plate in mm, 6 1/2 x 8 1/2 in; larger ones want four hands (common practice, no source). */
const WHOLE_PLATE = { long: 216, short: 165.2 };

/** Whether a plate needs a helper: a group of three or more is on it, or it is larger than a whole plate. */
export function needsHelper(plate: { widthMm: number; heightMm: number; people: number }): boolean {
  const long = Math.max(plate.widthMm, plate.heightMm);
  const short = Math.min(plate.widthMm, plate.heightMm);
  return plate.people >= GROUP || long > WHOLE_PLATE.long || short > WHOLE_PLATE.short;
}
