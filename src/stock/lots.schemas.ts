// Bottles, batches and boxes as their table holds them, their ledger, and their family: what went into one and
// what it went into.
import { z } from 'zod';
import { instant, plainDate } from '../platform/db/row.js';
import { type Lot, lotClass, lotState, type Unit, unit } from './stock.schemas.js';

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

const movementKind = z.enum([
  'received',
  'mixed',
  'used',
  'taken',
  'discarded',
  'counted',
  'reserved',
  'released',
]);
export type MovementKind = z.output<typeof movementKind>;

export const movementRow = z.object({
  movement_id: z.uuid(),
  lot_id: z.uuid(),
  kind: movementKind,
  quantity: z.bigint(),
  held_for: z.uuid().nullable(),
  reason: z.string(),
  at: instant,
  who: z.string(),
  batch_id: z.uuid().nullable(),
});

export interface MovementLine {
  id: string;
  kind: MovementKind;
  /** Signed for what is on hand; of 'reserved' and 'released' how much. */
  quantity: bigint;
  heldFor: string | null;
  reason: string;
  at: z.output<typeof instant>;
  who: string;
}

export const toMovementLine = (row: z.output<typeof movementRow>): MovementLine => ({
  id: row.movement_id,
  kind: row.kind,
  quantity: row.quantity,
  heldFor: row.held_for,
  reason: row.reason,
  at: row.at,
  who: row.who,
});

export const parentRow = z.object({
  lot_id: z.uuid(),
  label: z.string(),
  parent_lot_id: z.uuid(),
  parent_label: z.string(),
  quantity: z.bigint(),
  unit,
});

export interface Parent {
  lotId: string;
  label: string;
  parentLotId: string;
  parentLabel: string;
  quantity: bigint;
  unit: Unit;
}
