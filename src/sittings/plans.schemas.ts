// A plan for the waiting list as it is kept: its weights, each person's place or why there is none, and what became of it.
import { z } from 'zod';
import { instant, plainDateTime } from '../platform/db/row.js';
import { MATTERS, TOGETHER, WEIGHED, type Weights } from '../waiting/planner-points.calc.js';

const matters = z.enum(MATTERS, 'Please choose one of the three.');

/** What the owner chooses before a plan is made. */
export const weightsForm = z.object({
  order: matters,
  person: matters,
  light: matters,
  stock: matters,
  gaps: matters,
  together: z.enum(TOGETHER, 'Please choose one of the three.'),
}) satisfies z.ZodType<Weights>;

export const GIVES = ['offer', 'place'] as const;
/** Whether people are asked first, or given their place at once. */
export type Gives = (typeof GIVES)[number];

export const confirmForm = z.object({
  gives: z.enum(GIVES, 'Please choose whether people are asked first.'),
  /** The sittings that stay in the plan. */
  people: z
    .preprocess((sent) => (typeof sent === 'string' ? [sent] : (sent ?? [])), z.array(z.uuid()))
    .refine((all) => all.length > 0, 'Please leave at least one person in the plan.'),
});

const range = z.object({ from: z.number(), to: z.number() });

export const placeShown = z.object({
  wallEnd: z.string(),
  clear: range,
  dull: range,
  /** Seconds that all on the plates can hold still. */
  limit: z.number(),
  onShelf: z.enum(['enough', 'to be had']),
  parts: z.array(z.object({ part: z.enum(['place', ...WEIGHED]), points: z.number() })),
});
export type PlaceShown = z.output<typeof placeShown>;

/** Why somebody is left out. `by`: sittings that have what is in the way. */
export const leftOutShown = z.object({
  why: z.enum([
    'no day suits',
    'no open place',
    'notice too long',
    'no time to answer',
    'hold still too long',
    'cannot be had',
    'said no',
    'room taken',
    'day full',
    'no more plates',
    'kept back',
    'year full',
    'stock short',
    'party apart',
    'party',
    'not reached',
  ]),
  by: z.array(z.uuid()),
  /** All of those stand before them on the list. */
  allBefore: z.boolean(),
  /** An item's id, where the shelf is short. */
  item: z.string().nullable(),
  /** The day that was nearest to be had. */
  day: z.string().nullable(),
});
export type LeftOutShown = z.output<typeof leftOutShown>;

export const planRow = z.object({
  plan_id: z.uuid(),
  made_at: instant,
  who: z.string(),
  weights: weightsForm,
  state: z.enum(['proposed', 'confirmed', 'dropped']),
  gives: z.enum(GIVES).nullable(),
  settled_at: instant.nullable(),
  points: z.number(),
  bound: z.number(),
});
type Row = z.output<typeof planRow>;

export const entryRow = z.object({
  sitting_id: z.uuid(),
  position: z.number(),
  wall_start: plainDateTime.nullable(),
  place: placeShown.nullable(),
  left_out: leftOutShown.nullable(),
  ticked: z.boolean(),
  outcome: z.string(),
});
type EntryRow = z.output<typeof entryRow>;

export interface Plan {
  id: string;
  madeAt: Row['made_at'];
  who: string;
  weights: Weights;
  state: Row['state'];
  gives: Gives | null;
  points: number;
  bound: number;
}

export interface Entry {
  sittingId: string;
  position: number;
  wallStart: EntryRow['wall_start'];
  place: PlaceShown | null;
  leftOut: LeftOutShown | null;
  ticked: boolean;
  /** '' while nothing is done, 'given', or why it could not be given. */
  outcome: string;
}

export const GIVEN = 'given';

export const toPlan = (row: Row): Plan => ({
  id: row.plan_id,
  madeAt: row.made_at,
  who: row.who,
  weights: row.weights,
  state: row.state,
  gives: row.gives,
  points: row.points,
  bound: row.bound,
});

export const toEntry = (row: EntryRow): Entry => ({
  sittingId: row.sitting_id,
  position: row.position,
  wallStart: row.wall_start,
  place: row.place,
  leftOut: row.left_out,
  ticked: row.ticked,
  outcome: row.outcome,
});
