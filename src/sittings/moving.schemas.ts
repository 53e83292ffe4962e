// Why a day has to move, which days, what is done for each person, and how that is said.
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { longText } from './request.schemas.js';

export const REASONS = ['illness', 'storm', 'chemistry', 'other'] as const;
export type Reason = (typeof REASONS)[number];

/** For the record. */
export const REASON_WORDS: Record<Reason, string> = {
  illness: 'illness',
  storm: 'storm',
  chemistry: 'the chemistry is off',
  other: 'the studio cannot hold the day',
};

/** What the letter says where the owner says nothing else. */
const USUAL_WORDS: Record<Reason, string> = {
  illness: 'Somebody at the studio is ill.',
  storm: 'A storm is on its way, and nobody should travel through it.',
  chemistry:
    'The chemistry is off: the test plates of the day fail, and no plate of yours would come out as it should.',
  other: '',
};

export const whyMoved = z
  .object({ reason: z.enum(REASONS, 'Please say why.'), words: longText(2000).default('') })
  .transform(({ reason, words }) => ({ reason, words: words === '' ? USUAL_WORDS[reason] : words }));
export type WhyMoved = z.output<typeof whyMoved>;

const day = z.string().transform((text, context) => {
  try {
    return Temporal.PlainDate.from(text, { overflow: 'reject' });
  } catch {
    context.addIssue({ code: 'custom', message: 'Please give a date with day, month and year.' });
    return z.NEVER;
  }
});

/** At most so many days at once. Assumption: an illness, not a season. */
export const MOST_DAYS = 62;

export const daysToMove = z
  .object({ from: day, until: z.union([z.literal('').transform(() => null), day]).default(null) })
  .transform(({ from, until }) => ({ from, until: until ?? from }))
  .superRefine(({ from, until }, context) => {
    const days = from.until(until).days;
    const message =
      days < 0
        ? 'The last day must not be before the first.'
        : days >= MOST_DAYS
          ? `At most ${MOST_DAYS} days at once.`
          : null;
    if (message) context.addIssue({ code: 'custom', path: ['until'], message });
  });

const wall = z.string().transform((text, context) => {
  try {
    return Temporal.PlainDateTime.from(text, { overflow: 'reject' });
  } catch {
    context.addIssue({ code: 'custom', message: 'Please choose again.' });
    return z.NEVER;
  }
});

/** What is done for one sitting that has its place at `from`. */
export const moveChoice = z.object({
  sittingId: z.uuid(),
  from: wall,
  act: z.union([z.enum(['leave', 'again', 'end']), z.object({ to: wall })], 'Please choose one of these.'),
});
export type MoveChoice = z.output<typeof moveChoice>;
