// What cells, columns and lines of somebody's diary are taken for.
import { describe, expect, test } from '@jest/globals';
import { Temporal } from 'temporal-polyfill';
import {
  cleaned,
  guessOrder,
  noDay,
  orderIn,
  readCount,
  readDay,
} from '../../src/desk/bring-in/cells.calc.js';
import { guessColumns, hasHeadings } from '../../src/desk/bring-in/columns.calc.js';
import { diaryLines } from '../../src/desk/bring-in/diary.calc.js';
import { firstChoices, reading } from '../../src/desk/bring-in/reading.calc.js';

const day = (text: string, order: 'day first' | 'month first' = 'day first') => {
  const read = readDay(text, order);
  return (
    read && `${read.day.toString()}${read.time ? ` ${read.time.toString({ smallestUnit: 'minute' })}` : ''}`
  );
};

describe('days, as they are written', () => {
  // ISO 8601 and RFC 3339 for the first two; the others are common practice, no source
  test.each([
    ['2026-03-12', '2026-03-12'],
    ['2026-03-12T11:15:00Z', '2026-03-12 11:15'],
    ['12/3/2026', '2026-03-12'],
    ['12.3.26', '2026-03-12'],
    ['12-03-2026 9:30', '2026-03-12 09:30'],
    ['12 March 2026', '2026-03-12'],
    ['12th of Mar. 2026', '2026-03-12'],
    ['March 12, 2026', '2026-03-12'],
    ['Thursday, 12 March 2026, 11:15', '2026-03-12 11:15'],
    ['Thu 12 Mar 2026', '2026-03-12'],
    ['1 Sept 2026', '2026-09-01'],
    ['5 Feb 27', '2027-02-05'],
    ["5 Feb '27", '2027-02-05'],
    ['05-Feb-27', '2027-02-05'],
    ['Feb 5, 27', '2027-02-05'],
    ['Friday the 5th of February 2027', '2027-02-05'],
    ['5 February 2027 at 11:45', '2027-02-05 11:45'],
    ['5 February 2027 at 11', '2027-02-05 11:00'],
    ['29/1/2027 10am', '2027-01-29 10:00'],
    ['29/1/27, 1.30 p.m.', '2027-01-29 13:30'],
    ['29 Jan 2027 12pm', '2027-01-29 12:00'],
    ['29 Jan 2027 12 AM', '2027-01-29 00:00'],
    ['2027-01-29T10:00:00.000+01:00', '2027-01-29 10:00'],
    ['29 Jan 2027 13pm', null],
    ['29 Jan 2027 10', null],
    ['29 January 11:45', null],
    ['29 Jane 2027', null],
    ['Aug 2026', null],
    ['13/25/2026', null],
    ['31/2/2026', null],
    ['29 February 2026', null],
    ['12 Marchember 2026', null],
    ['March', null],
    ['12/3', null],
    ['12/3/0026', null],
    ['2026-03-12 25:00', null],
    ['', null],
  ])('%s', (text, is) => {
    expect(day(text)).toBe(is);
  });

  test('which comes first is asked only where it makes a difference', () => {
    expect(day('3/4/2026')).toBe('2026-04-03');
    expect(day('3/4/2026', 'month first')).toBe('2026-03-04');
    expect(day('3.4.2026', 'month first')).toBe('2026-04-03'); // full stops are never American
    expect(day('25/4/2026', 'month first')).toBe('2026-04-25');
    expect(guessOrder(['3/4/2026', '25/4/2026'], 'month first')).toEqual({ order: 'day first', asked: true });
    expect(guessOrder(['3/4/2026', '4/25/2026'], 'day first')).toEqual({ order: 'month first', asked: true });
    expect(guessOrder(['25/4/2026', '3.4.2026', '4/4/2026', '2026-04-03'], 'day first')).toEqual({
      order: 'day first',
      asked: false,
    });
    // where the table does not tell, as it is written where the studio is
    expect(guessOrder(['3/4/2026'], orderIn('US'))).toEqual({ order: 'month first', asked: true });
    expect(guessOrder(['3/4/2026'], orderIn('GB'))).toEqual({ order: 'day first', asked: true });
  });
});

test('of a month alone it is told that its day is missing', () => {
  const only = 'This is only a month: please write the day too, like 14 August 2026.';
  for (const text of ['Aug 2026', 'August 2026', "Sept '26", '8/2026', '2026-08'])
    expect(noDay(text)).toBe(only);
  for (const text of ['Room 2026', '31/2/2026', 'soon', '2026']) expect(noDay(text)).toBe('This is no date.');
});

test.each([
  // first characters by OWASP, CSV Injection; the wide ones are from memory
  ['=1+1', '1+1', true],
  ['+cmd|calc', 'cmd|calc', true],
  ['-2+3+cmd', '2+3+cmd', true],
  ['@SUM(A1)', 'SUM(A1)', true],
  ['\t=1', '1', true],
  ['\r=1', '1', true],
  ["'=1", '1', true],
  ['＝1+1', '1+1', true],
  ['a\u0007b\0c', 'a b c', true],
  ['+44 1632 960555', '+44 1632 960555', false],
  ['-3', '-3', false],
  ['two\r\nlines', 'two lines', false],
  ['plain = text', 'plain = text', false],
])('%j is cleaned to %j', (cell, text, told) => {
  const is = cleaned(cell);
  expect([is.text, is.note !== null]).toEqual([text, told]);
});

test('small numbers', () => {
  expect(['2', ' 3 people', 'two', '1 plate', 'many', '-1', '1.5', ''].map(readCount)).toEqual([
    ...[2, 3, 2, 1],
    ...[null, null, null, null],
  ]);
});

describe('columns', () => {
  test('by their headings', () => {
    const heads = [
      'Full name',
      'E-mail address',
      'Tel.',
      'Date asked',
      'Booked for',
      'How many people',
      'Plates',
    ];
    expect(guessColumns('diary', heads, [])).toEqual([
      ...['name', 'email', 'telephone', 'askedOn', 'promised', 'sitters', 'plates'],
    ]);
    expect(guessColumns('diary', ['Plate size', 'Town', 'Postal address', 'Remarks', 'Colour'], [])).toEqual([
      ...['size', 'home', 'address', 'note', ''],
    ]);
  });

  test('by what stands in them, where there are no headings', () => {
    const rows = [
      ['Ada Plover', 'ada@example.org', '12 March 2026', '2 April 2027'],
      ['Bo Ruff', '01632 960555', '14 March 2026', ''],
      ['Cy Teal', 'cy@example.org', '15 March 2026', ''],
    ];
    expect(hasHeadings('diary', rows[0] ?? [])).toBe(false);
    expect(hasHeadings('diary', ['Name', 'Contact'])).toBe(true);
    expect(guessColumns('diary', null, rows)).toEqual(['name', 'email', 'askedOn', 'promised']);
  });
});

const SIZES = [
  { id: '7f0c2c1e-6a5d-4a7e-9a53-2f6f3f5e1a51', name: 'Whole plate' },
  { id: '7f0c2c1e-6a5d-4a7e-9a53-2f6f3f5e1a52', name: 'Half plate' },
];
function lines(text: string) {
  const choices = firstChoices('diary', text, 'day first');
  return diaryLines(reading('diary', text, choices).lines, {
    today: Temporal.PlainDate.from('2026-11-26'),
    order: choices.order,
    sizes: SIZES,
    home: (typed) => (typed === 'Whitby' ? { id: 7, label: 'Whitby, England', guessed: false } : null),
    known: new Set(['known one known example org']),
  });
}
const wrong = (text: string) =>
  lines(text).map(({ problems }) => problems.map(({ column, why }) => `${column}: ${why}`));

test('a line becomes a person, reached by what there is', () => {
  const [mail, ring, post] = lines(
    [
      'First name,Family name,Contact,Asked,Plates,Size,From,Note',
      'Ada,Plover,ada@example.org,12/3/2026,2,half,Whitby,"Hat, and dog"',
      'Bo,Ruff,01632 960555,14/3/2026,,,Nowhere,',
      'Cy,Teal,"1 Quay Street, Harbour",15/3/2026,,,,',
    ].join('\n'),
  );
  expect(mail?.value).toMatchObject({
    name: 'Ada Plover',
    reachBy: 'email',
    plates: 2,
    sitters: 1,
    plateSizeId: SIZES[1]?.id,
    homeId: 7,
    note: 'Hat, and dog',
    promised: null,
  });
  expect(mail?.value?.askedOn.toString()).toBe('2026-03-12');
  expect(ring?.value).toMatchObject({ reachBy: 'telephone', homeId: null, note: 'Comes from Nowhere.' });
  expect(ring?.notes.map(({ cell }) => cell)).toEqual(['Nowhere']);
  expect(post?.value).toMatchObject({ reachBy: 'letter', postalAddress: '1 Quay Street, Harbour' });
});

test('what is wrong is told at its cell, and a person comes once', () => {
  expect(
    wrong(
      [
        'Name,Contact,Asked on,Promised,How many sit,Size',
        'Ada Plover,ada@example.org,soon,,1,',
        'Bo Ruff,,12 March 2026,2 April 2026,99,mammoth',
        'Cy Teal,cy@example.org,1 January 2030,,,',
        'cy teal,CY@example.org,2 January 2026,,,',
        'Dee Knot,dee@example.org,2 January 2026,,,',
        'Dee  Knot,dee@example.org,2 January 2026,,,',
        'Dee Knot,other@example.org,2 January 2026,,,',
      ].join('\n'),
    ),
  ).toEqual([
    ['Asked on: This is no date.'],
    [
      'E-mail, telephone or address: There is no e-mail address, telephone number or postal address.',
      'Day promised: This day is past.',
      'How many sit: This is no number from 1 to 12.',
      'Plate size: Plates of this size are not made here.',
    ],
    ['Asked on: This day is still to come.'],
    [],
    [],
    ['Name: The same person stands in line 6.'],
    [],
  ]);
});
