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
  /** The supplier's lead time, which holds where the item has none of its own. */
  supplierLeadDays: number | null;
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
  /** Of several that could serve, the one that sittings are reckoned with. */
  usual: boolean;
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
  supplierLeadDays: null,
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
  usual: false,
  ...item,
});

export const lotClass = z.enum(['fresh', 'ordinary', 'old']);
export type LotClass = z.output<typeof lotClass>;

/** `suspect` keeps what is in it and gives nothing; `gone` is empty. */
export const lotState = z.enum(['good', 'suspect', 'gone']);
export type LotState = z.output<typeof lotState>;

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

/** What a sitting asks of a bottle: fresh and fast, old and slow, or any. */
export const askedClass = z.enum(['fresh', 'any', 'old']);
export type AskedClass = z.output<typeof askedClass>;

export const reservationRow = z.object({
  reservation_id: z.uuid(),
  held_for: z.uuid(),
  item_id: z.uuid(),
  lot_id: z.uuid().nullable(),
  quantity: z.bigint(),
  needed_on: plainDate,
  class: askedClass,
  chosen_lot_id: z.uuid().nullable(),
});

/** A part of a need: set aside from a lot, or without one still to be mixed or bought. */
export interface Held {
  id: string;
  heldFor: string;
  itemId: string;
  lotId: string | null;
  quantity: bigint;
  neededOn: Day;
  class: AskedClass;
  /** The bottle that the owner chose. */
  chosenLotId: string | null;
}

export const toHeld = (row: z.output<typeof reservationRow>): Held => ({
  id: row.reservation_id,
  heldFor: row.held_for,
  itemId: row.item_id,
  lotId: row.lot_id,
  quantity: row.quantity,
  neededOn: row.needed_on,
  class: row.class,
  chosenLotId: row.chosen_lot_id,
});

/** One item that a place needs, in the item's unit. */
export interface Need {
  itemId: string;
  quantity: bigint;
  /** Which bottle it asks for; any when nothing is said. */
  class?: AskedClass;
}

/** What is set aside for a place, for screens. */
/** What became of a choice of the bottle for a need. */
export const chosenFrom = z.enum(['all of it', 'part of it', 'by the rule']);
export type ChosenFrom = z.output<typeof chosenFrom>;

export interface SetAside {
  /** Bottles that could give something on that day, the one it is from among them. */
  couldGive: { lotId: string; label: string }[];
  item: Item;
  quantity: bigint;
  lotId: string | null;
  lotLabel: string | null;
  neededOn: Day;
  class: AskedClass;
  chosenLotId: string | null;
}
