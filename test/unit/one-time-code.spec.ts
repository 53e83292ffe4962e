// Codes of an authenticator against RFC 6238, and recovery codes.
import fc from 'fast-check';
import {
  codeAt,
  forAuthenticator,
  recoveryCode,
  recoveryCodeTyped,
  stepOfCode,
} from '../../src/accounts/one-time-code.calc.js';
import { dictionary } from '@zxcvbn-ts/language-common';
import { MOST_CHARACTERS, passwordProblem } from '../../src/accounts/passwords.calc.js';

/** RFC 6238, appendix B, SHA-1: the last six of its eight figures. */
const VECTORS: [seconds: number, code: string][] = [
  [59, '287082'],
  [1111111109, '081804'],
  [1111111111, '050471'],
  [1234567890, '005924'],
  [2000000000, '279037'],
  [20000000000, '353130'],
];
const SECRET = Buffer.from('12345678901234567890');

it.each(VECTORS)('the code at %i seconds is the one of RFC 6238', (seconds, code) => {
  expect(codeAt(SECRET, seconds * 1000)).toBe(code);
  expect(stepOfCode(SECRET, code, seconds * 1000)).toBe(Math.floor(seconds / 30));
});

it('a code of the step before or after is taken, as its own step; of two steps away it is not', () => {
  const at = 1234567890_000;
  const code = codeAt(SECRET, at);
  const step = stepOfCode(SECRET, code, at);
  expect([-30_000, 30_000].map((off) => stepOfCode(SECRET, code, at + off))).toEqual([step, step]);
  expect([-60_000, 60_000].map((off) => stepOfCode(SECRET, code, at + off))).toEqual([null, null]);
  expect(stepOfCode(SECRET, '005 924', at)).toBe(step);
  for (const none of ['', '5924', '0059245', 'abcdef', '٠٠٥٩٢٤'])
    expect(stepOfCode(SECRET, none, at)).toBeNull();
});

it('an authenticator is told whose code it is, whatever the studio is called', () => {
  const { uri, typed } = forAuthenticator(SECRET, 'Salt: & Silver?', 'wren@post.example');
  const url = new URL(uri);
  expect(url.protocol).toBe('otpauth:');
  expect(url.searchParams.get('secret')).toBe('GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ');
  expect(url.searchParams.get('issuer')).toBe('Salt  & Silver?');
  expect(typed).toBe('GEZD GNBV GY3T QOJQ GEZD GNBV GY3T QOJQ');
});

it('a recovery code is read back however it is typed, and nothing else is', () => {
  fc.assert(
    fc.property(fc.uint8Array({ minLength: 24, maxLength: 24 }), (bytes) => {
      const code = recoveryCode(bytes);
      expect(recoveryCodeTyped(` ${code.toLowerCase().replaceAll('-', ' ')} `)).toBe(code);
      expect(recoveryCodeTyped(code.slice(1))).toBeNull();
    }),
  );
  expect(recoveryCodeTyped('1'.repeat(24))).toBeNull(); // a figure that looks like a letter is never used
});

it('common, short and near passwords are refused, a sentence of one’s own is not', () => {
  const about = ['wren@kittiwake-yard.example', 'Kittiwake Yard'];
  for (const weak of [
    '',
    'seven77',
    '12345678',
    'Password1',
    'kittiwake-yard',
    'Wren.KittiwakeYard',
    'x'.repeat(501),
  ])
    expect([weak.slice(0, 20), passwordProblem(weak, about)]).toEqual([
      weak.slice(0, 20),
      expect.any(String),
    ]);
  for (const good of [
    'silver-and-salt',
    'tide tables, read aloud',
    'ünder ther ȩaves',
    'kittiwake on the ninth rail',
  ])
    expect(passwordProblem(good, about)).toBeNull();
});

it('a password may be of any kind of character and of 8 to 500, and thousands that are common are refused', () => {
  for (const any of [
    'aaaaabbc',
    'ALL CAPITALS HERE',
    '59271064835',
    '      \u00e9\u{1f426}  ',
    'x7'.repeat(32),
  ])
    expect([any, passwordProblem(any, [])]).toEqual([any, null]);
  expect(passwordProblem('\u{1f426}'.repeat(MOST_CHARACTERS), [])).toBeNull(); // characters, not their halves
  const common = dictionary['passwords-common'].filter((one) => one.length >= 8);
  expect(common.length).toBeGreaterThan(3000);
  for (const one of common) {
    expect([one, passwordProblem(one, [])]).toEqual([one, expect.any(String)]);
    expect([one, passwordProblem(one.toUpperCase(), [])]).toEqual([one, expect.any(String)]);
  }
});
