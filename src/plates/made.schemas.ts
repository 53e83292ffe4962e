// Plates made: the row of each, what may be said of one when a day is typed in, and the act of typing it in.
// Everything said of a plate is optional but its size and whether it is kept.
import { z } from 'zod';
import { WEATHERS } from '../daylight/exposure.calc.js';
import { instant, plainDate } from '../platform/db/row.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import type { Bath } from '../stock/baths.schemas.js';
import type { Lot, PlateSize } from '../stock/stock.schemas.js';

export const madeRow = z.object({
  made_id: z.uuid(),
  number: z.number(),
  day: plainDate,
  sitting_id: z.uuid().nullable(),
  plate_id: z.uuid().nullable(),
  plate_size_id: z.uuid(),
  keeper: z.boolean(),
  seconds: z.number().nullable(),
  sky: z.enum(WEATHERS).nullable(),
  lot_id: z.uuid().nullable(),
  bath_id: z.uuid().nullable(),
  result: z.string(),
  note: z.string(),
  names: z.string(),
  series_id: z.uuid().nullable(),
  series_number: z.number().nullable(),
  who: z.string(),
  struck_at: instant.nullable(),
});

const line = (most: number) =>
  z
    .string()
    .transform((text) => text.replace(/[^\P{Cc}\n]/gu, '').trim())
    .pipe(z.string().max(most, `Please keep this under ${most} characters.`))
    .default('');
const none = null;

/** What is said of one plate. The id is the caller's; the same id again corrects that plate. */
export const saidPlate = z.object({
  id: z.uuid(),
  sittingId: z.uuid().nullable().default(none),
  plateId: z.uuid().nullable().default(none),
  plateSizeId: z.uuid('Please choose the size.'),
  keeper: z.boolean('Please say whether it is kept.'),
  seconds: z
    .number('Please give the seconds, such as 6.')
    .positive('Please give the seconds, above 0.')
    .max(3600, 'Please give the seconds, at most 3600.')
    .nullable()
    .default(none),
  sky: z.enum(WEATHERS, 'Please choose how the sky was.').nullable().default(none),
  lotId: z.uuid().nullable().default(none),
  bathId: z.uuid().nullable().default(none),
  result: line(200),
  note: line(1000),
  names: line(300),
  seriesId: z.uuid().nullable().default(none),
});
export type SaidPlate = z.output<typeof saidPlate>;

/** With what the day's plates were exposed, so that exposure notes can be written of them. */
export const dayLight = z.object({
  lens: line(80).pipe(z.string().min(1, 'Please name the lens.')),
  fNumber: z
    .number('Please give the f-number, such as 4.')
    .min(0.5, 'Please give the f-number, such as 4.')
    .max(128, 'Please give the f-number, such as 4.'),
  framing: line(80).pipe(z.string().min(1, 'Please say how close: head, half length, group.')),
});
export type DayLight = z.output<typeof dayLight>;

export const MOST_LINES = 200;
export const typedDay = z.object({
  plates: z.array(saidPlate).max(MOST_LINES, `Please type in at most ${MOST_LINES} plates at once.`),
  /** Plates that were typed in by mistake. */
  strike: z.array(z.uuid()).default([]),
  /** The number of the first plate ever typed in; not heard once there is one. */
  first: z
    .int('Please give a whole number, such as 1.')
    .min(1, 'Please give a whole number, 1 or more.')
    .max(90_000_000, 'Please give a smaller number.')
    .optional(),
  /** The plates of the day as they were when the caller looked (`MadeDay.version`); where it is left out, nobody asks. */
  seen: z.string().optional(),
  /** Exposure notes are written of the kept plates; null: none are, and those written are taken out. Left out: as before. */
  light: dayLight.nullable().optional(),
});
export type TypedDay = z.output<typeof typedDay>;

/** A plate as it stands in the book. */
export interface Made extends SaidPlate {
  number: number;
  day: z.output<typeof madeRow>['day'];
  seriesNumber: number | null;
  who: string;
  /** When it was struck, as typed in by mistake; null: it counts. */
  struckAt: z.output<typeof madeRow>['struck_at'];
}

export const toMade = (row: z.output<typeof madeRow>): Made => ({
  id: row.made_id,
  number: row.number,
  day: row.day,
  sittingId: row.sitting_id,
  plateId: row.plate_id,
  plateSizeId: row.plate_size_id,
  keeper: row.keeper,
  seconds: row.seconds,
  sky: row.sky,
  lotId: row.lot_id,
  bathId: row.bath_id,
  result: row.result,
  note: row.note,
  names: row.names,
  seriesId: row.series_id,
  seriesNumber: row.series_number,
  who: row.who,
  struckAt: row.struck_at,
});

/** All that the page of a day's plates shows. */
export interface MadeDay {
  day: Made['day'];
  today: Made['day'];
  /** The number that the next plate gets; null: nobody said where the book begins. */
  next: number | null;
  /** In the order of their hours; also whoever had plates made on the day and was moved since. */
  sittings: { view: SittingView; place: Occupancy | null }[];
  /** In the order of their numbers, the struck ones among them. */
  plates: Made[];
  /** Changes whenever anything of the plates does. */
  version: string;
  sizes: PlateSize[];
  /** Collodion that could be used on the day, and what stands at its plates. */
  bottles: Lot[];
  baths: Bath[];
  series: { id: string; name: string }[];
  /** With what exposure notes were written of the day's plates; null: none were. */
  light: DayLight | null;
  /** What the studio exposed with last. */
  usualLight: DayLight | null;
}
