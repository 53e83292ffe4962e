// What the tasks feed says: preparation, and what must be done by a date. No names of sitters and nothing they told.
// Pure: a task has no row of its own, so its revision is that of the studio's calendar, which rises with every act.
import { Temporal } from 'temporal-polyfill';
import { dayInWords } from '../lib/words.js';
import { dayBounds, wallToInstant } from '../lib/zoned-time.js';
import type { DueTask } from '../stock/due.calc.js';
import type { Task } from '../stock/preparation.calc.js';
import { taskInWords } from '../stock/preparation-words.calc.js';
import type { PlateSize } from '../stock/stock.schemas.js';
import type { CalendarEntry } from './ics.calc.js';

/** Tasks are shown from so many days back. */
export const TASK_DAYS_BACK = 14;

/** When what must be done by a date is entered there, and for how long (assumptions). */
const BY_STARTS = 9 * 60;
const BY_MINUTES = 30;

/** Of whom all tasks are, and when they changed last. */
export interface TaskSource {
  studioId: string;
  zone: string;
  /** The studio's calendar counter, and when it rose last. */
  counter: bigint;
  raisedAt: Temporal.Instant;
  /** When the day that the feed goes by began: what is reckoned ahead from it may change with it. */
  dayBegan: Temporal.Instant;
  /** Where the tasks are ticked. */
  url: string;
}

export function preparationEntry(task: Task, sizes: readonly PlateSize[], source: TaskSource): CalendarEntry {
  const { rule, ahead } = task;
  const forDay = `For ${dayInWords(ahead.date)}${ahead.kind === 'teaching' ? ', a teaching day' : ''}.`;
  const lines = [forDay, rule.darkroom ? 'In the darkroom.' : '', rule.note].filter((line) => line !== '');
  const words = taskInWords(task, sizes);
  return {
    ...common(source),
    // both parts are ids and a date, so that the uid names nobody (RFC 7986 5.3)
    uid: `${source.studioId}-${rule.id}-${ahead.date.toString().replaceAll('-', '')}`,
    ...hours(source.zone, task.from, task.until),
    summary: task.done ? `Done: ${words}` : words,
    description: lines.join('\n'),
    transparent: task.done,
  };
}

/** A task with no hour of its own, which is reckoned ahead from the day one looks at it. @param desk the desk's address */
export function dueEntry(task: DueTask, source: TaskSource, desk: string): CalendarEntry {
  const from = task.by.toPlainDateTime().add({ minutes: BY_STARTS });
  const later = Temporal.Instant.compare(source.raisedAt, source.dayBegan) < 0;
  return {
    ...common(source),
    ...(later ? { revisedAt: source.dayBegan } : {}),
    uid: `${source.studioId}-${task.key}-${task.by.toString().replaceAll('-', '')}`,
    ...hours(source.zone, from, from.add({ minutes: BY_MINUTES })),
    summary: task.what,
    description: task.why,
    url: `${desk}${task.path}`,
    transparent: true,
  };
}

const common = ({ counter, raisedAt, url }: TaskSource) => ({
  sequence: Number(counter),
  revisedAt: raisedAt,
  status: 'CONFIRMED' as const,
  url,
});

function hours(zone: string, start: Temporal.PlainDateTime, end: Temporal.PlainDateTime) {
  return { zone, start, end, startInstant: instantOf(zone, start), endInstant: instantOf(zone, end) };
}

/** Of an hour that comes twice the earlier; of one that clocks skip, the end of the day before the gap is near enough. */
function instantOf(zone: string, wall: Temporal.PlainDateTime): Temporal.Instant {
  const answer = wallToInstant(zone, wall, 'earlier');
  return answer.ok ? answer.instant : dayBounds(zone, wall.toPlainDate()).start.add({ hours: wall.hour });
}
