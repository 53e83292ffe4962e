// A person's data as one file, the erasure log, the preview of an erasure, and the rules of keeping.
import { z } from 'zod';
import { instant } from '../platform/db/row.js';

/** Rises when a program that reads the file would have to be changed. */
export const FILE_FORMAT = 1;

/**
 * The file. Each part is a table of ours with the rows about the person: names of columns, and values as the database has
 * them; instants in UTC, days as "2027-05-14". Ids and secrets are left out.
 */
export const personFile = z.object({
  format: z.literal(FILE_FORMAT),
  about: z.string(),
  studio: z.string(),
  madeAt: z.string(),
  parts: z.record(z.string(), z.array(z.record(z.string(), z.unknown()))),
});
export type PersonFile = z.output<typeof personFile>;

export const erasureRow = z.object({ contact_id: z.uuid(), at: instant, who: z.string() });

/** A line of the log: of whom nothing is kept any more. The same in the database and in the file beside the copies. */
export const erasureLine = z.object({ contact: z.uuid(), at: z.string(), who: z.string() });
export type ErasureLine = z.output<typeof erasureLine>;

/** What erasing somebody comes to. */
export interface ErasurePreview {
  contactId: string;
  name: string;
  erasedAt: z.output<typeof instant> | null;
  askedAt: z.output<typeof instant> | null;
  /** Places that lie ahead or have no ending yet, and offers: they have to be given back first. */
  standing: number;
  /** Rows in which something goes, by table. */
  goes: { table: string; rows: number }[];
}

export const keepingRow = z.object({
  unanswered_days: z.number().nullable(),
  refused_days: z.number().nullable(),
  made_months: z.number().nullable(),
  letters_days: z.number().nullable(),
});

export interface Keeping {
  unansweredDays: number | null;
  refusedDays: number | null;
  madeMonths: number | null;
  lettersDays: number | null;
}

/** Until the owner sets something else. Common practice of small studios; no source. */
export const DEFAULT_KEEPING: Keeping = {
  unansweredDays: 30,
  refusedDays: 90,
  madeMonths: 24,
  lettersDays: 30,
};

const count = (low: number, high: number, unit: string) =>
  z.preprocess(
    (sent) => (typeof sent === 'string' ? sent.trim() : ''),
    z.union(
      [
        z.literal('').transform(() => null),
        z
          .string()
          .regex(/^\d{1,5}$/)
          .transform(Number)
          .pipe(z.number().min(low).max(high)),
      ],
      `Please give ${unit} from ${low} to ${high}, or leave it empty for never.`,
    ),
  );

export const keepingForm = z.object({
  unansweredDays: count(7, 3650, 'days'),
  refusedDays: count(7, 3650, 'days'),
  madeMonths: count(1, 1200, 'months'),
  lettersDays: count(7, 3650, 'days'),
}) satisfies z.ZodType<Keeping>;
