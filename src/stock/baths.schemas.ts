// Silver baths as they are kept, the lines of their ledgers, and the forms both are typed into.
// Strength is milligrams of silver nitrate in a litre, volume microlitres, crystals milligrams, area square micrometres.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { plainDate } from '../platform/db/row.js';

const BATH_STATES = ['working', 'sunning', 'resting', 'filtering', 'suspect', 'retired'] as const;
export type BathState = (typeof BATH_STATES)[number];
export const TANKS = ['upright tank', 'tray'] as const;
const EVENT_KINDS = [
  'made',
  'measured',
  'topped up',
  'poured',
  'sunned',
  'filtered',
  'rested',
  'state',
  'acidity',
  'note',
  'taken back',
] as const;
export type EventKind = (typeof EVENT_KINDS)[number];
export const METHODS = ['hydrometer', 'titration'] as const;
export const FAULTS = [
  'fog',
  'comets',
  'oysters',
  'crape lines',
  'lifting film',
  'pinholes',
  'something else',
] as const;
export const HELPED = ['not known yet', 'yes', 'partly', 'no'] as const;

export const bathRow = z.object({
  bath_id: z.uuid(),
  name: z.string(),
  tank: z.enum(TANKS),
  plate_size_id: z.uuid(),
  volume: z.bigint(),
  least_volume: z.bigint(),
  target_strength: z.number(),
  least_strength: z.number(),
  care_after_plates: z.number(),
  lot_id: z.uuid().nullable(),
  state: z.enum(BATH_STATES),
  state_since: plainDate,
  state_until: plainDate.nullable(),
  note: z.string(),
});

export interface Bath {
  id: string;
  name: string;
  tank: (typeof TANKS)[number];
  /** The largest plate it takes. */
  plateSizeId: string;
  /** When full. */
  volume: bigint;
  leastVolume: bigint;
  targetStrength: number;
  leastStrength: number;
  /** After so many plates of its largest size it wants sun and filter. */
  careAfterPlates: number;
  /** The bottle of crystals it was made of. */
  lotId: string | null;
  state: BathState;
  stateSince: Temporal.PlainDate;
  /** The day on which it is expected to work again. */
  stateUntil: Temporal.PlainDate | null;
  note: string;
}

export const toBath = (row: z.output<typeof bathRow>): Bath => ({
  id: row.bath_id,
  name: row.name,
  tank: row.tank,
  plateSizeId: row.plate_size_id,
  volume: row.volume,
  leastVolume: row.least_volume,
  targetStrength: row.target_strength,
  leastStrength: row.least_strength,
  careAfterPlates: row.care_after_plates,
  lotId: row.lot_id,
  state: row.state,
  stateSince: row.state_since,
  stateUntil: row.state_until,
  note: row.note,
});

/** numeric columns come as text. */
const decimal = z
  .string()
  .nullable()
  .transform((text) => (text === null ? null : Number(text)));

export const eventRow = z.object({
  event_id: z.uuid(),
  bath_id: z.uuid(),
  day: plainDate,
  kind: z.enum(EVENT_KINDS),
  method: z.enum(METHODS).nullable(),
  density: decimal,
  temperature: decimal,
  strength: z.number().nullable(),
  volume: z.bigint().nullable(),
  crystals: z.bigint().nullable(),
  area: z.bigint().nullable(),
  plates: z.number().nullable(),
  ph: decimal,
  state: z.enum(BATH_STATES).nullable(),
  until: plainDate.nullable(),
  takes_back: z.uuid().nullable(),
  note: z.string(),
  who: z.string(),
});

/** One line of a ledger; what a kind does not tell is null. */
export interface BathEvent {
  id: string;
  bathId: string;
  day: Temporal.PlainDate;
  kind: EventKind;
  method: (typeof METHODS)[number] | null;
  /** Kilograms in a litre, at `temperature` in degrees Celsius. */
  density: number | null;
  temperature: number | null;
  strength: number | null;
  /** What is in it; what was added, when topped up. */
  volume: bigint | null;
  crystals: bigint | null;
  area: bigint | null;
  plates: number | null;
  ph: number | null;
  state: BathState | null;
  until: Temporal.PlainDate | null;
  /** The line that this one takes back: a slip, which counts no more. */
  takesBack: string | null;
  note: string;
  who: string;
}

export const toEvent = (row: z.output<typeof eventRow>): BathEvent => {
  const { event_id: id, bath_id: bathId, takes_back: takesBack, ...said } = row;
  return { id, bathId, takesBack, ...said };
};

/** A line with nothing but its kind, to be filled. */
export const plainEvent = (
  kind: EventKind,
  of: Pick<BathEvent, 'id' | 'bathId' | 'day' | 'who'>,
): BathEvent => ({
  ...of,
  kind,
  method: null,
  density: null,
  temperature: null,
  strength: null,
  volume: null,
  crystals: null,
  area: null,
  plates: null,
  ph: null,
  state: null,
  until: null,
  takesBack: null,
  note: '',
});

export const faultRow = z.object({
  fault_id: z.uuid(),
  day: plainDate,
  bath_id: z.uuid().nullable(),
  lot_id: z.uuid().nullable(),
  seen: z.enum(FAULTS),
  note: z.string(),
  changed: z.string(),
  helped: z.enum(HELPED),
  who: z.string(),
});

/** What was seen when the chemistry was off, what was changed, whether it helped. */
export interface Fault {
  id: string;
  day: Temporal.PlainDate;
  bathId: string | null;
  lotId: string | null;
  seen: (typeof FAULTS)[number];
  note: string;
  changed: string;
  helped: (typeof HELPED)[number];
  who: string;
}

export const toFault = (row: z.output<typeof faultRow>): Fault => {
  const { fault_id: id, bath_id: bathId, lot_id: lotId, ...said } = row;
  return { id, bathId, lotId, ...said };
};

/** Sheets set aside for a day, of one size. */
export interface DaySheets {
  day: Temporal.PlainDate;
  plateSizeId: string;
  sheets: bigint;
}
export const daySheetsRow = z.object({ day: plainDate, plate_size_id: z.uuid(), sheets: z.bigint() });
