// What was written down of a day: plates tried and kept by size, and what was used.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { plainDate } from '../platform/db/row.js';
import { type DayActuals, MAKERS, type Maker, USED, type Used } from './learning.calc.js';

export const maker = z.enum(MAKERS);

const key = { day: plainDate, made_by: maker };
export const actualsRow = z.object({ ...key, actuals_id: z.uuid(), note: z.string() });
export const triesRow = z.object({
  ...key,
  plate_size_id: z.uuid(),
  plate_area: z.bigint(),
  tries: z.number(),
  keepers: z.number(),
});
export const useRow = z.object({ ...key, what: z.enum(USED), quantity: z.bigint() });

/** Plates of one size: tries 1 to MOST_TRIES, keepers not more than those. */
export interface TriedPlates {
  plateSizeId: string;
  /** Of one plate, square micrometres. */
  areaUm2: bigint;
  tries: number;
  keepers: number;
}
export const MOST_TRIES = 1000;

/** Which record of a day it is: each has one for its sitters and one for learners. */
export interface WhichDay {
  day: Temporal.PlainDate;
  madeBy: Maker;
}

/** What is told of a day. A part that is not told stays as it was; one that is told replaces what was written of it. */
export interface TellActuals extends WhichDay {
  plates?: readonly TriedPlates[];
  /** Microlitres; of silver nitrate milligrams. */
  used?: Readonly<Partial<Record<Used, bigint>>>;
  note?: string;
}

export interface RecordedDay extends WhichDay, DayActuals {
  id: string;
  plates: TriedPlates[];
  note: string;
}
