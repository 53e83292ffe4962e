// Makes any text safe to stand in an iCalendar file (RFC 5545): nothing that people type may end a line, start a
// property or break a parameter. Also writes dates and folds lines. It knows no event and no zone.
import { Temporal } from 'temporal-polyfill';
import { writeInstant } from '../lib/stored-times.js';

// Newline-like characters some readers split lines at: vertical tab, form feed, NEL, and Unicode's line and
// paragraph separators.
const LINE_BREAKS = /\r\n|[\r\n\v\f\u0085\u2028\u2029]/gu;
// RFC 5545 3.1 CONTROL, tab and newline excepted; C1 controls go too, as no reader shows them.
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is removed
const CONTROLS = /[\x00-\x08\x0e-\x1f\x7f-\x9f]/gu;
const LONE_SURROGATES = /\p{Surrogate}/gu;

/** Text of several lines: line breaks become `\n`, controls go, half characters become U+FFFD. Ends are trimmed. */
export function cleanParagraphs(text: string): string {
  return text.replace(LINE_BREAKS, '\n').replace(CONTROLS, '').replace(LONE_SURROGATES, '\ufffd').trim();
}

/** The same on one line: each run of line breaks, tabs and spaces becomes one space. */
export function cleanLine(text: string): string {
  return cleanParagraphs(text).replace(/[\n\t ]+/gu, ' ');
}

/** Value of type TEXT (RFC 5545 3.3.11) for properties we write ourselves. Expects cleaned text. */
export function escapeText(cleaned: string): string {
  return cleaned.replace(/[\\;,]/gu, '\\$&').replace(/\n/gu, '\\n');
}

/**
 * A name for a quoted CN parameter. `"` cannot stand there (RFC 5545 3.2), and `^` starts an escape which some
 * readers decode and some show (RFC 6868); the library also doubles `\`. So they are replaced, not escaped.
 */
export function cleanName(name: string): string {
  return cleanLine(name).replace(/"/gu, "'").replace(/\\/gu, '/').replace(/\^/gu, '');
}

/**
 * The address part of a mailto URI: all but unreserved characters, `!$'*+` and the last `@` is percent-encoded
 * (RFC 6068 2). It does not check that the address exists or is well formed.
 */
export function mailtoAddress(email: string): string {
  return cleanLine(email).replace(/[^A-Za-z0-9\-._~!$'*+@]|@(?=.*@)/gu, (c) => encodeURIComponent(c));
}

/**
 * A web address as a URI value, or null when it is not http or https. URI values know no backslash escape
 * (RFC 7986 3), so characters that need one in TEXT, and those no URI may hold (RFC 3986), are percent-encoded.
 * Existing `%` sequences stay.
 */
export function webAddress(url: string): string | null {
  const cleaned = cleanLine(url);
  if (!/^https?:\/\/[^/]/iu.test(cleaned)) return null;
  return cleaned.replace(/[^A-Za-z0-9\-._~:/?#[\]@!$&'()*+=%]/gu, (c) => encodeURIComponent(c));
}

/**
 * Basic form of a date-time, `20270714T100000` (RFC 5545 3.3.5): a wall time as it stands, an instant in UTC, to
 * which the caller adds `Z`. Fractions of a second are dropped. Years 0 to 9999.
 */
export function basicDateTime(time: Temporal.PlainDateTime | Temporal.Instant): string {
  const text = time instanceof Temporal.Instant ? writeInstant(time) : time.toString();
  return text.slice(0, 19).replace(/[-:]/gu, '');
}

/**
 * Folds content lines to at most 75 octets each, never inside a character (RFC 5545 3.1), and ends every line with
 * CRLF. Our own, because the library's takes about one second per megabyte.
 */
export function foldLines(lines: string[]): string {
  return lines.map(foldLine).join('');
}

const LINE_OCTETS = 75;

function foldLine(line: string): string {
  if (line.length * 3 <= LINE_OCTETS) return `${line}\r\n`;
  let folded = '';
  let from = 0;
  let octets = 0;
  for (let i = 0; i < line.length; ) {
    const point = line.codePointAt(i) ?? 0;
    const size = utf8Octets(point);
    if (octets + size > LINE_OCTETS) {
      folded += `${line.slice(from, i)}\r\n `;
      from = i;
      octets = 1;
    }
    octets += size;
    i += point < 0x10000 ? 1 : 2;
  }
  return `${folded}${line.slice(from)}\r\n`;
}

/** Octets of a code point in UTF-8. */
function utf8Octets(point: number): number {
  if (point < 0x80) return 1;
  if (point < 0x800) return 2;
  return point < 0x10000 ? 3 : 4;
}
