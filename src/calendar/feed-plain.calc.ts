// A feed as plain data, so that it can be handed to the thread that writes it: times as text, instants as milliseconds.
import { Temporal } from 'temporal-polyfill';
import type { CalendarEntry } from './ics.calc.js';

/** All that the text of a feed is made of; equal data give equal bytes. */
export interface FeedData {
  name: string;
  /** How often a calendar should come again. */
  refreshHours: number;
  entries: CalendarEntry[];
}

type Times = 'revisedAt' | 'createdAt' | 'start' | 'end' | 'startInstant' | 'endInstant';

/** An entry whose wall times are ISO texts and whose instants are milliseconds since 1970. */
export interface PlainEntry extends Omit<CalendarEntry, Times> {
  revisedAt: number;
  createdAt?: number;
  start: string;
  end: string;
  startInstant: number;
  endInstant: number;
}

export type PlainFeed = Omit<FeedData, 'entries'> & { entries: PlainEntry[] };

export function toPlain(entry: CalendarEntry): PlainEntry {
  const { createdAt, ...rest } = entry;
  return {
    ...rest,
    revisedAt: entry.revisedAt.epochMilliseconds,
    ...(createdAt && { createdAt: createdAt.epochMilliseconds }),
    start: entry.start.toString(),
    end: entry.end.toString(),
    startInstant: entry.startInstant.epochMilliseconds,
    endInstant: entry.endInstant.epochMilliseconds,
  };
}

export function fromPlain(plain: PlainEntry): CalendarEntry {
  const { createdAt, ...rest } = plain;
  const instant = (milliseconds: number) => Temporal.Instant.fromEpochMilliseconds(milliseconds);
  return {
    ...rest,
    revisedAt: instant(plain.revisedAt),
    ...(createdAt !== undefined && { createdAt: instant(createdAt) }),
    start: Temporal.PlainDateTime.from(plain.start),
    end: Temporal.PlainDateTime.from(plain.end),
    startInstant: instant(plain.startInstant),
    endInstant: instant(plain.endInstant),
  };
}
