// An outside calendar as it is kept, and the forms about it.
import { z } from 'zod';
import { bytes, instant } from '../platform/db/row.js';
import { BLOCKS, type Choice, type Elsewhere } from './blocking.calc.js';
import type { BusyTime } from './expand.calc.js';
import { FAILURES } from './failure.calc.js';

const busyTime = z.object({ title: z.string(), from: z.number(), until: z.number(), wholeDays: z.boolean() });

/** Milliseconds since the epoch, from and until in turn. */
export const stretches = z
  .array(z.coerce.number())
  .transform((flat): Elsewhere[] =>
    flat.flatMap((from, at) => (at % 2 === 0 ? [{ from, until: flat[at + 1] ?? from }] : [])),
  );

export const calendarRow = z.object({
  calendar_id: z.uuid(),
  name: z.string(),
  sealed_address: bytes.nullable(),
  host: z.string(),
  state: z.enum(['new', 'on', 'paused']),
  blocks: z.enum(BLOCKS),
  margin_minutes: z.number(),
  etag: z.string(),
  last_modified: z.string(),
  copy: z.string(),
  entries: z.number(),
  free: z.number(),
  busy: z.array(busyTime),
  blocking: stretches,
  created_at: instant,
  read_at: instant,
  next_at: instant,
  failures: z.number(),
  failure: z.union([z.literal(''), z.enum(FAILURES)]),
});
export type CalendarRow = z.output<typeof calendarRow>;

/** What pages need of one; the copy and the address stay inside. */
export interface OutsideCalendar {
  id: string;
  name: string;
  /** Where it comes from, the secret part left out; empty for a file. */
  host: string;
  state: CalendarRow['state'];
  choice: Choice;
  entries: number;
  free: number;
  busy: BusyTime[];
  blocking: Elsewhere[];
  readAt: CalendarRow['read_at'];
  nextAt: CalendarRow['next_at'];
  failure: CalendarRow['failure'];
}

export const toCalendar = (row: CalendarRow): OutsideCalendar => ({
  id: row.calendar_id,
  name: row.name,
  host: row.host,
  state: row.state,
  choice: { blocks: row.blocks, marginMinutes: row.margin_minutes },
  entries: row.entries,
  free: row.free,
  busy: row.busy,
  blocking: row.blocking,
  readAt: row.read_at,
  nextAt: row.next_at,
  failure: row.failure,
});

const text = (most: number) =>
  z
    .string()
    .default('')
    .transform((typed) => typed.trim().slice(0, most + 1));

export const addForm = z
  .object({
    name: text(80)
      .refine((name) => name !== '', 'Please give it a name, so that you know it again.')
      .refine((name) => name.length <= 80, 'Please take a shorter name.'),
    address: text(2000).refine((one) => one.length <= 2000, 'This address is too long.'),
    file: z.string().default(''),
  })
  .refine(({ address, file }) => address !== '' || file.trim() !== '', {
    path: ['address'],
    message: 'Please give an address or a file.',
  })
  .refine(({ address, file }) => address === '' || file.trim() === '', {
    path: ['file'],
    message: 'Please give either an address or a file, not both.',
  });

export const choiceForm = z.object({
  blocks: z.enum(BLOCKS, 'Please choose one.'),
  marginMinutes: z
    .string()
    .default('')
    .transform((typed) => (typed.trim() === '' ? '0' : typed.trim()))
    .refine((typed) => /^\d{1,3}$/.test(typed) && Number(typed) <= 240, 'Please give 0 to 240 minutes.')
    .transform(Number),
});
