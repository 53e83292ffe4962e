// The book of all plates made, as it is read: a plate with the names of whatever it points at, who sat for it, and what
// may be asked for. Typing plates in stands in the files `made`.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { plainDateText } from '../daylight/daylight.schemas.js';
import { instant, plainDate } from '../platform/db/row.js';
import { AppError } from '../platform/problems.js';
import { orNothing, textOf } from '../stock/preparation-forms.schemas.js';

export const bookRow = z.object({
  made_id: z.uuid(),
  number: z.number(),
  day: plainDate,
  sitting_id: z.uuid().nullable(),
  size: z.string(),
  keeper: z.boolean(),
  seconds: z.number().nullable(),
  sky: z.string().nullable(),
  lot_id: z.uuid().nullable(),
  bottle: z.string().nullable(),
  bath_id: z.uuid().nullable(),
  bath: z.string().nullable(),
  result: z.string(),
  note: z.string(),
  names: z.string(),
  series_id: z.uuid().nullable(),
  series: z.string().nullable(),
  series_number: z.number().nullable(),
  who: z.string(),
  typed_at: instant,
  struck_at: instant.nullable(),
});
type Row = z.output<typeof bookRow>;

/** A plate as it is listed. */
export interface BookPlate {
  id: string;
  number: number;
  day: Temporal.PlainDate;
  /** Null: a test plate, or one made for nobody who sat. */
  sittingId: string | null;
  size: string;
  keeper: boolean;
  seconds: number | null;
  sky: string | null;
  bottle: { id: string; label: string } | null;
  bath: { id: string; name: string } | null;
  result: string;
  note: string;
  /** As the sitter wants them; '' where nobody typed them in. */
  names: string;
  series: { id: string; name: string; number: number } | null;
  who: string;
  typedAt: Temporal.Instant;
  /** Typed in by mistake; its number stays with it. */
  struckAt: Temporal.Instant | null;
}

export const toBookPlate = (row: Row): BookPlate => ({
  id: row.made_id,
  number: row.number,
  day: row.day,
  sittingId: row.sitting_id,
  size: row.size,
  keeper: row.keeper,
  seconds: row.seconds,
  sky: row.sky,
  bottle: row.lot_id === null ? null : { id: row.lot_id, label: row.bottle ?? '' },
  bath: row.bath_id === null ? null : { id: row.bath_id, name: row.bath ?? '' },
  result: row.result,
  note: row.note,
  names: row.names,
  series:
    row.series_id === null || row.series_number === null
      ? null
      : { id: row.series_id, name: row.series ?? '', number: row.series_number },
  who: row.who,
  typedAt: row.typed_at,
  struckAt: row.struck_at,
});

/** Somebody who is on a plate, and whether they agreed to what was asked of them about it. */
export interface OnPlate {
  sitterId: string;
  name: string;
  archive: Said;
  /** That their name is kept with the record. */
  record: Said;
}

/** `asked`: no yes is known. */
export type Said = { state: 'agreed' } | { state: 'asked' } | { state: 'taken back'; at: Temporal.Instant };

export interface SeenPlate {
  plate: BookPlate;
  on: OnPlate[];
}

export const PLATES_A_PAGE = 50;

const choice = <S extends z.ZodType>(schema: S) => orNothing(schema).catch(null);

/** What is looked for; what cannot be read is not looked for. */
export const bookQuery = z.object({
  /** A number, or part of a name. */
  find: textOf(100).catch(''),
  day: choice(plainDateText),
  series: choice(z.uuid()),
  keeper: choice(z.enum(['yes', 'no'])),
  page: z.coerce.number().int().min(1).max(100_000).catch(1),
});
export type BookQuery = z.output<typeof bookQuery>;

/** The number of a plate as it stands in an address. @throws AppError not_found */
export function plateNumber(sent: string): number {
  if (!/^[1-9]\d{0,7}$/.test(sent)) throw new AppError('not_found', 'No plate has this number.');
  return Number(sent);
}
