// What a backup says of itself, so that it can be checked before anything is touched.
import { z } from 'zod';

/** Rises when a backup of before could not be read any more. */
export const FORMAT = 1;
export const MANIFEST = 'manifest.json';
export const SECRET = 'secret';
/** What was still to be done: letters to send, reminders, offers that run out. */
export const JOBS_PART = 'jobs.jsonl';
/** Where the rows of a table are. */
export const rowsOf = (table: string): string => `tables/${table}.jsonl`;

const part = z.object({ name: z.string(), bytes: z.int().min(0), sha256: z.string().length(64) });

export const manifest = z.object({
  format: z.literal(FORMAT),
  program: z.literal('plateday'),
  studio: z.object({ id: z.uuid(), slug: z.string(), name: z.string() }),
  madeAt: z.string(),
  zoneData: z.string(),
  /** The numbered files the database had, by name and sum: a restore needs the same, or later ones beside them. */
  migrations: z.array(z.object({ name: z.string(), checksum: z.string() })).min(1),
  tables: z.array(z.object({ table: z.string(), rows: z.int().min(0) })),
  /** Sums of the shelf: on hand and set aside of each item, and of its movements. */
  shelf: z.array(z.object({ item: z.uuid(), onHand: z.string(), moved: z.string(), setAside: z.string() })),
  parts: z.array(part),
});
export type Manifest = z.output<typeof manifest>;
