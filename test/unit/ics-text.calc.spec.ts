import {
  basicDateTime,
  cleanLine,
  cleanName,
  cleanParagraphs,
  escapeText,
  foldLines,
  mailtoAddress,
  webAddress,
} from '../../src/calendar/ics-text.calc.js';
import { at, wall } from '../support/calendar-entries.js';

describe('cleaning', () => {
  test('turns every kind of line break into one newline, or one space on one line', () => {
    const text = 'a\r\nb\rc\nd\u2028e\u2029f\u0085g\vh\fi';
    expect(cleanParagraphs(text)).toBe('a\nb\nc\nd\ne\nf\ng\nh\ni');
    expect(cleanLine(text)).toBe('a b c d e f g h i');
  });

  test('drops control characters and keeps tabs in paragraphs', () => {
    expect(cleanParagraphs('n\u0000e\u0007t\u001b[1m\ts\u007f\u009f')).toBe('net[1m\ts');
  });

  test('replaces half a character and keeps whole ones of every plane', () => {
    expect(cleanParagraphs('\ud83d x \udcf7 \ud83d\udcf7 手 é')).toBe('\ufffd x \ufffd 📷 手 é');
  });

  test('takes from a name what a quoted parameter cannot hold', () => {
    expect(cleanName('Ebba "Sal" O\\Fjord^n; x, y:\nz')).toBe("Ebba 'Sal' O/Fjordn; x, y: z");
  });
});

describe('values', () => {
  test('of text are escaped as RFC 5545 3.3.11 asks, colons left alone', () => {
    expect(escapeText('a,b;c\\d:e\nf')).toBe('a\\,b\\;c\\\\d:e\\nf');
  });

  test('of mail addresses follow RFC 6068', () => {
    expect(mailtoAddress('ebba+plates@sitters.example')).toBe('ebba+plates@sitters.example');
    // The address of the example "gorby%kremvax@example.com" in RFC 6068 6.1.
    expect(mailtoAddress('gorby%kremvax@example.com')).toBe('gorby%25kremvax@example.com');
    expect(mailtoAddress('"a@b"@x.example')).toBe('%22a%40b%22@x.example');
    expect(mailtoAddress('a,b;c"d @x.example\r\nX:1')).toBe('a%2Cb%3Bc%22d%20@x.example%20X%3A1');
  });

  test('of web addresses have no backslash, comma or semicolon, and keep what is encoded', () => {
    expect(webAddress('https://kittiwake.example/a,b;c?d=%20&e=[1]#f')).toBe(
      'https://kittiwake.example/a%2Cb%3Bc?d=%20&e=[1]#f',
    );
    expect(webAddress('https://kittiwake.example/\\"é 手\r\nX:1')).toBe(
      'https://kittiwake.example/%5C%22%C3%A9%20%E6%89%8B%20X:1',
    );
  });

  test('that are no web address are none', () => {
    for (const url of [
      '',
      'javascript:alert(1)',
      'data:text/html,x',
      '/s/kittiwake',
      'https://',
      'mailto:a@b',
    ]) {
      expect(webAddress(url)).toBeNull();
    }
  });

  test('of time have neither zone nor fraction', () => {
    expect(basicDateTime(wall('2027-07-16T10:00'))).toBe('20270716T100000');
    expect(basicDateTime(at('2027-07-16T10:00:59.999Z'))).toBe('20270716T100059');
  });
});

describe('folding', () => {
  const octets = (text: string) => new TextEncoder().encode(text).length;

  test('leaves a line of 75 octets whole and folds one of 76', () => {
    expect(foldLines(['x'.repeat(75)])).toBe(`${'x'.repeat(75)}\r\n`);
    expect(foldLines(['x'.repeat(76)])).toBe(`${'x'.repeat(75)}\r\n x\r\n`);
  });

  test('counts the leading space of a continuation', () => {
    expect(
      foldLines(['x'.repeat(75 + 74 + 1)])
        .split('\r\n')
        .map(octets),
    ).toEqual([75, 75, 2, 0]);
  });

  test.each(['é', '手', '📷'])('breaks between characters, not inside %s', (character) => {
    for (let lead = 0; lead < 5; lead++) {
      const folded = foldLines(['x'.repeat(lead) + character.repeat(60)]);
      const lines = folded.split('\r\n');
      expect(lines.every((line) => octets(line) <= 75)).toBe(true);
      expect(folded).not.toMatch(/\p{Surrogate}/u);
      expect(folded.replaceAll('\r\n ', '')).toBe(`${'x'.repeat(lead) + character.repeat(60)}\r\n`);
    }
  });
});
