// What a teaching day came to, as it is told and as it is kept: who was there, what was made, what was used.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { USED, type Used } from '../chemistry/learning.calc.js';
import { instant, plainDate } from '../platform/db/row.js';

export const ATTENDANCES = ['present', 'late', 'did_not_come'] as const;
export type Attendance = (typeof ATTENDANCES)[number];

/** Plates of one size by one maker; 0 tries says that none was made of it. */
export interface MadePlates {
  /** A student, or the session for the whole group and the teacher. */
  maker: string;
  plateSizeId: string;
  tries: number;
  keepers: number;
}

/** What is told of a day; every student has a word in `attendance`. What is not told of plates and use stays as reckoned. */
export interface ToldAfter {
  attendance: ReadonlyMap<string, Attendance>;
  plates: readonly MadePlates[];
  /** Microlitres; of silver nitrate milligrams. */
  used: Readonly<Partial<Record<Used, bigint>>>;
  note: string;
}

/** What is kept of a day. */
export interface ClassRecord extends ToldAfter {
  sessionId: string;
  day: Temporal.PlainDate;
  movesStock: boolean;
  writtenAt: Temporal.Instant;
}

/** So much of a bottle that was set aside for a student, or for the session itself. */
export interface HeldBottle {
  holder: string;
  lotId: string;
  quantity: bigint;
}

export const recordRow = z.object({
  session_id: z.uuid(),
  day: plainDate,
  moves_stock: z.boolean(),
  note: z.string(),
  written_at: instant,
});
export const madeRow = z.object({
  session_id: z.uuid(),
  maker: z.uuid(),
  plate_size_id: z.uuid(),
  tries: z.number(),
  keepers: z.number(),
});
export const classUseRow = z.object({ session_id: z.uuid(), what: z.enum(USED), quantity: z.bigint() });
export const attendanceRow = z.object({
  session_id: z.uuid(),
  student_id: z.uuid(),
  how: z.enum(ATTENDANCES),
});
export const heldRow = z.object({ holder: z.uuid(), lot_id: z.uuid(), quantity: z.bigint() });
export const usedRow = z.object({ lot_id: z.uuid(), quantity: z.bigint() });
export const usedOfItemRow = z.object({ item_id: z.uuid(), quantity: z.bigint() });
