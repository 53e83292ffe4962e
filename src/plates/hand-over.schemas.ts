// A list of plates that go to an archive.
import { z } from 'zod';
import { instant, plainDate } from '../platform/db/row.js';
import { plainDateText } from '../daylight/daylight.schemas.js';
import { textOf } from '../stock/preparation-forms.schemas.js';

export const HANDED = ['plate', 'scan'] as const;

export const handOverRow = z.object({
  hand_over_id: z.uuid(),
  taken_by: z.string(),
  note: z.string(),
  made_at: instant,
  given_on: plainDate.nullable(),
  plates: z.number(),
});
/** With how many plates stand on it. `given_on` null: still being made. */
export type HandOver = z.output<typeof handOverRow>;

export const handedRow = z.object({
  made_id: z.uuid(),
  number: z.number(),
  day: plainDate,
  size: z.string(),
  names: z.string(),
  series: z.string(),
  what: z.enum(HANDED),
  /** Who sits on it and does not, or no longer, agree that it goes to an archive. */
  missing: z.array(z.string()),
});
export type Handed = z.output<typeof handedRow>;

export const handOverForm = z.object({
  takenBy: textOf(200).pipe(z.string().min(1, 'Please say who takes them.')),
  note: textOf(1000),
});
export const addForm = z.object({
  plates: z.preprocess(
    (sent) => (sent === undefined ? [] : Array.isArray(sent) ? sent : [sent]),
    z.array(z.uuid()).min(1, 'Please choose at least one plate.'),
  ),
  what: z.enum(HANDED, 'Please choose whether the plates go or their scans.'),
});
export const givenForm = z.object({ day: plainDateText });
