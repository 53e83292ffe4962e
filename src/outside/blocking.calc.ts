// What of an outside calendar's busy times closes the studio: its hours, with a margin around them, or the days they touch.
import { Temporal } from 'temporal-polyfill';
import { dayBounds, instantToWall } from '../lib/zoned-time.js';
import type { BusyTime } from './expand.calc.js';

export const BLOCKS = ['hours', 'days', 'nothing'] as const;

/** The margin is in minutes, before and after, and for hours only. */
export interface Choice {
  blocks: (typeof BLOCKS)[number];
  marginMinutes: number;
}

/** From inclusive, until exclusive, in milliseconds since the epoch. */
export interface Elsewhere {
  from: number;
  until: number;
}

const MINUTE = 60_000;

/** In order of time, those that touch joined. */
export function blockingOf(
  busy: readonly Omit<BusyTime, 'title'>[],
  choice: Choice,
  zone: string,
): Elsewhere[] {
  if (choice.blocks === 'nothing') return [];
  const margin = choice.marginMinutes * MINUTE;
  const all = busy.map(({ from, until, wholeDays }) => {
    if (choice.blocks === 'days')
      return {
        from: dayAt(zone, from).start.epochMilliseconds,
        until: dayAt(zone, until - 1).end.epochMilliseconds,
      };
    return wholeDays ? { from, until } : { from: from - margin, until: until + margin };
  });
  const joined: Elsewhere[] = [];
  for (const one of all.sort((a, b) => a.from - b.from)) {
    const last = joined.at(-1);
    if (last && one.from <= last.until) last.until = Math.max(last.until, one.until);
    else joined.push({ ...one });
  }
  return joined;
}

const wallDay = (zone: string, milliseconds: number) =>
  instantToWall(zone, Temporal.Instant.fromEpochMilliseconds(milliseconds)).toPlainDate();
const dayAt = (zone: string, milliseconds: number) => dayBounds(zone, wallDay(zone, milliseconds));

/** The days from `today` on that are taken whole, as "2027-05-14", in order. */
export function wholeDaysIn(all: readonly Elsewhere[], zone: string, today: Temporal.PlainDate): string[] {
  const days: string[] = [];
  const begin = dayBounds(zone, today).start.epochMilliseconds;
  for (const { from, until } of all.filter((one) => one.until > begin)) {
    let date = wallDay(zone, Math.max(from, begin));
    if (dayBounds(zone, date).start.epochMilliseconds < from) date = date.add({ days: 1 });
    for (; dayBounds(zone, date).end.epochMilliseconds <= until; date = date.add({ days: 1 }))
      days.push(date.toString());
  }
  return [...new Set(days)].sort();
}

/** Whether a day is taken whole by one of them. */
export function isWhole(all: readonly Elsewhere[], zone: string, date: Temporal.PlainDate): boolean {
  if (all.length === 0) return false;
  const { start, end } = dayBounds(zone, date);
  return all.some((one) => one.from <= start.epochMilliseconds && one.until >= end.epochMilliseconds);
}
