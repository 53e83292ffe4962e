// What of the shelf's work and of preparation stands on the desk's front page. Pure.
import { Temporal } from 'temporal-polyfill';
import type { DueTask } from '../stock/due.calc.js';
import type { Task } from '../stock/preparation.calc.js';

/** "This week": so many days from today on. */
export const WEEK_DAYS = 7;

/** What cannot be had at all, or is due within the week, the first first. */
export const dueWithin = (due: readonly DueTask[], today: Temporal.PlainDate): DueTask[] =>
  firstAlarms(due).filter(({ alarm, by }) => alarm || today.until(by).days <= WEEK_DAYS);

/** Of several days that cannot be held for one reason, the first is told. */
function firstAlarms(due: readonly DueTask[]): DueTask[] {
  const ordered = [...due].sort((a, b) => Temporal.PlainDate.compare(a.by, b.by));
  const told = new Set<string>();
  return ordered.filter(({ key, alarm }) => {
    if (!alarm) return true;
    const first = !told.has(key);
    told.add(key);
    return first;
  });
}

/** What is left to prepare for the next day with people, today's included. */
export function nextTasks(tasks: readonly Task[], today: Temporal.PlainDate): Task[] {
  const ahead = tasks.filter((one) => today.until(one.ahead.date).days >= 0);
  const [next] = ahead.map((one) => one.ahead.date).sort(Temporal.PlainDate.compare);
  return ahead.filter((one) => !one.done && next !== undefined && one.ahead.date.equals(next));
}
