// Items on the shelf and their lots (bottles, batches, boxes).
import { z } from 'zod';
import { plainDate } from '../platform/db/row.js';

export const itemKind = z.enum([
  'glass',
  'collodion',
  'developer',
  'fixer',
  'varnish',
  'bath',
  'chemical',
  'supply',
  'gear',
]);
export type ItemKind = z.output<typeof itemKind>;

export const unit = z.enum(['mg', 'uL', 'sheet', 'piece']);
export type Unit = z.output<typeof unit>;

export const surface = z.enum(['clear glass', 'black glass', 'black-lacquered metal']);
export type Surface = z.output<typeof surface>;

export const itemRow = z.object({
  item_id: z.uuid(),
  name: z.string(),
  kind: itemKind,
  unit,
  plate_size_id: z.uuid().nullable(),
  surface: surface.nullable(),
  substance: z.string().nullable(),
  lead_days: z.number().nullable(),
  ripen_days: z.number().nullable(),
  life_days: z.number().nullable(),
  opened_life_days: z.number().nullable(),
  formula_id: z.uuid().nullable(),
  supplier_id: z.uuid().nullable(),
  pack_quantity: z.bigint().nullable(),
  least_packs: z.number(),
  heel: z.bigint(),
  least_pour: z.bigint(),
  most_on_hand: z.bigint().nullable(),
  no_post: z.boolean(),
  h_codes: z.array(z.string()),
  hazard_note: z.string(),
  storage: z.string(),
  archived: z.boolean(),
});

/** What of an item has a value when nothing is said about it. */
export interface ItemExtras {
  /** Glass only. */
  surface: Surface | null;
  /** Its key in chemistry/substances.calc.ts, when it is one substance. */
  substance: string | null;
  /** Days it keeps once opened; null as long as unopened. */
  openedLifeDays: number | null;
  /** How it is mixed here. */
  formulaId: string | null;
  supplierId: string | null;
  /** What one pack holds, in the item's unit. */
  packQuantity: bigint | null;
  leastPacks: number;
  /** What stays in a bottle and is not poured. */
  heel: bigint;
  /** A bottle with less above its heel is not used at all. */
  leastPour: bigint;
  /** The owner's limit by local rule. */
  mostOnHand: bigint | null;
  /** Cannot go by post or air. */
  noPost: boolean;
  hCodes: string[];
  /** What the bottle's own label says. */
  hazardNote: string;
  storage: string;
  archived: boolean;
}

export interface Item extends ItemExtras {
  id: string;
  name: string;
  kind: ItemKind;
  unit: Unit;
  plateSizeId: string | null;
  leadDays: number | null;
  ripenDays: number | null;
  lifeDays: number | null;
}
export type NewItem = Omit<Item, 'id' | keyof ItemExtras> & Partial<ItemExtras>;

/** The values of what was not said; glass is clear. */
export const withExtras = (item: NewItem): Omit<Item, 'id'> => ({
  surface: item.kind === 'glass' ? 'clear glass' : null,
  substance: null,
  openedLifeDays: null,
  formulaId: null,
  supplierId: null,
  packQuantity: null,
  leastPacks: 1,
  heel: 0n,
  leastPour: 0n,
  mostOnHand: null,
  noPost: false,
  hCodes: [],
  hazardNote: '',
  storage: '',
  archived: false,
  ...item,
});

export const toItem = (row: z.output<typeof itemRow>): Item => ({
  id: row.item_id,
  name: row.name,
  kind: row.kind,
  unit: row.unit,
  plateSizeId: row.plate_size_id,
  surface: row.surface,
  substance: row.substance,
  leadDays: row.lead_days,
  ripenDays: row.ripen_days,
  lifeDays: row.life_days,
  openedLifeDays: row.opened_life_days,
  formulaId: row.formula_id,
  supplierId: row.supplier_id,
  packQuantity: row.pack_quantity,
  leastPacks: row.least_packs,
  heel: row.heel,
  leastPour: row.least_pour,
  mostOnHand: row.most_on_hand,
  noPost: row.no_post,
  hCodes: row.h_codes,
  hazardNote: row.hazard_note,
  storage: row.storage,
  archived: row.archived,
});

export const lotClass = z.enum(['fresh', 'ordinary', 'old']);
export type LotClass = z.output<typeof lotClass>;

/** `suspect` keeps what is in it and gives nothing; `gone` is empty. */
export const lotState = z.enum(['good', 'suspect', 'gone']);
export type LotState = z.output<typeof lotState>;

export const lotRow = z.object({
  lot_id: z.uuid(),
  item_id: z.uuid(),
  label: z.string(),
  usable_from: plainDate,
  usable_until: plainDate.nullable(),
  on_hand: z.bigint(),
  reserved: z.bigint(),
  class: lotClass,
  speed_factor: z.coerce.number().nullable(),
  colour: z.string(),
  received_on: plainDate.nullable(),
  opened_on: plainDate.nullable(),
  state: lotState,
  state_note: z.string(),
  peroxide_checked_on: plainDate.nullable(),
  note: z.string(),
});

type Day = z.output<typeof plainDate>;

/** What of a bottle has a value when nothing is said about it. */
export interface LotExtras {
  class: LotClass;
  /** How many times the reference time it asks for. */
  speedFactor: number | null;
  colour: string;
  receivedOn: Day | null;
  openedOn: Day | null;
  state: LotState;
  stateNote: string;
  peroxideCheckedOn: Day | null;
  note: string;
}

export interface Lot extends LotExtras {
  id: string;
  itemId: string;
  label: string;
  usableFrom: Day;
  usableUntil: Day | null;
  onHand: bigint;
  reserved: bigint;
}
export type NewLot = Omit<Lot, 'id' | 'onHand' | 'reserved' | keyof LotExtras> & Partial<LotExtras>;

/** The values of what was not said: an ordinary bottle, good and unopened. */
export const withLotExtras = (lot: NewLot): Omit<Lot, 'id' | 'onHand' | 'reserved'> => ({
  class: 'ordinary',
  speedFactor: null,
  colour: '',
  receivedOn: null,
  openedOn: null,
  state: 'good',
  stateNote: '',
  peroxideCheckedOn: null,
  note: '',
  ...lot,
});

export const toLot = (row: z.output<typeof lotRow>): Lot => ({
  id: row.lot_id,
  itemId: row.item_id,
  label: row.label,
  usableFrom: row.usable_from,
  usableUntil: row.usable_until,
  onHand: row.on_hand,
  reserved: row.reserved,
  class: row.class,
  speedFactor: row.speed_factor,
  colour: row.colour,
  receivedOn: row.received_on,
  openedOn: row.opened_on,
  state: row.state,
  stateNote: row.state_note,
  peroxideCheckedOn: row.peroxide_checked_on,
  note: row.note,
});

export const plateSizeRow = z.object({
  plate_size_id: z.uuid(),
  name: z.string(),
  width_mm: z.coerce.number(),
  height_mm: z.coerce.number(),
  offered: z.boolean(),
  position: z.number(),
});

export interface PlateSize {
  id: string;
  name: string;
  widthMm: number;
  heightMm: number;
  offered: boolean;
  position: number;
}

export const toPlateSize = (row: z.output<typeof plateSizeRow>): PlateSize => ({
  id: row.plate_size_id,
  name: row.name,
  widthMm: row.width_mm,
  heightMm: row.height_mm,
  offered: row.offered,
  position: row.position,
});

export const reservationRow = z.object({
  reservation_id: z.uuid(),
  held_for: z.uuid(),
  item_id: z.uuid(),
  lot_id: z.uuid().nullable(),
  quantity: z.bigint(),
});

export const plannedRow = reservationRow
  .pick({ item_id: true, quantity: true })
  .extend({ needed_on: plainDate });

/** One item that a place needs, in the item's unit. */
export interface Need {
  itemId: string;
  quantity: bigint;
}

/** What is set aside for a place, for screens. */
export interface SetAside {
  item: Item;
  quantity: bigint;
  lotLabel: string | null;
}
