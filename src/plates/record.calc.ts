// What stands on the back of a plate: the owner's fields in their order, filled from what is known of the plate. Empty
// ones are left out.
import { dayInWords } from '../lib/words.js';
import type { BookPlate, OnPlate } from './book.schemas.js';

/** What a field tells; `typed` is asked of each plate by itself. */
export const WHATS = [
  'names',
  'day',
  'number',
  'series',
  'place',
  'size',
  'studio',
  'exposure',
  'typed',
] as const;
export type What = (typeof WHATS)[number];

export interface RecordField {
  id: string;
  position: number;
  label: string;
  what: What;
  /** Put away: it stands on no further plate. */
  archived: boolean;
}

/** Whatever the fields are filled from. */
export interface Known {
  plate: BookPlate;
  on: readonly OnPlate[];
  /** Typed, by the field's id. */
  entries: ReadonlyMap<string, string>;
  studio: { name: string; address: string };
}

export interface RecordLine {
  label: string;
  what: What;
  value: string;
}

/** The lines of the record. */
export const recordOf = (fields: readonly RecordField[], known: Known): RecordLine[] =>
  [...fields]
    .filter((one) => !one.archived)
    .sort((a, b) => a.position - b.position)
    .flatMap((field) => {
      const value = toldBy(field, known);
      return value === '' ? [] : [{ label: field.label, what: field.what, value }];
    });

function toldBy(field: RecordField, { plate, on, entries, studio }: Known): string {
  switch (field.what) {
    case 'names':
      return namesOf(plate, on);
    case 'day':
      return dayInWords(plate.day);
    case 'number':
      return String(plate.number);
    case 'series':
      return plate.series ? `${plate.series.name}, no. ${plate.series.number}` : '';
    case 'place':
      return studio.address
        .split('\n')
        .map((line) => line.trim())
        .filter((line) => line !== '')
        .join(', ');
    case 'size':
      return plate.size;
    case 'studio':
      return studio.name;
    case 'exposure':
      return exposureOf(plate);
    case 'typed':
      return entries.get(field.id) ?? '';
  }
}

/** As typed; otherwise of those who agreed that their name is kept with the record of their plate. */
export const namesOf = (plate: Pick<BookPlate, 'names'>, on: readonly OnPlate[]): string =>
  plate.names ||
  on
    .filter((one) => one.record.state === 'agreed')
    .map((one) => one.name)
    .join(', ');

/** "6 s, bright overcast"; '' where nothing is known. */
export const exposureOf = ({ seconds, sky }: Pick<BookPlate, 'seconds' | 'sky'>): string =>
  [seconds === null ? '' : `${seconds}\u00a0s`, sky ?? ''].filter((one) => one !== '').join(', ');

const usual = (number: number, label: string, what: What): RecordField => ({
  id: `5f0c1a00-0000-4000-8000-0000000002${String(number).padStart(2, '0')}`,
  position: number,
  label,
  what,
  archived: false,
});

/** Of a studio that has not chosen its own: an assumption. The ids are fixed, so that what is typed stays with them. */
export const USUAL_FIELDS: readonly RecordField[] = [
  usual(1, 'Name', 'names'),
  usual(2, 'Date', 'day'),
  usual(3, 'Plate', 'number'),
  usual(4, 'Series', 'series'),
  usual(5, 'Place', 'place'),
  usual(6, 'Size', 'size'),
  usual(7, 'Made by', 'studio'),
  usual(8, 'Remark', 'typed'),
];
