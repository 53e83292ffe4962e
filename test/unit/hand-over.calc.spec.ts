// A list for an archive as a table, by RFC 4180 and against formulas of spreadsheets; and the reader that tests use.
import { describe, expect, it } from '@jest/globals';
import { csv } from '../../src/lib/csv.js';
import { readCsv } from '../support/csv-reader.js';

describe('the reader of tables', () => {
  it('reads the examples of RFC 4180, section 2', () => {
    expect(readCsv('aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n')).toEqual([
      ['aaa', 'bbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
    expect(readCsv('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx\r\n')).toEqual([
      ['aaa', 'b\r\nbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
    expect(readCsv('"aaa","b""bb","ccc"\r\n')).toEqual([['aaa', 'b"bb', 'ccc']]);
  });

  it.each(['a,b\n', 'a"b,c\r\n', '"a"b\r\n', '"a\r\n', 'a,b'])('refuses %j', (text) => {
    expect(() => readCsv(text)).toThrow();
  });
});

describe('a table for an archive', () => {
  it('comes back as it was written, whatever stands in a cell', () => {
    const cells = ['', 'a,b', 'say "yes"', 'two\r\nlines', "O'Hara", ' spaces ', 'Żółć 漢字'];
    expect(
      readCsv(
        csv(
          ['one'],
          cells.map((one) => [one]),
        ).slice(1),
      ),
    ).toEqual([['one'], ...cells.map((one) => [one])]);
  });

  it.each(['=1+1', '+44', '-2', '@SUM(A1)', '\tx', '\rx'])(
    'has no formula where a cell begins as in %j',
    (cell) => {
      expect(readCsv(csv(['one'], [[cell]]).slice(1))[1]).toEqual([`'${cell}`]);
    },
  );
});
