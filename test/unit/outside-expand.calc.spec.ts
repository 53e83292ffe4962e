// When somebody is busy by their calendar. The rules are the examples of RFC 5545, section 3.8.5.3, with the days it gives
// for them; all begin on Tuesday 2 September 1997 at 9:00 in New York, where clocks went back on 26 October 1997 and
// forward on 5 April 1998.
import { describe, expect, test } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import { type BusyTime, readBusyTimes } from '../../src/outside/expand.calc.js';

const ZONE = 'America/New_York';

function calendar(...events: string[][]): string {
  const lines = events.flatMap((one, at) => [
    'BEGIN:VEVENT',
    ...(one.some((line) => line.startsWith('UID:')) ? [] : [`UID:${at}@example`]),
    'DTSTAMP:19970714T170000Z',
    ...one,
    'END:VEVENT',
  ]);
  return ['BEGIN:VCALENDAR', 'VERSION:2.0', 'PRODID:-//test//EN', ...lines, 'END:VCALENDAR', ''].join('\r\n');
}

function busy(text: string, from: string, until: string, zone = ZONE): BusyTime[] {
  const [start, end] = [from, until].map((day) => Temporal.Instant.from(`${day}T00:00Z`).epochMilliseconds);
  const read = readBusyTimes({ text, studioZone: zone, from: start ?? 0, until: end ?? 0 });
  if (!read.ok) throw new Error(read.reason);
  return read.busy;
}

const refused = (text: string, most = { times: 300, steps: 1000 }) => {
  const asked = { text, studioZone: ZONE, from: Date.UTC(2027, 0), until: Date.UTC(2029, 0) };
  const read = readBusyTimes(asked, most);
  return read.ok ? 'read' : read.reason;
};

const iso = (milliseconds: number) => new Date(milliseconds).toISOString().slice(0, 16);
const starts = (all: BusyTime[]) => all.map(({ from }) => iso(from));
const stretches = (all: BusyTime[]) => all.map(({ from, until }) => `${iso(from)}/${iso(until)}`);

const NINE = 'DTSTART;TZID=America/New_York:19970902T090000';
/** The entry of an hour at nine with a rule, as UTC starts. */
const byRule = (...rule: string[]) =>
  starts(busy(calendar([NINE, 'DURATION:PT1H', ...rule]), '1997-09-01', '1999-12-31'));
/** Nine o'clock on days given as "1997-09-02"; with daylight time (13:00 UTC) or without (14:00). */
const nine = (summer: string[], winter: string[] = []) => [
  ...summer.map((day) => `${day}T13:00`),
  ...winter.map((day) => `${day}T14:00`),
];
const range = (first: string, count: number, step = 1) =>
  Array.from({ length: count }, (_, at) =>
    Temporal.PlainDate.from(first)
      .add({ days: at * step })
      .toString(),
  );

describe('the examples of RFC 5545, 3.8.5.3', () => {
  test('daily for 10 occurrences', () => {
    expect(byRule('RRULE:FREQ=DAILY;COUNT=10')).toEqual(nine(range('1997-09-02', 10)));
  });
  test('daily until 24 December 1997: at nine before and after the clocks go back', () => {
    expect(byRule('RRULE:FREQ=DAILY;UNTIL=19971224T000000Z')).toEqual(
      nine(range('1997-09-02', 54), range('1997-10-26', 59)),
    );
  });
  test('every 10 days, 5 occurrences', () => {
    expect(byRule('RRULE:FREQ=DAILY;INTERVAL=10;COUNT=5')).toEqual(nine(range('1997-09-02', 5, 10)));
  });
  test('weekly until 24 December 1997', () => {
    expect(byRule('RRULE:FREQ=WEEKLY;UNTIL=19971224T000000Z')).toEqual(
      nine(range('1997-09-02', 8, 7), range('1997-10-28', 9, 7)),
    );
  });
  test('every other week on Tuesday and Thursday, for 8 occurrences, weeks from Sunday', () => {
    expect(byRule('RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=8;WKST=SU;BYDAY=TU,TH')).toEqual(
      nine([
        '1997-09-02',
        '1997-09-04',
        '1997-09-16',
        '1997-09-18',
        '1997-09-30',
        '1997-10-02',
        '1997-10-14',
        '1997-10-16',
      ]),
    );
  });
  test('monthly on the second-to-last Monday for 6 months', () => {
    const at22 = 'DTSTART;TZID=America/New_York:19970922T090000';
    const all = busy(
      calendar([at22, 'DURATION:PT1H', 'RRULE:FREQ=MONTHLY;COUNT=6;BYDAY=-2MO']),
      '1997-09-01',
      '1998-12-31',
    );
    expect(starts(all)).toEqual(
      nine(['1997-09-22', '1997-10-20'], ['1997-11-17', '1997-12-22', '1998-01-19', '1998-02-16']),
    );
  });
  test('every Friday the 13th, without the first start', () => {
    const rule = [
      'EXDATE;TZID=America/New_York:19970902T090000',
      'RRULE:FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13',
    ];
    expect(byRule(...rule)).toEqual([
      '1998-02-13T14:00',
      '1998-03-13T14:00',
      '1998-11-13T14:00',
      '1999-08-13T13:00',
    ]);
  });
  test('the third instance into the month of Tuesday, Wednesday or Thursday, for 3 months', () => {
    const at4 = 'DTSTART;TZID=America/New_York:19970904T090000';
    const rule = 'RRULE:FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3';
    expect(starts(busy(calendar([at4, 'DURATION:PT1H', rule]), '1997-09-01', '1998-12-31'))).toEqual(
      nine(['1997-09-04', '1997-10-07'], ['1997-11-06']),
    );
  });
  test('an invalid date (30 February) is ignored', () => {
    const from = 'DTSTART;TZID=America/New_York:20070115T090000';
    const rule = 'RRULE:FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5';
    expect(starts(busy(calendar([from, 'DURATION:PT1H', rule]), '2007-01-01', '2007-12-31'))).toEqual([
      '2007-01-15T14:00',
      '2007-01-30T14:00',
      '2007-02-15T14:00',
      '2007-03-15T13:00',
      '2007-03-30T13:00',
    ]);
  });
});

describe('what is taken out, moved and added', () => {
  const weekly = [
    'UID:w',
    'SUMMARY:Choir',
    NINE,
    'DTEND;TZID=America/New_York:19970902T103000',
    'RRULE:FREQ=WEEKLY;COUNT=4',
  ];

  test('one is left out, one is moved across the change of clocks, one is called off', () => {
    const text = calendar(
      [...weekly, 'EXDATE;TZID=America/New_York:19970909T090000'],
      [
        'UID:w',
        'RECURRENCE-ID:19970916T130000Z',
        'DTSTART;TZID=America/New_York:19971103T080000',
        'DURATION:PT2H',
      ],
      [
        'UID:w',
        'RECURRENCE-ID;TZID=America/New_York:19970923T090000',
        'STATUS:CANCELLED',
        'DTSTART;TZID=America/New_York:19970923T090000',
      ],
    );
    expect(stretches(busy(text, '1997-09-01', '1998-01-01'))).toEqual([
      '1997-09-02T13:00/1997-09-02T14:30',
      '1997-11-03T13:00/1997-11-03T15:00',
    ]);
  });

  test('all later ones are moved with one', () => {
    const text = calendar(weekly, [
      'UID:w',
      'RECURRENCE-ID;RANGE=THISANDFUTURE;TZID=America/New_York:19970916T090000',
      'DTSTART;TZID=America/New_York:19970917T110000',
      'DURATION:PT30M',
    ]);
    expect(stretches(busy(text, '1997-09-01', '1998-01-01'))).toEqual([
      '1997-09-02T13:00/1997-09-02T14:30',
      '1997-09-09T13:00/1997-09-09T14:30',
      '1997-09-17T15:00/1997-09-17T15:30',
      '1997-09-24T15:00/1997-09-24T15:30',
    ]);
  });

  test('further starts, one of them with a length of its own, count once', () => {
    const text = calendar([
      NINE,
      'DURATION:PT1H',
      'RDATE;TZID=America/New_York:19970902T090000,19971030T200000',
      'RDATE;VALUE=PERIOD:19970910T130000Z/PT15M',
    ]);
    expect(stretches(busy(text, '1997-09-01', '1998-01-01'))).toEqual([
      '1997-09-02T13:00/1997-09-02T14:00',
      '1997-09-10T13:00/1997-09-10T13:15',
      '1997-10-31T01:00/1997-10-31T02:00',
    ]);
  });

  test('what is marked as free, called off or takes no time blocks nothing', () => {
    const text = calendar(
      [NINE, 'DURATION:PT1H', 'TRANSP:TRANSPARENT'],
      [NINE, 'DURATION:PT1H', 'STATUS:CANCELLED'],
      [NINE],
      [NINE, 'DURATION:PT1H', 'TRANSP:OPAQUE', 'STATUS:TENTATIVE'],
    );
    expect(busy(text, '1997-09-01', '1998-01-01')).toHaveLength(1);
  });
});

describe('days, zones and lengths', () => {
  test('days are the studio’s: 23 and 25 hours where its clocks change', () => {
    const text = calendar(
      ['DTSTART;VALUE=DATE:20270328'],
      ['DTSTART;VALUE=DATE:20271031', 'DTEND;VALUE=DATE:20271101'],
    );
    expect(stretches(busy(text, '2027-01-01', '2027-12-31', 'Europe/London'))).toEqual([
      '2027-03-28T00:00/2027-03-28T23:00',
      '2027-10-30T23:00/2027-11-01T00:00',
    ]);
  });

  test('a yearly day of several stays whole', () => {
    const text = calendar(['DTSTART;VALUE=DATE:20201224', 'DTEND;VALUE=DATE:20201227', 'RRULE:FREQ=YEARLY']);
    const found = busy(text, '2026-01-01', '2028-01-01', 'Europe/Berlin');
    expect(stretches(found)).toEqual([
      '2026-12-23T23:00/2026-12-26T23:00',
      '2027-12-23T23:00/2027-12-26T23:00',
    ]);
    expect(found.every((one) => one.wholeDays)).toBe(true);
  });

  test('a time without a zone goes by the studio’s clock', () => {
    const text = calendar(['DTSTART:20270715T100000', 'DURATION:PT1H']);
    expect(starts(busy(text, '2027-01-01', '2028-01-01', 'Europe/Berlin'))).toEqual(['2027-07-15T08:00']);
    expect(starts(busy(text, '2027-01-01', '2028-01-01', 'America/Vancouver'))).toEqual(['2027-07-15T17:00']);
  });

  // RFC 5545, 3.3.5: in New York 2:30 on 11 March 2007 is 3:30, and 1:30 on 4 November 2007 is the first one
  test('an hour that clocks skip goes by the offset before, one they show twice is the first', () => {
    const at = (wall: string) =>
      starts(busy(calendar([`DTSTART;TZID=${ZONE}:${wall}`, 'DURATION:PT1H']), '2007-01-01', '2008-01-01'));
    expect(at('20070311T023000')).toEqual(['2007-03-11T07:30']);
    expect(at('20071104T013000')).toEqual(['2007-11-04T05:30']);
  });

  // RFC 5545, 3.3.6 and 3.8.5.3: an end gives an exact length, a duration in days one on the wall
  test('over a change of clocks a day lasts a day and an end keeps its hours', () => {
    const day = calendar(['DTSTART;TZID=Europe/London:20270327T120000', 'DURATION:P1D']);
    expect(stretches(busy(day, '2027-01-01', '2028-01-01'))).toEqual(['2027-03-27T12:00/2027-03-28T11:00']);
    const end = ['DTSTART;TZID=Europe/London:20270320T120000', 'DTEND;TZID=Europe/London:20270321T120000'];
    expect(
      stretches(busy(calendar([...end, 'RRULE:FREQ=WEEKLY;COUNT=2']), '2027-01-01', '2028-01-01'))[1],
    ).toBe('2027-03-27T12:00/2027-03-28T12:00');
  });

  const stale = (tzid: string) =>
    [
      'BEGIN:VTIMEZONE',
      `TZID:${tzid}`,
      'BEGIN:STANDARD',
      'DTSTART:19700101T000000',
      'TZOFFSETFROM:+0330',
      'TZOFFSETTO:+0330',
      'END:STANDARD',
      'END:VTIMEZONE',
    ].join('\r\n');

  test('a zone with an IANA name goes by our data, whatever stands in the file; another by the file', () => {
    const inZone = (tzid: string) =>
      calendar([
        `DTSTART;TZID=${tzid}:20270715T100000`,
        'DURATION:PT1H',
        'RRULE:FREQ=DAILY;UNTIL=20270716T235959Z',
      ]).replace('BEGIN:VEVENT', `${stale(tzid)}\r\nBEGIN:VEVENT`);
    const read = (tzid: string) => starts(busy(inZone(tzid), '2027-01-01', '2028-01-01'));
    expect(read('Africa/Cairo')).toEqual(['2027-07-15T07:00', '2027-07-16T07:00']);
    expect(read('/example.org/20261126/Africa/Cairo')).toEqual(['2027-07-15T07:00', '2027-07-16T07:00']);
    expect(read('Half past three')).toEqual(['2027-07-15T06:30', '2027-07-16T06:30']);
  });
});

describe('what cannot be read', () => {
  test('a rule of every second or minute, one of too many steps, and too many entries are refused', () => {
    for (const freq of ['SECONDLY', 'MINUTELY'])
      expect(refused(calendar([NINE, 'DURATION:PT1S', `RRULE:FREQ=${freq}`]))).toBe('too often');
    const daily = calendar([NINE, 'DURATION:PT1S', 'RRULE:FREQ=DAILY']);
    expect(refused(daily)).toBe('too often'); // 10,000 days until then
    expect(refused(daily, { times: 300, steps: 100_000 })).toBe('too many');
    expect(refused(daily, { times: 800, steps: 100_000 })).toBe('read');
  });

  test('a page, half a file and nothing at all are told apart from a calendar', () => {
    expect(refused('<!doctype html><title>Please sign in</title>')).toBe('not a calendar');
    expect(refused('')).toBe('not a calendar');
    expect(refused('BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nDTSTART:2027')).toBe('broken');
    expect(refused(calendar())).toBe('read');
  });

  test('what is kept says when and what only, and reads the same', () => {
    const text = calendar([
      NINE,
      'DURATION:PT1H',
      'SUMMARY:Dentist',
      'DESCRIPTION:the left one',
      'ATTENDEE:mailto:x@example.org',
      'RRULE:FREQ=WEEKLY;COUNT=3',
    ]);
    const asked = { studioZone: ZONE, from: 0, until: Date.UTC(2000, 0, 1) };
    const first = readBusyTimes({ ...asked, text });
    if (!first.ok) throw new Error(first.reason);
    expect(first.copy).not.toMatch(/left one|mailto/);
    expect(readBusyTimes({ ...asked, text: first.copy })).toEqual(first);
  });
});
