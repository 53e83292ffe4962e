// Calendar entries of the invented Kittiwake Yard, and two small readers of calendar text used as test oracles.
import { Temporal } from 'temporal-polyfill';
import type { CalendarEntry } from '../../src/calendar/ics.calc.js';

export const at = (text: string) => Temporal.Instant.from(text);
export const wall = (text: string) => Temporal.PlainDateTime.from(text);

/** A confirmed sitting on Friday 16 July 2027, 10:00 to 11:15 at Kittiwake Yard, with what the test changes. */
export function anEntry(changes: Partial<CalendarEntry> = {}): CalendarEntry {
  return {
    uid: '7d6d8c1e-53b0-4f0c-9a5e-0b1f6f2f9a01',
    sequence: 0,
    revisedAt: at('2027-05-01T08:30:00Z'),
    createdAt: at('2027-05-01T08:30:00Z'),
    status: 'CONFIRMED',
    zone: 'Europe/London',
    start: wall('2027-07-16T10:00'),
    end: wall('2027-07-16T11:15'),
    startInstant: at('2027-07-16T09:00:00Z'),
    endInstant: at('2027-07-16T10:15:00Z'),
    summary: 'Sitting at Kittiwake Yard',
    ...changes,
  };
}

/** What a sitter's feed may hold: places in both halves of the year, one in the repeated hour, one cancelled. */
export function kittiwakeFeed() {
  return {
    name: 'Kittiwake Yard, sittings; owner',
    description: 'All sittings of the studio.\nTimes are the studio’s.',
    refreshHours: 6,
    entries: [
      anEntry({
        sequence: 1,
        revisedAt: at('2027-05-03T17:05:09Z'),
        description:
          'Whole plate, one sitter: Ebba Fjordvik.\nHopes for: "hands, not faces"; nets\\ropes, if dry. Þökk! 手',
        location: 'Kittiwake Yard\n3 Capstan Steps, harbour side',
        geo: { lat: 54.49, lon: -0.61 },
        url: 'https://kittiwake.example/s/kittiwake/place?a=1,2;b=3',
        alarmsMinutesBefore: [60, 1440],
      }),
      anEntry({
        uid: '7d6d8c1e-53b0-4f0c-9a5e-0b1f6f2f9a02',
        status: 'TENTATIVE',
        transparent: true,
        start: wall('2027-11-19T10:00'),
        end: wall('2027-11-19T11:15'),
        startInstant: at('2027-11-19T10:00:00Z'),
        endInstant: at('2027-11-19T11:15:00Z'),
        summary: 'Offered: half plate, “Hands of the Harbour”',
      }),
      anEntry({
        uid: '7d6d8c1e-53b0-4f0c-9a5e-0b1f6f2f9a03',
        start: wall('2027-10-31T01:20'),
        end: wall('2027-10-31T02:20'),
        startInstant: at('2027-10-31T01:20:00Z'),
        endInstant: at('2027-10-31T02:20:00Z'),
        summary: 'Night plate in the second hour of one o’clock',
      }),
      anEntry({
        uid: '7d6d8c1e-53b0-4f0c-9a5e-0b1f6f2f9a04',
        sequence: 3,
        status: 'CANCELLED',
        start: wall('2027-08-06T10:00'),
        end: wall('2027-08-06T11:15'),
        startInstant: at('2027-08-06T09:00:00Z'),
        endInstant: at('2027-08-06T10:15:00Z'),
        summary: 'Sitting: Aurelio Brinkmoor',
        alarmsMinutesBefore: [60],
      }),
    ],
  };
}

export const organizer = { name: 'Kittiwake Yard', email: 'bookings@kittiwake.example' };
export const attendee = { name: 'Ebba "Sal" Fjordvik', email: 'ebba+plates@sitters.example' };

/** Unfolds and splits by the letter of RFC 5545 3.1; throws where a bare CR or LF stands, or the last CRLF lacks. */
export function contentLines(text: string): string[] {
  const lines = text.replace(/\r\n[ \t]/gu, '').split('\r\n');
  if (lines.pop() !== '') throw new Error('The text does not end with CRLF');
  if (lines.some((line) => /[\r\n]/u.test(line))) throw new Error('A line holds a bare CR or LF');
  return lines;
}

/** How often each property or component boundary occurs: `{ 'BEGIN:VEVENT': 2, SUMMARY: 2, ... }`. */
export function propertyCounts(text: string): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const line of contentLines(text)) {
    const name = /^(BEGIN|END):/u.test(line) ? line : (/^[A-Z-]+/u.exec(line)?.[0] ?? `?${line}`);
    counts[name] = (counts[name] ?? 0) + 1;
  }
  return counts;
}
