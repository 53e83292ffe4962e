// Labels for the back of plates: how many stand on a sheet of paper and where, and how the lines of a record fit on one.
// Widths of letters are upper bounds, so that what fits here fits in print. Millimetres throughout.
import type { RecordLine } from './record.calc.js';

export const PAPERS = { A4: { width: 210, height: 297 }, Letter: { width: 215.9, height: 279.4 } } as const;
export type Paper = keyof typeof PAPERS;

export interface LabelSheet {
  paper: Paper;
  width: number;
  height: number;
  /** Labels side by side. */
  across: number;
  /** Around all labels of a sheet. */
  margin: number;
  /** Between labels. */
  gap: number;
}

/** Of a studio that has not set its own: an assumption. */
export const USUAL_SHEET: LabelSheet = { paper: 'A4', width: 60, height: 40, across: 3, margin: 10, gap: 4 };

/** A sheet is drawn a little shorter than its paper, so that printers which round do not begin another. */
export const SHORT = 0.5;

/** How many labels stand one above the other, 0 where none does; and whether so many stand side by side. */
export function roomOn({ paper, width, height, across, margin, gap }: LabelSheet): {
  down: number;
  fitsAcross: boolean;
} {
  const sheet = PAPERS[paper];
  const down = Math.max(0, Math.floor((sheet.height - SHORT - 2 * margin + gap) / (height + gap) + 1e-9));
  return { down, fitsAcross: 2 * margin + across * width + (across - 1) * gap <= sheet.width + 1e-9 };
}

export interface LabelText {
  /** The height of its letters. */
  size: number;
  lines: { text: string; strong: boolean /** At most. */; width: number; exact: boolean }[];
}

/** The room between the cut line and the text. */
export const PADDING = 2;
/** From the base of a line to that of the next, in heights of the letters. */
export const LEADING = 1.25;
/** Print below is not read with the naked eye: common practice, no source. */
const LETTERS = [3.6, 3.2, 2.8, 2.4, 2.1, 1.8, 1.5];

/**
 * The lines of a record in the largest letters in which all of them fit, wrapped between words, and within a word only
 * where it is longer than a line. Null: they do not fit even in the smallest letters, and nothing is cut off.
 */
export function fitLabel(record: readonly RecordLine[], { width, height }: LabelSheet): LabelText | null {
  const across = width - 2 * PADDING;
  for (const size of LETTERS) {
    const lines = record.flatMap((line) => {
      const strong = line.what === 'names';
      const text = strong ? line.value : `${line.label}: ${line.value}`;
      return wrap(text, across / size, strong).map((one) => ({
        text: one,
        strong,
        width: widthOf(one, strong) * size,
        exact: [...one].every(isMeasured),
      }));
    });
    if (lines.length * size * LEADING <= height - 2 * PADDING + 1e-9) return { size, lines };
  }
  return null;
}

/** @param most in heights of the letters */
export function wrap(text: string, most: number, strong = false): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((one) => one !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (widthOf(longer, strong) <= most) line = longer;
    else {
      if (line !== '') lines.push(line);
      const parts = broken(word, most, strong);
      lines.push(...parts.slice(0, -1));
      line = parts.at(-1) ?? '';
    }
  }
  return line === '' ? lines : [...lines, line];
}

/** A word in as few pieces as fit; a letter and the marks over it stay together. */
function broken(word: string, most: number, strong: boolean): string[] {
  const parts: string[] = [];
  let part = '';
  for (const letter of word.match(/\P{M}\p{M}*|\p{M}+/gu) ?? []) {
    if (part !== '' && widthOf(part + letter, strong) > most) {
      parts.push(part);
      part = letter;
    } else part += letter;
  }
  return [...parts, part];
}

/**
 * The width of a text in heights of its letters, at most: after the widest common sans serif faces (Verdana, DejaVu Sans),
 * from memory; the browser test measures it. Scripts that are not measured count as wide as they are high.
 */
export const widthOf = (text: string, strong = false): number =>
  [...text].reduce((sum, letter) => sum + letterWidth(letter), 0) * (strong ? 1.15 : 1);

function letterWidth(letter: string): number {
  if (/\p{M}/u.test(letter)) return 0;
  const [plain = letter] = letter.normalize('NFD');
  if (/[ijl.,:;'’|!()[\]/ \u00a0]/.test(plain)) return 0.46;
  if (/[mwMW@%Æ…—]/.test(plain)) return 1.01;
  if (/[A-Z]/.test(plain)) return 0.8;
  if (/[\u0021-\u007e\u00a1-\u017f–“”]/.test(plain)) return 0.66;
  return 1.1;
}

/** Whether the width of a letter is a bound; a line with another is pressed into its width when it is drawn. */
const isMeasured = (letter: string): boolean =>
  /[\u0020-\u007e\u00a0-\u017f‘’“”–—…]|\p{Script=Greek}|\p{Script=Cyrillic}|\p{Script=Hebrew}|\p{Script=Han}|\p{Script=Hiragana}|\p{Script=Katakana}|\p{Script=Hangul}/u.test(
    letter,
  );

export interface PlacedLabel {
  number: number;
  text: LabelText;
  /** Of its upper left corner on the sheet. */
  x: number;
  y: number;
}

/** The labels in their order, row by row, sheet by sheet. The sheet takes at least one (`roomOn`). */
export function sheetsOf(
  labels: readonly { number: number; text: LabelText }[],
  sheet: LabelSheet,
): PlacedLabel[][] {
  const { across, margin, gap, width, height } = sheet;
  const each = across * Math.max(1, roomOn(sheet).down);
  return Array.from({ length: Math.ceil(labels.length / each) }, (_, page) =>
    labels.slice(page * each, (page + 1) * each).map((label, at) => ({
      ...label,
      x: margin + (at % across) * (width + gap),
      y: margin + Math.floor(at / across) * (height + gap),
    })),
  );
}
