// What an act of the desk changed of a sitting, kept so that it can be put back.
import { z } from 'zod';
import { readInstant } from '../lib/stored-times.js';
import { instant } from '../platform/db/row.js';
import type { Sitting } from './sittings.schemas.js';
import { STATES } from './states.calc.js';

/** The acts that can be undone while nobody was told. */
const UNDOABLE = ['approve', 'decline', 'wait', 'mark', 'release'] as const;
export type Undoable = (typeof UNDOABLE)[number];

const before = z.object({
  state: z.enum(STATES),
  message: z.string(),
  occupancyId: z.uuid().nullable(),
  offersUnanswered: z.number(),
  returnOwed: z.boolean(),
  /** When it was decided; acts kept before this was noted have none. */
  decidedAt: z.string().transform(readInstant).nullable().default(null),
  marks: z.object({ priority: z.string(), hardship: z.string(), noticeDays: z.number().nullable() }),
});
export type Before = z.output<typeof before>;

export const actRow = z.object({
  act_id: z.uuid(),
  sitting_id: z.uuid(),
  event: z.enum(UNDOABLE),
  turns: z.number(),
  before,
  at: instant,
  who: z.string(),
  undone_at: instant.nullable(),
});
type ActRow = z.output<typeof actRow>;

export interface SittingAct {
  id: string;
  sittingId: string;
  event: Undoable;
  /** Of the sitting after the act. */
  turns: number;
  before: Before;
  at: ActRow['at'];
  who: string;
  undoneAt: ActRow['undone_at'];
}

export const toAct = (row: ActRow): SittingAct => ({
  id: row.act_id,
  sittingId: row.sitting_id,
  event: row.event,
  turns: row.turns,
  before: row.before,
  at: row.at,
  who: row.who,
  undoneAt: row.undone_at,
});

export const beforeOf = (sitting: Sitting): Before => ({
  state: sitting.state,
  message: sitting.message,
  occupancyId: sitting.occupancyId,
  offersUnanswered: sitting.offersUnanswered,
  returnOwed: sitting.returnOwed,
  decidedAt: sitting.decidedAt,
  marks: sitting.marks,
});
