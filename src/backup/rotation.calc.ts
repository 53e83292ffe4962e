// Which copies stay: of the last days each, then one a week, then one a month. Pure.
import type { Temporal } from 'temporal-polyfill';

/** Assumptions: a week of days, a month of weeks, a year of months. */
export const KEPT = { days: 7, weeks: 4, months: 12 };

export interface Copy {
  name: string;
  /** The day it was made, UTC. */
  day: Temporal.PlainDate;
}

/** The copies that go. Of one day the newest name stays; the newest copy of all always stays. */
export function toRemove<C extends Copy>(copies: readonly C[], today: Temporal.PlainDate): C[] {
  const newestFirst = [...copies].sort((a, b) => (a.name < b.name ? 1 : -1));
  const kept = new Set<C>(newestFirst.slice(0, 1));
  const keepOneOf = (count: number, periodOf: (day: Temporal.PlainDate) => string | null) => {
    const periods = new Set<string>();
    for (const copy of newestFirst) {
      const period = periodOf(copy.day);
      if (period === null || periods.has(period) || periods.size === count) continue;
      periods.add(period);
      kept.add(copy);
    }
  };
  const age = (day: Temporal.PlainDate) => day.until(today, { largestUnit: 'days' }).days;
  keepOneOf(KEPT.days, (day) => (age(day) < KEPT.days ? day.toString() : null));
  keepOneOf(KEPT.weeks, (day) =>
    age(day) < 7 * (KEPT.weeks + 1) ? `${day.yearOfWeek}-${day.weekOfYear}` : null,
  );
  keepOneOf(KEPT.months, (day) => day.toPlainYearMonth().toString());
  return copies.filter((copy) => !kept.has(copy));
}
