// What is typed into the forms about what is owed, checked, with a plain sentence for each mistake.
import { z } from 'zod';
import { orNothing, textOf, whole } from '../stock/preparation-forms.schemas.js';

export const MOST_DAYS = 730;
const days = whole(0, MOST_DAYS, `Please give whole days, 0 to ${MOST_DAYS}.`);

export const doneForm = z.object({
  step: z.uuid('This is not known here.'),
  done: z.enum(['yes', 'no']).transform((sent) => sent === 'yes'),
});

/** Other days by the kind come beside it, as `days-KIND`. */
export const stepForm = z.object({
  what: textOf(120).pipe(z.string().min(1, 'Please say what is to be done.')),
  days,
  leaves: z
    .literal('yes')
    .optional()
    .transform((sent) => sent === 'yes'),
  /** The kinds for which it is not owed. */
  notFor: z.preprocess(
    (sent) => (sent === undefined ? [] : Array.isArray(sent) ? sent : [sent]),
    z.array(z.uuid()),
  ),
});

/** Empty: as for every kind. */
export const kindDays = orNothing(days);
