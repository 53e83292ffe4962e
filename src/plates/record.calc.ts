// What stands on the back of a plate, and how it fits on a label. Pure; the studio's words come in as they are.
import { dayInWords } from '../lib/words.js';
import type { LabelSize, PlateRecord, RecordField } from './records.schemas.js';

export interface BackLine {
  label: string;
  value: string;
}

interface Where {
  name: string;
  address: string;
}

/** The lines of the back, in the owner's order; what is not known of this plate is left out. */
export function backOf(
  plate: PlateRecord,
  fields: readonly RecordField[],
  entries: ReadonlyMap<string, string>,
  studio: Where,
): BackLine[] {
  return fields
    .filter((field) => !field.archived)
    .map((field) => ({ label: field.label, value: toldOf(field, plate, entries, studio) }))
    .filter(({ value }) => value !== '');
}

function toldOf(
  { id, what }: RecordField,
  plate: PlateRecord,
  entries: ReadonlyMap<string, string>,
  studio: Where,
): string {
  switch (what) {
    case 'names':
      return plate.names || plate.contact;
    case 'day':
      return dayInWords(plate.day);
    case 'number':
      return String(plate.number);
    case 'series':
      return plate.series_number === null ? '' : `${plate.series_name}, ${plate.series_number}`;
    case 'place':
      return studio.address;
    case 'size':
      return plate.size;
    case 'studio':
      return studio.name;
    case 'exposure':
      return [plate.seconds === null ? '' : `${plate.seconds} s`, plate.sky ?? ''].filter(Boolean).join(', ');
    case 'typed':
      return entries.get(id) ?? '';
  }
}

/** Millimetres. The least is what most people still read at arm's length: assumption. */
export const LETTERS = { most: 3.6, least: 1.8, step: 0.2 };
export const MARGIN_MM = 2.5;
/** Of the height of the letters: the step from line to line, and how wide a letter is at most on average. */
const LINE = 1.25;
const WIDE = 0.62;

export interface FittedLabel {
  /** Height of the letters, millimetres. */
  letters: number;
  /** From line to line, millimetres. */
  step: number;
  lines: string[];
}

/**
 * The largest letters with which everything stands within the margins, words wrapped, a word longer than a line broken.
 * Null where even the smallest do not do: then a larger label is wanted, or fewer fields.
 */
export function fitLabel(back: readonly BackLine[], { widthMm, heightMm }: LabelSize): FittedLabel | null {
  const [width, height] = [widthMm - 2 * MARGIN_MM, heightMm - 2 * MARGIN_MM];
  for (let letters = LETTERS.most; letters > LETTERS.least - 0.01; letters -= LETTERS.step) {
    const room = Math.floor(width / (letters * WIDE));
    const lines = back.flatMap(({ label, value }) =>
      wrapped(`${label}: ${value.replace(/\s+/g, ' ')}`, room),
    );
    if (room >= 4 && lines.length * letters * LINE <= height) return { letters, step: letters * LINE, lines };
  }
  return null;
}

/** Letters that are wider than the average take more room: counted as two are those of scripts that are set square. */
const widthOf = (text: string): number =>
  [...text].reduce(
    (sum, letter) =>
      sum +
      (/[\u1100-\u11ff\u2e80-\uffdc]|\p{Extended_Pictographic}/u.test(letter)
        ? 2
        : /[A-ZMWmw@%]/.test(letter)
          ? 1.35
          : 1),
    0,
  );

function wrapped(text: string, room: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ').flatMap((one) => broken(one, room))) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (widthOf(longer) <= room) line = longer;
    else {
      if (line !== '') lines.push(line);
      line = word;
    }
  }
  return [...lines, line];
}

/** A word that is wider than a line, in pieces that are not. */
function broken(word: string, room: number): string[] {
  const pieces: string[] = [];
  let piece = '';
  for (const letter of word) {
    if (piece !== '' && widthOf(piece + letter) > room) {
      pieces.push(piece);
      piece = '';
    }
    piece += letter;
  }
  return [...pieces, piece];
}
