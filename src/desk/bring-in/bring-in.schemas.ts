// What is brought in: drafts, and what came of them.
import { z } from 'zod';
import { SEPARATORS } from '../../lib/csv-read.js';
import { instant } from '../../platform/db/row.js';
import { WHATS } from './columns.calc.js';

export const choices = z.object({
  separator: z.enum(SEPARATORS),
  headings: z.boolean(),
  columns: z.array(z.string()),
  order: z.enum(['day first', 'month first']),
  leave: z.array(z.int()),
});

export const draftRow = z.object({
  draft_id: z.uuid(),
  what: z.enum(WHATS),
  source: z.string(),
  choices,
  guessed: z.boolean(),
});
export type Draft = z.output<typeof draftRow>;

/** A draft in the list of those that wait. */
export const waitingRow = z.object({ draft_id: z.uuid(), what: z.enum(WHATS), saved_at: instant });
export type WaitingDraft = z.output<typeof waitingRow>;

export const bringInRow = z.object({
  bring_in_id: z.uuid(),
  what: z.enum(WHATS),
  at: instant,
  who: z.string(),
  lines: z.number(),
  up_to: z.bigint(),
  undone_at: instant.nullable(),
  undone_by: z.string(),
});
export type BringIn = z.output<typeof bringInRow>;

export const cameRow = z.object({ line: z.number(), became_id: z.uuid() });
/** What a line became. */
export type Came = z.output<typeof cameRow>;
