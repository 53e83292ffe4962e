// At what hours a class is held: any that are within one day, though few begin so early or end so late that it is not
// rather a slip of the pen. Pure.
import { Temporal } from 'temporal-polyfill';

/** From when until when nobody is asked whether an hour is meant. Assumption. */
const EARLIEST = Temporal.PlainTime.from('06:00');
const LATEST = Temporal.PlainTime.from('22:00');

export type HourProblem = 'past midnight' | 'unusual';

/** What is to be said of a class from one wall time to another; null for nothing. One that ends at midnight is of its day. */
export function hourProblem(
  wallStart: Temporal.PlainDateTime,
  wallEnd: Temporal.PlainDateTime,
): HourProblem | null {
  const [day, { compare }] = [wallStart.toPlainDate(), Temporal.PlainDateTime];
  if (compare(wallEnd, day.add({ days: 1 }).toPlainDateTime()) > 0) return 'past midnight';
  const early = compare(wallStart, day.toPlainDateTime(EARLIEST)) < 0;
  return early || compare(wallEnd, day.toPlainDateTime(LATEST)) > 0 ? 'unusual' : null;
}
