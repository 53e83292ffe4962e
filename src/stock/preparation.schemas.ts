// What must be done before a studio or teaching day: the owner's rules, what was ticked or moved, and what a day
// itself takes beside its sittings.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { plainDate } from '../platform/db/row.js';

export const FOR_DAYS = ['studio', 'teaching', 'both'] as const;
export const CONDITIONS = ['always', 'hot', 'cold'] as const;
export const AMOUNTS = ['none', 'sheets'] as const;

export const ruleRow = z.object({
  rule_id: z.uuid(),
  position: z.number(),
  what: z.string(),
  for_day: z.enum(FOR_DAYS),
  days_before: z.number(),
  minutes: z.number(),
  minutes_each: z.number(),
  darkroom: z.boolean(),
  not_with: z.uuid().nullable(),
  condition: z.enum(CONDITIONS),
  amount: z.enum(AMOUNTS),
  note: z.string(),
  archived: z.boolean(),
});

export interface Rule {
  id: string;
  position: number;
  what: string;
  forDay: (typeof FOR_DAYS)[number];
  /** So many days before at the latest; 0 is the day itself, before the first sitter. */
  daysBefore: number;
  minutes: number;
  /** Minutes for each sheet besides, where the rule counts the sheets of the day. */
  minutesEach: number;
  darkroom: boolean;
  /** Never on one day with this rule. */
  notWith: string | null;
  condition: (typeof CONDITIONS)[number];
  amount: (typeof AMOUNTS)[number];
  note: string;
  archived: boolean;
}

export const toRule = (row: z.output<typeof ruleRow>): Rule => ({
  id: row.rule_id,
  position: row.position,
  what: row.what,
  forDay: row.for_day,
  daysBefore: row.days_before,
  minutes: row.minutes,
  minutesEach: row.minutes_each,
  darkroom: row.darkroom,
  notWith: row.not_with,
  condition: row.condition,
  amount: row.amount,
  note: row.note,
  archived: row.archived,
});

export const tickRow = z.object({
  day: plainDate,
  rule_id: z.uuid(),
  done: z.boolean(),
  who: z.string(),
});

/** The last word on one task: done or not after all. */
export interface Tick {
  day: Temporal.PlainDate;
  ruleId: string;
  done: boolean;
  who: string;
}

export const moveRow = z.object({ day: plainDate, rule_id: z.uuid(), to_day: plainDate });

/** A task that the owner put on another day. */
export interface Move {
  day: Temporal.PlainDate;
  ruleId: string;
  toDay: Temporal.PlainDate;
}

export const studioDayRow = z.object({
  day: plainDate,
  day_id: z.uuid(),
  room_temperature: z
    .string()
    .nullable()
    .transform((text) => (text === null ? null : Number(text))),
  humidity: z.number().nullable(),
  note: z.string(),
  tests_typed: z.boolean(),
});

export interface StudioDay {
  day: Temporal.PlainDate;
  /** What the day's own materials are set aside for. */
  id: string;
  /** Degrees Celsius. */
  roomTemperature: number | null;
  /** Per cent. */
  humidity: number | null;
  note: string;
  /** Whether its test plates were typed in. */
  testsTyped: boolean;
}

export const toStudioDay = (row: z.output<typeof studioDayRow>): StudioDay => ({
  day: row.day,
  id: row.day_id,
  roomTemperature: row.room_temperature,
  humidity: row.humidity,
  note: row.note,
  testsTyped: row.tests_typed,
});

export const dayTestsRow = z.object({ plates: z.number(), plate_size_id: z.uuid().nullable() });
export const dayMaterialRow = z.object({ item_id: z.uuid(), quantity: z.bigint() });

/** What every studio day takes beside its sittings. */
export interface DayTakes {
  testPlates: number;
  testSizeId: string | null;
  materials: { itemId: string; quantity: bigint }[];
}
