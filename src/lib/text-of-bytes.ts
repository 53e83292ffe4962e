// A file's bytes as text: its encoding by its mark, as it was said, or guessed; refused with a reason where it is no text.

export const ENCODINGS = ['utf-8', 'windows-1252', 'utf-16le', 'utf-16be'] as const;
export type Encoding = (typeof ENCODINGS)[number];

export type Decoded =
  | {
      ok: true;
      text: string;
      encoding: Encoding;
      /** Neither marked nor said, and not UTF-8: letters with accents want to be looked at. */
      guessed: boolean;
    }
  | { ok: false; why: string };

/** How programs' own files begin. */
const NOT_TEXT: [bytes: number[], what: string][] = [
  [[0x50, 0x4b, 0x03, 0x04], 'a spreadsheet program’s own file'],
  [[0xd0, 0xcf, 0x11, 0xe0], 'an old spreadsheet program’s own file'],
  [[0x25, 0x50, 0x44, 0x46], 'a PDF'],
];

const begins = (bytes: Uint8Array, mark: number[]) => mark.every((one, at) => bytes[at] === one);

function marked(bytes: Uint8Array): Encoding | null {
  if (begins(bytes, [0xef, 0xbb, 0xbf])) return 'utf-8';
  if (begins(bytes, [0xff, 0xfe])) return 'utf-16le';
  return begins(bytes, [0xfe, 0xff]) ? 'utf-16be' : null;
}

/** @param said how it is written; null: to be found out. A mark of the file itself goes before it. */
export function textOfBytes(bytes: Uint8Array, said: Encoding | null): Decoded {
  const [, what] = NOT_TEXT.find(([mark]) => begins(bytes, mark)) ?? [];
  if (what !== undefined)
    return { ok: false, why: `This is ${what}. Please save it as CSV, and choose that file.` };
  const known = marked(bytes) ?? said;
  if (known !== null) {
    const text = decoded(bytes, known);
    return text === null
      ? { ok: false, why: `Not all of this file is ${NAMES[known]}. Please say how it is written.` }
      : whole(text, known, false);
  }
  const text = decoded(bytes, 'utf-8');
  if (text !== null) return whole(text, 'utf-8', false);
  return whole(decoded(bytes, 'windows-1252') ?? '', 'windows-1252', true);
}

const NAMES: Record<Encoding, string> = {
  'utf-8': 'UTF-8',
  'windows-1252': 'Windows-1252',
  'utf-16le': 'UTF-16',
  'utf-16be': 'UTF-16',
};

/** Null where the bytes are not of that encoding. */
function decoded(bytes: Uint8Array, encoding: Encoding): string | null {
  try {
    const text = new TextDecoder(encoding, { fatal: true }).decode(bytes);
    return encoding === 'windows-1252' ? text.replace(/[\u0080-\u009f]/g, letterOf1252) : text;
  } catch {
    return null;
  }
}

/** 0x80 to 0x9F of windows-1252, by the WHATWG's index; a full stop where it leaves a byte open. */
const LETTERS_1252 = '€.‚ƒ„…†‡ˆ‰Š‹Œ.Ž..‘’“”•–—˜™š›œ.žŸ';

/** Some versions of Node take windows-1252 for Latin-1, which has control characters there. */
function letterOf1252(control: string): string {
  const letter = LETTERS_1252[control.charCodeAt(0) - 0x80];
  return letter === undefined || letter === '.' ? control : letter;
}

/** Bytes that windows-1252 leaves open come as such signs; no text has them. */
const NO_TEXT = /[\0\u0081\u008d\u008f\u0090\u009d]/;

function whole(text: string, encoding: Encoding, guessed: boolean): Decoded {
  const at = text.search(NO_TEXT);
  if (at < 0) return { ok: true, text, encoding, guessed };
  const line = text.slice(0, at).split(/\r\n|\r|\n/).length;
  const what = text[at] === '\0' ? 'a NUL, which no text has' : 'a byte that is no letter';
  return { ok: false, why: `Line ${line} holds ${what}. Please save the table as CSV in UTF-8.` };
}
