// Items on the shelf and their lots (bottles, batches, boxes).
import { z } from 'zod';
import { plainDate } from '../platform/db/row.js';

export const itemKind = z.enum(['glass', 'collodion', 'developer', 'fixer', 'varnish']);
export type ItemKind = z.output<typeof itemKind>;

export const itemRow = z.object({
  item_id: z.uuid(),
  name: z.string(),
  kind: itemKind,
  unit: z.enum(['mg', 'uL', 'sheet']),
  plate_size_id: z.uuid().nullable(),
  lead_days: z.number().nullable(),
  ripen_days: z.number().nullable(),
  life_days: z.number().nullable(),
});
export type Unit = z.output<typeof itemRow>['unit'];

export interface Item {
  id: string;
  name: string;
  kind: ItemKind;
  unit: Unit;
  plateSizeId: string | null;
  leadDays: number | null;
  ripenDays: number | null;
  lifeDays: number | null;
}

export const toItem = (row: z.output<typeof itemRow>): Item => ({
  id: row.item_id,
  name: row.name,
  kind: row.kind,
  unit: row.unit,
  plateSizeId: row.plate_size_id,
  leadDays: row.lead_days,
  ripenDays: row.ripen_days,
  lifeDays: row.life_days,
});

export const lotRow = z.object({
  lot_id: z.uuid(),
  item_id: z.uuid(),
  label: z.string(),
  usable_from: plainDate,
  usable_until: plainDate.nullable(),
  on_hand: z.bigint(),
  reserved: z.bigint(),
});

export interface Lot {
  id: string;
  itemId: string;
  label: string;
  usableFrom: z.output<typeof plainDate>;
  usableUntil: z.output<typeof plainDate> | null;
  onHand: bigint;
  reserved: bigint;
}

export const toLot = (row: z.output<typeof lotRow>): Lot => ({
  id: row.lot_id,
  itemId: row.item_id,
  label: row.label,
  usableFrom: row.usable_from,
  usableUntil: row.usable_until,
  onHand: row.on_hand,
  reserved: row.reserved,
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
