// The places of the months ahead, as far as the studio gives places: how many are open, how many are given.
import { Temporal } from 'temporal-polyfill';
import type { MonthOfPlaces } from '../waiting/wait.calc.js';

interface Opening {
  closed: unknown;
  startsAt: Temporal.Instant | null;
  busyUntil: Temporal.Instant | null;
}

/**
 * Months counted from today, one after the other: the first ends a month from today. Of starts that lie so close
 * that one sitting takes the next one's time, as many count as fit one after the other.
 */
export function monthsOfPlaces(
  today: Temporal.PlainDate,
  until: Temporal.PlainDate,
  days: readonly { date: Temporal.PlainDate; openings: readonly Opening[] }[],
  given: readonly Temporal.PlainDate[],
): MonthOfPlaces[] {
  const months = Math.max(
    1,
    Math.ceil(today.until(until, { largestUnit: 'months' }).total({ unit: 'months', relativeTo: today })),
  );
  const found = Array.from({ length: months }, () => ({ open: 0, given: 0 }));
  const monthOf = (date: Temporal.PlainDate) => {
    const away = today.until(date, { largestUnit: 'months' }).months;
    return Temporal.PlainDate.compare(date, today) < 0 ? undefined : found[away];
  };
  for (const day of days) {
    const month = monthOf(day.date);
    if (month) month.open += fitting(day.openings);
  }
  for (const date of given) {
    const month = monthOf(date);
    if (month) month.given += 1;
  }
  return found;
}

function fitting(openings: readonly Opening[]): number {
  const open = openings
    .flatMap(({ closed, startsAt, busyUntil }) =>
      closed === null && startsAt && busyUntil
        ? [{ from: startsAt.epochMilliseconds, until: busyUntil.epochMilliseconds }]
        : [],
    )
    .sort((a, b) => a.until - b.until);
  let free = Number.NEGATIVE_INFINITY;
  let count = 0;
  for (const one of open)
    if (one.from >= free) {
      count += 1;
      free = one.until;
    }
  return count;
}
