// What is brought in, in words.
import { SEPARATORS, type Separator } from '../../lib/csv-read.js';
import type { Encoding } from '../../lib/text-of-bytes.js';
import type { What } from './columns.calc.js';
import type { Said } from './reading.calc.js';

/** Of each kind: its name, what its table may tell, one and several of its lines. */
export const WHAT_WORDS: Record<What, { name: string; tells: string; one: string; many: string }> = {
  diary: {
    name: 'The diary',
    tells:
      'names, how people are reached, when they asked, days promised, how many sit, plates and their size, where they come from, a note',
    one: 'person',
    many: 'people',
  },
  shelf: {
    name: 'What is on the shelf',
    tells: 'what it is, the bottle or batch, how much with its unit, opened on, usable until, a note',
    one: 'bottle or box',
    many: 'bottles and boxes',
  },
  plates: {
    name: 'Plates made before',
    tells: 'running number, day, who is on it, size, how it came out, where it is now',
    one: 'plate',
    many: 'plates',
  },
};

const SEPARATOR_WORDS: Record<Separator, string> = { ',': 'Comma', ';': 'Semicolon', '\t': 'Tab' };
export const SEPARATOR_OPTIONS = SEPARATORS.map((one) => ({ value: one, label: SEPARATOR_WORDS[one] }));

const ENCODING_WORDS: [Encoding, string][] = [
  ['utf-8', 'UTF-8'],
  ['windows-1252', 'Western European (Windows-1252)'],
  ['utf-16le', 'UTF-16'],
];
export const ENCODING_OPTIONS = [
  { value: '', label: 'Find out' },
  ...ENCODING_WORDS.map(([value, label]) => ({ value: value as string, label })),
];

/** “31.2.2026” (Asked on): This is no date. */
export function saidInWords({ column, cell, why }: Said): string {
  const shown = cell.length > 60 ? `${cell.slice(0, 60)}…` : cell;
  const where = [shown === '' ? '' : `“${shown}”`, column === '' ? '' : `(${column})`]
    .filter(Boolean)
    .join(' ');
  return where === '' ? why : `${where}: ${why}`;
}
