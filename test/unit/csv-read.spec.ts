// Tables of other programs: what RFC 4180 defines (section 2, its examples by their numbers), what it leaves open, and
// hostile ones.
import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { csv } from '../../src/lib/csv.js';
import { guessSeparator, readTable, type Separator } from '../../src/lib/csv-read.js';

const BOUNDS = { lines: 1000, columns: 50, cell: 500 };
const cells = (text: string, separator: Separator = ',') => {
  const { lines, refused } = readTable(text, separator, BOUNDS);
  expect(refused).toBeNull();
  return lines.map((one) => one.cells);
};

describe('the definitions of RFC 4180, section 2', () => {
  const three = [
    ['aaa', 'bbb', 'ccc'],
    ['zzz', 'yyy', 'xxx'],
  ];
  test.each([
    ['1', 'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n', three],
    ['2', 'aaa,bbb,ccc\r\nzzz,yyy,xxx', three],
    [
      '3',
      'field_name,field_name,field_name\r\naaa,bbb,ccc\r\n',
      [['field_name', 'field_name', 'field_name'], three[0]],
    ],
    ['5', '"aaa","bbb","ccc"\r\nzzz,yyy,xxx', three],
    ['6', '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx', [['aaa', 'b\r\nbb', 'ccc'], three[1]]],
    ['7', '"aaa","b""bb","ccc"', [['aaa', 'b"bb', 'ccc']]],
  ])('%s', (_number, text, expected) => {
    expect(cells(text)).toEqual(expected);
  });
});

test('what our own tables hold is read back, whatever is in it', () => {
  const cell = fc.string({ maxLength: 12, unit: fc.constantFrom('a', '"', ',', '\n', '\r', ';', 'é', ' ') });
  fc.assert(
    fc.property(fc.array(fc.array(cell, { minLength: 2, maxLength: 2 }), { maxLength: 6 }), (rows) => {
      const kept = rows.map((row) => ['x', ...row]);
      expect(cells(csv(['a', 'b', 'c'], kept))).toEqual([
        ['a', 'b', 'c'],
        ...kept.map((row) => row.map(safe)),
      ]);
    }),
  );
});
/** `csv` puts an apostrophe before what a spreadsheet might reckon. */
const safe = (cell: string) => (/^[\t\r]/.test(cell) ? `'${cell}` : cell);

test('lines are counted in the text as it stands, lone line feeds and empty lines too', () => {
  const { lines } = readTable('\uFEFFa,b\n\n"one\r\ntwo",c\rd,e', ',', BOUNDS);
  expect(lines.map(({ line, cells }) => [line, ...cells])).toEqual([
    [1, 'a', 'b'],
    [3, 'one\r\ntwo', 'c'],
    [5, 'd', 'e'],
  ]);
});

test('what cannot be read is told with its line, and the others are read', () => {
  const { lines, refused } = readTable(
    `a,b\n"x"y,1\n${'c,'.repeat(60)}\n${'d'.repeat(501)},2\ne,f`,
    ',',
    BOUNDS,
  );
  expect(refused).toBeNull();
  expect(lines.map(({ line, fault }) => [line, fault])).toEqual([
    [1, null],
    [2, 'Something stands after a closing quotation mark.'],
    [3, 'There are more than 50 columns.'],
    [4, 'A cell has more than 500 letters.'],
    [5, null],
  ]);
  expect(Math.max(...lines.map(({ cells: all }) => all.length))).toBe(50);
  expect(readTable('a,b\n"c,d\ne,f', ',', BOUNDS).refused).toBe(
    'A quotation mark is opened in line 2 and never closed.',
  );
});

test('the sign between columns is found, whatever stands in the cells', () => {
  expect(guessSeparator('Name;Note\nA, B;"x;y"\nC;d, e, f')).toBe(';');
  expect(guessSeparator('Name\tNote\nA, B\tx\nC\td, e, f')).toBe('\t');
  expect(guessSeparator('Name,Note\nA,x;y\nC,z')).toBe(',');
  expect(guessSeparator('just one column\nand another line')).toBe(',');
});

test.each([
  [
    '100,000 lines',
    'a,b\n'.repeat(100_000),
    'These are more than 1000 lines. Please bring them in in parts.',
  ],
  ['a million columns', ','.repeat(1_000_000), null],
  ['a million quotation marks', '"'.repeat(1_000_000), null],
  [
    'an open quotation mark before a million lines',
    `"${'\n'.repeat(1_000_000)}`,
    'A quotation mark is opened in line 1 and never closed.',
  ],
])('%s: bounded in what is kept', (_name, text, why) => {
  const { lines, refused } = readTable(text, guessSeparator(text), BOUNDS);
  expect(refused).toBe(why);
  expect(JSON.stringify(lines).length).toBeLessThan(200_000);
});
