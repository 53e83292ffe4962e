// Whatever people type, a calendar file keeps its shape: the same properties, short lines, whole characters, and the
// text comes back as it was typed.
import fc from 'fast-check';
import ICAL from 'ical.js';
import nodeIcal from 'node-ical';
import { buildFeed, buildInvitation, type CalendarEntry } from '../../src/calendar/ics.calc.js';
import { anEntry, contentLines, organizer, propertyCounts } from '../support/calendar-entries.js';

const RUNS = { numRuns: process.env.PLATEDAY_DEEP ? 2_000 : 300 };

const bait = fc.constantFrom(
  ...[
    '\r\n',
    '\n',
    '\r',
    '\u2028',
    '\u0085',
    '\0',
    '\u001b',
    '\t',
    ' ',
    '"',
    "'",
    '\\',
    '\\n',
    '\\,',
    ',',
    ';',
    ':',
  ],
  ...['^n', "^'", '=', '%0D%0A', '\ud83d', '\udcf7', '📷', '👩🏽‍🔬', 'e\u0301', '手', '\u202e', '\ufeff'],
  ...[
    'END:VEVENT',
    'BEGIN:VEVENT',
    'ATTENDEE:mailto:x@x.example',
    'X-EVIL:1',
    'METHOD:CANCEL',
    ';CN="',
    'http://',
  ],
);
const hostile = fc
  .array(fc.oneof(bait, fc.string({ unit: 'binary', maxLength: 30 })), { maxLength: 12 })
  .map((parts) => parts.join(''));
/** What people may well write: every printable character, several lines, no control characters. */
const ordinary = fc
  .array(
    fc.oneof(fc.string({ unit: 'grapheme', maxLength: 60 }), fc.constantFrom('\n', '\\', ';', ',', '"', ':')),
  )
  .map((parts) =>
    parts
      .join('')
      .replace(/[\p{Cc}\u2028\u2029]/gu, (c) => (c === '\n' ? c : ''))
      .trim(),
  );

const texts = (text: fc.Arbitrary<string>) =>
  fc.record({ summary: text, description: text, location: text, url: text, name: text, email: text });
type Texts = { [key in 'summary' | 'description' | 'location' | 'url' | 'name' | 'email']: string };

function entryOf({ summary, description, location, url }: Texts, uid = 'a'): CalendarEntry {
  return anEntry({ uid, summary, description, location, url, alarmsMinutesBefore: [60] });
}

/** Lines of at most 75 octets, each whole UTF-8 and without control characters; the last ends with CRLF. */
function expectSoundLines(text: string): void {
  const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
  const physical = Buffer.from(text, 'utf8').toString('latin1').split('\r\n');
  expect(physical.pop()).toBe('');
  expect(physical.filter((line) => line.length > 75)).toEqual([]);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what must be absent
  expect(physical.filter((line) => /[\x00-\x08\x0a-\x1f\x7f]/u.test(line))).toEqual([]);
  const decoded = physical.map((line) => decoder.decode(Buffer.from(line, 'latin1')));
  expect(`${decoded.join('\r\n')}\r\n`).toBe(text);
}

/** Counts without the properties that are left out when their text is empty. */
function fixedCounts(text: string): Record<string, number> {
  const { DESCRIPTION, LOCATION, URL, ...fixed } = propertyCounts(text);
  expect([DESCRIPTION, LOCATION, URL].every((count) => count === undefined || count <= 5)).toBe(true);
  return fixed;
}

const plain: Texts = {
  summary: 's',
  description: '',
  location: '',
  url: '',
  name: 'n',
  email: 'e@e.example',
};
const feedOf = (t: Texts) =>
  buildFeed({ name: t.name, description: t.email, refreshHours: 6, entries: [entryOf(t), entryOf(t, 'b')] });
const requestOf = (t: Texts) =>
  buildInvitation({
    method: 'REQUEST',
    entry: entryOf(t),
    organizer: { ...organizer, name: t.name || 'x' },
    attendee: t,
  });
const eventsOf = (text: string) =>
  new ICAL.Component(ICAL.parse(text) as unknown[]).getAllSubcomponents('vevent');

test('hostile text adds no property to a feed and breaks no line', () => {
  const expected = fixedCounts(feedOf({ ...plain, email: '' }));
  delete expected['X-WR-CALDESC'];
  fc.assert(
    fc.property(texts(hostile), (t) => {
      const text = feedOf(t);
      const counts = fixedCounts(text);
      delete counts['X-WR-CALDESC'];
      expect(counts).toEqual(expected);
      expectSoundLines(text);
    }),
    RUNS,
  );
});

test('hostile text and names add no property or parameter to an invitation', () => {
  const expected = fixedCounts(requestOf(plain));
  fc.assert(
    fc.property(texts(hostile), (t) => {
      const text = requestOf({ ...t, email: `x${t.email}` });
      expect(fixedCounts(text)).toEqual(expected);
      expectSoundLines(text);
      const [event] = eventsOf(text);
      const attendee = event?.getFirstProperty('attendee')?.toJSON();
      const organized = event?.getFirstProperty('organizer')?.toJSON();
      expect(Object.keys(attendee?.[1] as object).sort()).toEqual(['cn', 'partstat', 'role', 'rsvp']);
      expect(Object.keys(organized?.[1] as object)).toEqual(['cn']);
      expect(attendee?.[3]).toMatch(/^MAILTO:[A-Za-z0-9\-._~!$'*+@%]+$/u);
    }),
    RUNS,
  );
});

test('ordinary text comes back from two readers as it was written', () => {
  fc.assert(
    fc.property(texts(ordinary), (t) => {
      const oneLine = t.summary.replace(/[ \n]+/gu, ' ');
      const text = feedOf(t);
      const [event] = eventsOf(text);
      expect(event?.getFirstPropertyValue('summary')).toBe(oneLine);
      expect(event?.getFirstPropertyValue('description') ?? '').toBe(t.description);
      expect(event?.getFirstPropertyValue('location') ?? '').toBe(t.location);
      const other = Object.values(nodeIcal.sync.parseICS(text)).find((item) => item?.type === 'VEVENT');
      // node-ical 0.26.1 takes a pair of quotes around a whole value for syntax, and reads the "\\n" that stands for a
      // backslash before an n as a backslash before a new line (RFC 5545 3.3.11 has "\\" for the backslash).
      const readAs = oneLine.replace(/^"(.*)"$/u, '$1').replace(/\\n/giu, '\\\n');
      expect(other).toMatchObject({ summary: readAs });
    }),
    RUNS,
  );
});

test('hostile text leaves times, UID and STATUS as they are', () => {
  fc.assert(
    fc.property(texts(hostile), (t) => {
      const lines = contentLines(feedOf(t));
      const kept = lines.filter((line) => /^(UID|DTSTART;|DTEND;|STATUS|SEQUENCE|TRANSP)/u.test(line));
      const event = (uid: string) => [
        `UID:${uid}`,
        'SEQUENCE:0',
        'DTSTART;TZID=Europe/London:20270716T100000',
        'DTEND;TZID=Europe/London:20270716T111500',
        'TRANSP:OPAQUE',
        'STATUS:CONFIRMED',
      ];
      expect(kept).toEqual([...event('a'), ...event('b')]);
    }),
    RUNS,
  );
});
