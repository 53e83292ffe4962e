// What is owed after a day, as the database keeps it: the owner's steps, and what was ticked of a sitting.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { instant } from '../platform/db/row.js';

export const stepRow = z.object({
  step_id: z.uuid(),
  position: z.number(),
  what: z.string(),
  days: z.number(),
  leaves: z.boolean(),
  archived: z.boolean(),
});

export const stepKindRow = z.object({ step_id: z.uuid(), kind_id: z.uuid(), days: z.number().nullable() });

/** Something that is owed for the plates of a sitting. */
export interface Step {
  id: string;
  position: number;
  what: string;
  /** Due so many days after the day of the sitting. */
  days: number;
  /** With it the plates have left the studio, and nothing more is owed. */
  leaves: boolean;
  archived: boolean;
  /** Other days by the kind of sitting; null: not owed for this kind. */
  byKind: ReadonlyMap<string, number | null>;
}

export const doneRow = z.object({
  sitting_id: z.uuid(),
  step_id: z.uuid(),
  at: instant,
  who: z.string(),
});

export interface Done {
  sittingId: string;
  stepId: string;
  at: Temporal.Instant;
  who: string;
}
