// How a sitting may end on its day, as it is told and as it is kept.
import { z } from 'zod';
import { instant } from '../platform/db/row.js';

/** Why somebody came and no plate was made; never a fault of theirs. */
export const NO_PLATE_REASONS = ['chemistry', 'fog', 'moved', 'other'] as const;
/** Why somebody did not come; whoever is stranded is owed a return. */
export const MISSED_REASONS = ['stranded', 'ill', 'not heard of', 'other'] as const;

export const NO_PLATE_WORDS: Record<(typeof NO_PLATE_REASONS)[number], string> = {
  chemistry: 'The chemistry was off',
  fog: 'The plates fogged',
  moved: 'They could not hold still',
  other: 'Something else',
};
export const MISSED_WORDS: Record<(typeof MISSED_REASONS)[number], string> = {
  stranded: 'They were stranded on the way',
  ill: 'They were ill',
  'not heard of': 'We heard nothing',
  other: 'Something else',
};

const note = z.string().trim().max(1000, 'Please keep this under 1,000 characters.').default('');
const choose = { error: 'Please choose a reason.' };

export const ending = z.discriminatedUnion(
  'how',
  [
    z.object({ how: z.literal('made'), note }),
    z.object({ how: z.literal('no plate'), reason: z.enum(NO_PLATE_REASONS, choose), note }),
    z.object({ how: z.literal('missed'), reason: z.enum(MISSED_REASONS, choose), note }),
  ],
  { error: 'Please choose how it ended.' },
);
export type Ending = z.output<typeof ending>;

export const sittingDayRow = z.object({
  sitting_id: z.uuid(),
  arrived_at: instant.nullable(),
  ended_at: instant.nullable(),
  reason: z.string(),
  note: z.string(),
  return_id: z.uuid().nullable(),
  set_aside: z.boolean(),
});
type Row = z.output<typeof sittingDayRow>;

export interface SittingDay {
  arrivedAt: Row['arrived_at'];
  /** When the ending was told; null as long as nobody did. */
  endedAt: Row['ended_at'];
  /** One of the reasons above; '' where it was made. */
  reason: string;
  note: string;
  /** The request put on the list in its stead. */
  returnId: string | null;
  /** Whether anything was set aside for it when the ending was told. */
  setAside: boolean;
}

export const NOTHING_YET: SittingDay = {
  arrivedAt: null,
  endedAt: null,
  reason: '',
  note: '',
  returnId: null,
  setAside: false,
};
