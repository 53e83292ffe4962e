// A feed of many entries, half of them before a change of clocks and half after, with the words that an owner's have.
import { Temporal } from 'temporal-polyfill';
import type { FeedData } from '../../src/calendar/feed-plain.calc.js';
import type { CalendarEntry } from '../../src/calendar/ics.calc.js';
import { wallToInstant } from '../../src/lib/zoned-time.js';

const ZONE = 'Europe/London';
const STARTS = [570, 675, 780, 885];

export function fullFeed(count: number): FeedData {
  return { name: 'Sandpiper Loft: all', refreshHours: 6, entries: Array.from({ length: count }, entryAt) };
}

function entryAt(_: unknown, at: number): CalendarEntry {
  const day = Temporal.PlainDateTime.from('2027-01-01T00:00').add({ days: Math.floor(at / STARTS.length) });
  const start = day.add({ minutes: STARTS[at % STARTS.length] ?? 0 });
  const end = start.add({ minutes: 75 });
  const revisedAt = Temporal.Instant.from('2026-12-01T10:00:00Z');
  return {
    uid: `00000000-0000-4000-8000-${String(at).padStart(12, '0')}`,
    sequence: at % 3,
    revisedAt,
    createdAt: revisedAt,
    status: 'CONFIRMED',
    zone: ZONE,
    start,
    end,
    startInstant: instantOf(start),
    endInstant: instantOf(end),
    summary: `Sitting: Linnea Harrow, Tobias Harrow ${at}`,
    description:
      'Whole plate: Linnea Harrow, Tobias Harrow\nHopes for: hands, not faces; the nets, if dry\nContact: 01632 960111',
    location: 'Sandpiper Loft, Ropewalk',
    url: `https://plateday.example/s/sandpiper-loft/desk/requests/${at}`,
  };
}

function instantOf(wall: Temporal.PlainDateTime): Temporal.Instant {
  const answer = wallToInstant(ZONE, wall, 'earlier');
  if (!answer.ok) throw new Error('The benchmark has no entry in a gap of the clock.');
  return answer.instant;
}
