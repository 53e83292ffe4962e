// Series of plates as the database keeps them, and what their form sends.
import { z } from 'zod';
import { textOf, whole } from '../stock/preparation-forms.schemas.js';

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

export const seriesForm = z.object({
  name: textOf(120).pipe(z.string().min(1, 'Please give the series a name.')),
  about: textOf(1000),
  target: z.preprocess(
    (sent) => (sent === undefined || sent === '' ? null : sent),
    whole(1, 100_000, 'Please give a number of plates, 1 to 100000, or nothing.').nullable(),
  ),
  archived: z
    .literal('yes')
    .optional()
    .transform((sent) => sent === 'yes'),
});
