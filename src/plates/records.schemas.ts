// A plate as its record tells it, the owner's fields for the back of a plate, and the series.
import { z } from 'zod';
import { WEATHERS } from '../daylight/exposure.calc.js';
import { instant, plainDate } from '../platform/db/row.js';
import { textOf, whole } from '../stock/preparation-forms.schemas.js';

/** What a field tells; all but 'typed' is known already. */
export const TOLD = [
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
export type Told = (typeof TOLD)[number];

export const fieldRow = z.object({
  field_id: z.uuid(),
  position: z.number(),
  label: z.string(),
  what: z.enum(TOLD),
  archived: z.boolean(),
});

export interface RecordField {
  id: string;
  position: number;
  label: string;
  what: Told;
  archived: boolean;
}

export const toField = (row: z.output<typeof fieldRow>): RecordField => ({
  id: row.field_id,
  position: row.position,
  label: row.label,
  what: row.what,
  archived: row.archived,
});

/** Every studio begins with these until it changes one. Assumption. */
export const USUAL_FIELDS: readonly RecordField[] = (
  [
    ['Name', 'names'],
    ['Made', 'day'],
    ['Plate', 'number'],
    ['Series', 'series'],
    ['Where', 'place'],
    ['By', 'studio'],
  ] as const
).map(([label, what], position) => ({
  id: `00000000-0000-4000-8000-00000000010${position}`,
  position,
  label,
  what,
  archived: false,
}));
export const MOST_FIELDS = 12;

export const recordRow = z.object({
  made_id: z.uuid(),
  number: z.number(),
  day: plainDate,
  sitting_id: z.uuid().nullable(),
  contact: z.string(),
  size: z.string(),
  keeper: z.boolean(),
  seconds: z.number().nullable(),
  sky: z.enum(WEATHERS).nullable(),
  bottle: z.string(),
  bath: z.string(),
  result: z.string(),
  note: z.string(),
  names: z.string(),
  series_id: z.uuid().nullable(),
  series_name: z.string(),
  series_number: z.number().nullable(),
  struck_at: instant.nullable(),
});
/** A plate with the words of all that it points to; '' for what is not known. */
export type PlateRecord = z.output<typeof recordRow>;

export const entryRow = z.object({ made_id: z.uuid(), field_id: z.uuid(), value: z.string() });
export type Entry = z.output<typeof entryRow>;

export const seriesRow = z.object({
  series_id: z.uuid(),
  name: z.string(),
  about: z.string(),
  target: z.number().nullable(),
  archived: z.boolean(),
  keepers: z.number(),
  next: z.number(),
});
/** With how many keepers it has, and the number its next plate gets. */
export type Series = z.output<typeof seriesRow>;

export interface LabelSize {
  widthMm: number;
  heightMm: number;
}
export const labelSizeRow = z.object({ width_mm: z.number(), height_mm: z.number() });
/** Assumption: half a sheet of common address labels. */
export const USUAL_LABEL: LabelSize = { widthMm: 70, heightMm: 37 };

const name = (most: number, refusal: string) => textOf(most).pipe(z.string().min(1, refusal));
const yes = z
  .literal('yes')
  .optional()
  .transform((sent) => sent === 'yes');

export const fieldForm = z.object({
  label: name(60, 'Please give it a name.'),
  what: z.enum(TOLD, 'Please choose what it tells.'),
  position: whole(1, 99, 'Please give its place on the label, 1 to 99.'),
  archived: yes,
});
export const seriesForm = z.object({
  name: name(120, 'Please give the series a name.'),
  about: textOf(1000),
  target: z.preprocess(
    (sent) => (sent === undefined || sent === '' ? null : sent),
    whole(1, 100_000, 'Please give a number of plates, 1 to 100000.').nullable(),
  ),
  archived: yes,
});
export const labelForm = z.object({
  widthMm: whole(20, 200, 'Please give whole millimetres, 20 to 200.'),
  heightMm: whole(12, 280, 'Please give whole millimetres, 12 to 280.'),
});

/** Which plates of the list; empty for all. */
export interface PlateFilter {
  /** A number, or a part of a name. */
  text: string;
  seriesId: string;
  kept: '' | 'kept' | 'not kept';
}
