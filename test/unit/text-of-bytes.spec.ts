// A file's bytes as text. Byte order marks: Unicode 16.0, table 2-4 and section 23.8; the letters of windows-1252: the
// index of the WHATWG Encoding Standard.
import { expect, test } from '@jest/globals';
import { type Encoding, textOfBytes } from '../../src/lib/text-of-bytes.js';

const read = (bytes: number[] | Buffer, said: Encoding | null = null) =>
  textOfBytes(Uint8Array.from(bytes), said);
const swapped = (bytes: Buffer) => Buffer.from(bytes).swap16();

test.each([
  ['UTF-8', Buffer.from('Zoë €'), null, 'utf-8', false],
  ['UTF-8 with its mark', Buffer.from('\uFEFFZoë €'), null, 'utf-8', false],
  ['UTF-16, little end first', Buffer.from('\uFEFFZoë €', 'utf16le'), null, 'utf-16le', false],
  ['UTF-16, big end first', swapped(Buffer.from('\uFEFFZoë €', 'utf16le')), null, 'utf-16be', false],
  ['windows-1252, guessed', Buffer.from([0x5a, 0x6f, 0xeb, 0x20, 0x80]), null, 'windows-1252', true],
  ['windows-1252, said', Buffer.from([0x5a, 0x6f, 0xeb, 0x20, 0x80]), 'windows-1252', 'windows-1252', false],
  ['UTF-16 without a mark, said', Buffer.from('Zoë €', 'utf16le'), 'utf-16le', 'utf-16le', false],
  ['a mark goes before what was said', Buffer.from('\uFEFFZoë €'), 'windows-1252', 'utf-8', false],
] as const)('%s', (_name, bytes, said, encoding, guessed) => {
  expect(read(bytes, said)).toEqual({ ok: true, text: 'Zoë €', encoding, guessed });
});

test.each([
  [
    'what is not of the encoding that was said',
    [0x5a, 0xeb],
    'utf-8',
    'Not all of this file is UTF-8. Please say how it is written.',
  ],
  [
    'half a pair of UTF-16',
    [0xff, 0xfe, 0x00, 0xd8],
    null,
    'Not all of this file is UTF-16. Please say how it is written.',
  ],
  [
    'a byte that windows-1252 leaves open',
    [0x41, 0x0a, 0xeb, 0x81],
    null,
    'Line 2 holds a byte that is no letter. Please save the table as CSV in UTF-8.',
  ],
  [
    'NUL',
    [0x41, 0x00],
    null,
    'Line 1 holds a NUL, which no text has. Please save the table as CSV in UTF-8.',
  ],
  [
    'a PDF',
    [...Buffer.from('%PDF-1.7')],
    null,
    'This is a PDF. Please save it as CSV, and choose that file.',
  ],
] as const)('%s is refused', (_name, bytes, said, why) => {
  expect(read([...bytes], said)).toEqual({ ok: false, why });
});
