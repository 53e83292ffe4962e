// Kept turns as they are stored, and what is told of a day while it goes on; by form and by API alike.
import { z } from 'zod';
import { instant } from '../platform/db/row.js';
import type { PlacedPlate, Rota } from './rota.calc.js';
import type { Bench } from './rota-bench.calc.js';

const seconds = z.object({ low: z.number(), high: z.number() });
const stretch = z.object({ from: z.number(), until: z.number() });
const unit = z.object({ id: z.string(), largest: z.number().nullable(), owner: z.string().optional() });
const edge = z.object({ step: z.string(), edge: z.enum(['start', 'end']) });

export const benchKept: z.ZodType<Bench> = z.object({
  day: stretch,
  light: stretch.nullable(),
  breaks: z.array(stretch),
  steps: z.array(
    z.object({
      id: z.string(),
      seconds,
      busy: z.enum(['maker', 'sitter', 'both', 'nobody']),
      follows: z.enum(['at once', 'on time', 'waits']),
      within: z.number().nullable(),
      lit: z.boolean(),
      outlasts: z.boolean(),
    }),
  ),
  holds: z.array(z.object({ station: z.string(), from: z.string(), until: z.string() })),
  clocks: z.array(z.object({ id: z.string(), from: edge, until: edge, most: z.number() })),
  turnStep: z.string(),
  stations: z.array(z.object({ id: z.string(), attended: z.boolean(), units: z.array(unit) })),
  sizes: z.array(z.object({ id: z.string(), area: z.number(), seconds: z.record(z.string(), seconds) })),
  students: z.array(z.object({ id: z.string(), plates: z.array(z.string()), from: z.number().nullable() })),
  teams: z.array(z.array(z.string())),
  varnish: z
    .object({
      seconds,
      station: z.string(),
      after: z.string(),
      ether: z.string(),
      airing: z.number(),
    })
    .nullable(),
});

const plate: z.ZodType<PlacedPlate> = z.object({
  plate: z.string(),
  student: z.string(),
  sitter: z.string().nullable(),
  size: z.string(),
  round: z.number(),
  team: z.number(),
  runs: z.array(
    z.object({
      start: z.number(),
      steps: z.array(stretch.extend({ step: z.string(), latestStart: z.number() })),
      uses: z.array(stretch.extend({ station: z.string().nullable(), unit: z.string() })),
    }),
  ),
  varnish: stretch.extend({ unit: z.string() }).nullable(),
});

export const rotaKept: z.ZodType<Rota> = z.object({
  plates: z.array(plate),
  unplaced: z.array(z.string()),
  end: z.number(),
  fits: z.boolean(),
  over: z.number(),
  bound: z.number().nullable(),
  gap: z.number().nullable(),
  bottleneck: z
    .union([
      z.object({ what: z.literal('stations'), stations: z.array(z.string()) }),
      z.object({ what: z.literal('student'), student: z.string() }),
      z.object({ what: z.literal('team'), team: z.number() }),
    ])
    .nullable(),
  provenNotToFit: z.boolean(),
  layings: z.number(),
});

/** What was told on the day, all of it. */
export const meanwhileKept = z.object({
  late: z.array(z.object({ student: z.string(), until: z.number() })),
  skipped: z.array(z.string()),
  gone: z.array(z.string()),
  done: z.array(z.string()),
});
export type Told = z.output<typeof meanwhileKept>;
export const NOTHING_TOLD: Told = { late: [], skipped: [], gone: [], done: [] };

export const turnsRow = z.object({
  session_id: z.uuid(),
  basis: z.string(),
  bench: benchKept,
  rota: rotaKept,
  meanwhile: meanwhileKept,
  revision: z.number(),
  kept_at: instant,
  changed_at: instant,
});

/** The turns of a day as they are kept. */
export interface Turns {
  sessionId: string;
  basis: string;
  bench: Bench;
  rota: Rota;
  told: Told;
  revision: number;
  keptAt: z.output<typeof instant>;
  changedAt: z.output<typeof instant>;
}
export const toTurns = (row: z.output<typeof turnsRow>): Turns => ({
  sessionId: row.session_id,
  basis: row.basis,
  bench: row.bench,
  rota: row.rota,
  told: row.meanwhile,
  revision: row.revision,
  keptAt: row.kept_at,
  changedAt: row.changed_at,
});

const MINUTES = 'Please give whole minutes, from 0 to 600.';
export const lateBody = z.object({
  studentId: z.uuid('Please choose a student.'),
  /** From now on, or from the beginning of a day that has not begun. */
  minutes: z.coerce.number(MINUTES).int(MINUTES).min(0, MINUTES).max(600, MINUTES),
});
export const plateBody = z.object({
  studentId: z.uuid('Please choose a student.'),
  /** Which of their plates, from 1. */
  round: z.coerce.number('Please say which plate.').int().min(1).max(100),
});
/** Without a plate the student has left; or, told again, is here after all. */
export const skipBody = plateBody.partial({ round: true });

export type Telling =
  | ({ what: 'late' } & z.output<typeof lateBody>)
  | ({ what: 'skip' } & z.output<typeof skipBody>)
  | ({ what: 'again' } & z.output<typeof skipBody>)
  | ({ what: 'done' } & z.output<typeof plateBody>);
