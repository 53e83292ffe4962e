import { readFileSync, writeFileSync } from 'node:fs';
import ICAL from 'ical.js';
import { buildFeed, buildInvitation } from '../../src/calendar/ics.calc.js';
import {
  anEntry,
  at,
  attendee,
  contentLines,
  kittiwakeFeed,
  organizer,
  propertyCounts,
  wall,
} from '../support/calendar-entries.js';

/** Compares bytes with a file in test/golden/calendar; `UPDATE_GOLDEN=1` writes it, to be read before it is committed. */
function expectGolden(name: string, text: string): void {
  const file = new URL(`../golden/calendar/${name}`, import.meta.url);
  if (process.env.UPDATE_GOLDEN) writeFileSync(file, text);
  expect(text).toBe(readFileSync(file, 'utf8'));
}

const feedOf = (...entries: Parameters<typeof buildFeed>[0]['entries']) =>
  buildFeed({ name: 'Kittiwake Yard', refreshHours: 6, entries });
/** The lines of a property, those of VTIMEZONE aside. */
const linesOf = (text: string, property: string) => {
  const lines = contentLines(text.replace(/BEGIN:VTIMEZONE.*?END:VTIMEZONE\r\n/gsu, ''));
  return lines.filter((line) => new RegExp(`^${property}[:;]`, 'u').test(line));
};

describe('golden calendar files', () => {
  test('a feed is byte for byte as reviewed', () => {
    expectGolden('feed.ics', buildFeed(kittiwakeFeed()));
  });

  test('an invitation is byte for byte as reviewed', () => {
    const entry = kittiwakeFeed().entries[0] ?? anEntry();
    expectGolden('request.ics', buildInvitation({ method: 'REQUEST', entry, organizer, attendee }));
  });

  test('a cancellation is byte for byte as reviewed', () => {
    const entry = { ...(kittiwakeFeed().entries[0] ?? anEntry()), sequence: 2 };
    expectGolden('cancel.ics', buildInvitation({ method: 'CANCEL', entry, organizer, attendee }));
  });
});

describe('a feed', () => {
  test('is equal for equal entries in any order', () => {
    const feed = kittiwakeFeed();
    const text = buildFeed(feed);
    expect(buildFeed(kittiwakeFeed())).toBe(text);
    expect(buildFeed({ ...feed, entries: [...feed.entries].reverse() })).toBe(text);
  });

  test('changes when only the revision of an entry changes', () => {
    const text = feedOf(anEntry({ sequence: 4, revisedAt: at('2027-06-01T00:00:00.9Z') }));
    expect(linesOf(text, 'DTSTAMP')).toEqual(['DTSTAMP:20270601T000000Z']);
    expect(linesOf(text, 'LAST-MODIFIED')).toEqual(['LAST-MODIFIED:20270601T000000Z']);
    expect(linesOf(text, 'SEQUENCE')).toEqual(['SEQUENCE:4']);
    expect(text).not.toBe(feedOf(anEntry()));
  });

  test('holds no METHOD, no people and no address of its own', () => {
    const counts = propertyCounts(buildFeed(kittiwakeFeed()));
    for (const absent of ['METHOD', 'ORGANIZER', 'ATTENDEE', 'SOURCE', 'X-WR-TIMEZONE', 'TIMEZONE-ID']) {
      expect(counts[absent]).toBeUndefined();
    }
  });

  test('names itself and its pace in both spellings, before any component', () => {
    const lines = contentLines(buildFeed(kittiwakeFeed()));
    const head = lines.slice(0, lines.indexOf('BEGIN:VTIMEZONE'));
    expect(head).toEqual([
      'BEGIN:VCALENDAR',
      'VERSION:2.0',
      'PRODID:-//Plateday//Plateday//EN',
      'CALSCALE:GREGORIAN',
      'NAME:Kittiwake Yard\\, sittings\\; owner',
      'X-WR-CALNAME:Kittiwake Yard\\, sittings\\; owner',
      'DESCRIPTION:All sittings of the studio.\\nTimes are the studio’s.',
      'X-WR-CALDESC:All sittings of the studio.\\nTimes are the studio’s.',
      'REFRESH-INTERVAL;VALUE=DURATION:PT6H',
      'X-PUBLISHED-TTL:PT6H',
    ]);
  });

  test('without entries still holds the one component that RFC 5545 3.4 asks for', () => {
    const root = new ICAL.Component(ICAL.parse(feedOf()) as unknown[]);
    expect(root.getAllSubcomponents().map((component) => component.name)).toEqual(['vtimezone']);
  });

  test('marks a cancelled place in words, as free time, and without alarms', () => {
    const text = feedOf(anEntry({ status: 'CANCELLED', alarmsMinutesBefore: [60] }));
    expect(linesOf(text, 'SUMMARY')).toEqual(['SUMMARY:Cancelled: Sitting at Kittiwake Yard']);
    expect(linesOf(text, 'TRANSP')).toEqual(['TRANSP:TRANSPARENT']);
    expect(linesOf(text, 'STATUS')).toEqual(['STATUS:CANCELLED']);
    expect(text).not.toContain('VALARM');
  });

  test('puts every property of an event before its alarms', () => {
    const text = feedOf(
      anEntry({
        url: 'https://kittiwake.example/',
        alarmsMinutesBefore: [0, 60, 1500, 60, -5, 0.5, Number.NaN, Number.POSITIVE_INFINITY],
      }),
    );
    const lines = contentLines(text);
    const alarms = lines.slice(lines.indexOf('BEGIN:VALARM'), lines.indexOf('END:VEVENT'));
    expect(alarms.filter((line) => line.startsWith('TRIGGER'))).toEqual([
      'TRIGGER:-P1DT1H',
      'TRIGGER:-PT1H',
      'TRIGGER:PT0S',
    ]);
    expect(new Set(alarms.map((line) => line.split(':')[0]))).toEqual(
      new Set(['BEGIN', 'ACTION', 'TRIGGER', 'DESCRIPTION', 'END']),
    );
  });

  test('carries a place on the equator or at Greenwich, and none that is not on the globe', () => {
    expect(linesOf(feedOf(anEntry({ geo: { lat: 51.4779, lon: 0 } })), 'GEO')).toEqual([
      'GEO:51.477900;0.000000',
    ]);
    expect(linesOf(feedOf(anEntry({ geo: { lat: 0, lon: -1e-7 } })), 'GEO')).toEqual([
      'GEO:0.000000;-0.000000',
    ]);
    expect(linesOf(feedOf(anEntry({ geo: { lat: 91, lon: 0 } })), 'GEO')).toEqual([]);
    expect(linesOf(feedOf(anEntry({ geo: { lat: Number.NaN, lon: 0 } })), 'GEO')).toEqual([]);
  });

  test('leaves out an end that is not after the start', () => {
    const text = feedOf(anEntry({ end: wall('2027-07-16T10:00'), endInstant: at('2027-07-16T09:00:00Z') }));
    expect(linesOf(text, 'DTSTART')).toEqual(['DTSTART;TZID=Europe/London:20270716T100000']);
    expect(linesOf(text, 'DTEND')).toEqual([]);
  });

  test('refuses an entry without UID instead of inventing one at each fetch', () => {
    expect(() => feedOf(anEntry({ uid: '\r\n' }))).toThrow(RangeError);
  });
});

describe('times of an entry', () => {
  const isSecond = { startInstant: at('2027-10-31T01:30:00Z'), endInstant: at('2027-10-31T01:45:00Z') };
  const halfPastOne = { start: wall('2027-10-31T01:30'), end: wall('2027-10-31T01:45') };

  test('in the first pass of a repeated hour are UTC, as readers differ on what its wall time means', () => {
    const first = { startInstant: at('2027-10-31T00:30:00Z'), endInstant: at('2027-10-31T00:45:00Z') };
    const text = feedOf(anEntry({ ...halfPastOne, ...first }));
    expect(linesOf(text, 'DTSTART')).toEqual(['DTSTART:20271031T003000Z']);
    expect(linesOf(text, 'DTEND')).toEqual(['DTEND:20271031T004500Z']);
  });

  test('in its second pass are UTC, and then no VTIMEZONE is needed', () => {
    const text = feedOf(anEntry({ ...halfPastOne, ...isSecond }));
    expect(linesOf(text, 'DTSTART')).toEqual(['DTSTART:20271031T013000Z']);
    expect(linesOf(text, 'DTEND')).toEqual(['DTEND:20271031T014500Z']);
    expect(text).not.toContain('TZID');
  });

  test('just before and just after a repeated hour are wall times', () => {
    const text = feedOf(
      anEntry({
        start: wall('2027-10-31T00:59:59'),
        end: wall('2027-10-31T02:00'),
        startInstant: at('2027-10-30T23:59:59Z'),
        endInstant: at('2027-10-31T02:00:00Z'),
      }),
    );
    expect(linesOf(text, 'DTSTART')).toEqual(['DTSTART;TZID=Europe/London:20271031T005959']);
    expect(linesOf(text, 'DTEND')).toEqual(['DTEND;TZID=Europe/London:20271031T020000']);
  });

  test('that end in the second pass are UTC on both sides, though the wall runs backwards', () => {
    const text = feedOf(
      anEntry({
        start: wall('2027-10-31T01:50'),
        end: wall('2027-10-31T01:10'),
        startInstant: at('2027-10-31T00:50:00Z'),
        endInstant: at('2027-10-31T01:10:00Z'),
      }),
    );
    expect(linesOf(text, 'DTSTART')).toEqual(['DTSTART:20271031T005000Z']);
    expect(linesOf(text, 'DTEND')).toEqual(['DTEND:20271031T011000Z']);
  });

  test('in the zone UTC are UTC', () => {
    const start = { start: wall('2027-07-16T09:00'), end: wall('2027-07-16T10:15') };
    expect(linesOf(feedOf(anEntry({ zone: 'UTC', ...start })), 'DTSTART')).toEqual([
      'DTSTART:20270716T090000Z',
    ]);
  });

  test('of several zones bring one VTIMEZONE each', () => {
    const vancouver = {
      zone: 'America/Vancouver',
      start: wall('2027-07-16T02:00'),
      end: wall('2027-07-16T03:15'),
    };
    const text = feedOf(anEntry(), anEntry({ uid: 'b', ...vancouver }), anEntry({ uid: 'c' }));
    expect(contentLines(text).filter((line) => line.startsWith('TZID'))).toEqual([
      'TZID:America/Vancouver',
      'TZID:Europe/London',
    ]);
  });
});

describe('an invitation', () => {
  test('names one organizer and one attendee, and asks for no reply', () => {
    const text = buildInvitation({ method: 'REQUEST', entry: anEntry(), organizer, attendee });
    expect(linesOf(text, 'METHOD')).toEqual(['METHOD:REQUEST']);
    expect(linesOf(text, 'ORGANIZER')).toEqual([
      'ORGANIZER;CN="Kittiwake Yard":mailto:bookings@kittiwake.example',
    ]);
    expect(linesOf(text, 'ATTENDEE')).toEqual([
      `ATTENDEE;ROLE=REQ-PARTICIPANT;PARTSTAT=ACCEPTED;RSVP=FALSE;CN="Ebba 'Sal' Fjordvik":MAILTO:ebba+plates@sitters.example`,
    ]);
    expect(propertyCounts(text)['X-WR-CALNAME']).toBeUndefined();
  });

  test('to cancel keeps UID, times and organizer, and has no alarm', () => {
    const entry = anEntry({ alarmsMinutesBefore: [60] });
    const request = buildInvitation({ method: 'REQUEST', entry, organizer, attendee });
    const cancel = buildInvitation({
      method: 'CANCEL',
      entry: { ...entry, sequence: 1 },
      organizer,
      attendee,
    });
    expect(request).toContain('BEGIN:VALARM');
    expect(cancel).not.toContain('VALARM');
    for (const same of ['UID', 'DTSTART', 'DTEND', 'ORGANIZER', 'ATTENDEE']) {
      expect(linesOf(cancel, same)).toEqual(linesOf(request, same));
      expect(linesOf(cancel, same)).toHaveLength(1);
    }
    expect(linesOf(cancel, 'SEQUENCE')).toEqual(['SEQUENCE:1']);
    expect(linesOf(cancel, 'STATUS')).toEqual(['STATUS:CANCELLED']);
  });

  test('to something cancelled is refused', () => {
    const entry = anEntry({ status: 'CANCELLED' });
    expect(() => buildInvitation({ method: 'REQUEST', entry, organizer, attendee })).toThrow(RangeError);
  });

  test('calls a nameless person by the address', () => {
    const nameless = { name: ' ', email: 'ebba@sitters.example' };
    const text = buildInvitation({ method: 'REQUEST', entry: anEntry(), organizer, attendee: nameless });
    expect(linesOf(text, 'ATTENDEE')[0]).toContain('CN="ebba@sitters.example"');
  });
});
