// How it stands with a need that the shelf cannot meet: whether there is still time to mix or order, and how
// pressing that is. Pure: day and today are arguments.
import { Temporal } from 'temporal-polyfill';

export type StockState = 'enough' | 'mix by' | 'order by' | 'nothing to do yet' | 'cannot be had';

export interface Judged {
  state: StockState;
  /** The last day to mix or order, when something is missing and there is still time. */
  by: Temporal.PlainDate | null;
}

/** Far-out days are quiet: within this many days of the last chance we say what to do. Common practice, no source. */
export const ALARM_DAYS = 14;

const GRAVITY: StockState[] = ['enough', 'nothing to do yet', 'mix by', 'order by', 'cannot be had'];

/** The gravest of several states, with the earliest date that goes with it. */
export function gravest(parts: Judged[]): Judged {
  let worst: Judged = { state: 'enough', by: null };
  for (const part of parts) {
    const order = GRAVITY.indexOf(part.state) - GRAVITY.indexOf(worst.state);
    const earlier =
      part.by !== null && worst.by !== null && Temporal.PlainDate.compare(part.by, worst.by) < 0;
    if (order > 0 || (order === 0 && earlier)) worst = { state: part.state, by: part.by };
  }
  return worst;
}
