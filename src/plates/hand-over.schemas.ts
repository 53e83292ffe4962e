// A list of plates that go to an archive: its rows, and what its forms send.
import { z } from 'zod';
import { plainDateText } from '../daylight/daylight.schemas.js';
import { instant, plainDate } from '../platform/db/row.js';
import { textOf } from '../stock/preparation-forms.schemas.js';
import { HANDED } from './hand-over.calc.js';

export const handOverRow = z.object({
  hand_over_id: z.uuid(),
  taken_by: z.string(),
  note: z.string(),
  made_at: instant,
  given_on: plainDate.nullable(),
  noted_at: instant.nullable(),
});
/** `given_on` null: still being made. */
export type HandOver = z.output<typeof handOverRow>;

export const handedRow = z.object({
  hand_over_id: z.uuid(),
  made_id: z.uuid(),
  what: z.enum(HANDED),
  taken_by: z.string(),
  given_on: plainDate.nullable(),
});
/** A plate on a list. */
export type Handed = z.output<typeof handedRow>;

export const handOverForm = z.object({
  takenBy: textOf(200).pipe(z.string().min(1, 'Please say who takes them.')),
  note: textOf(1000),
});

export const addForm = z.object({
  plates: z.preprocess(
    (sent) => (sent === undefined ? [] : [sent].flat()),
    z
      .array(z.uuid('This plate is not known here.'))
      .min(1, 'Please choose at least one plate.')
      .max(500, 'Please choose at most 500 plates at once.'),
  ),
  what: z.enum(HANDED, 'Please choose whether the plates go or their scans.'),
});

export const givenForm = z.object({ day: plainDateText });
export const offForm = z.object({ plate: z.uuid('This plate is not known here.') });
