// Why a day has to move, and how that is said.
import { z } from 'zod';
import { longText } from './request.schemas.js';

export const REASONS = ['illness', 'storm', 'chemistry', 'other'] as const;

/** For the record and for the letter. */
export const REASON_WORDS: Record<(typeof REASONS)[number], string> = {
  illness: 'illness',
  storm: 'storm',
  chemistry: 'the chemistry is off',
  other: 'the studio cannot hold the day',
};

export const whyMoved = z.object({
  reason: z.enum(REASONS, 'Please say why.'),
  words: longText(2000).default(''),
});
export type WhyMoved = z.output<typeof whyMoved>;
