// A bottle, batch or box that stood on the shelf before there was a book of it.
import type { Temporal } from 'temporal-polyfill';
import type { Item } from './stock.schemas.js';

export interface BroughtBottle {
  item: Item;
  /** '' for one that is called by the day it came. */
  label: string;
  quantity: bigint;
  openedOn: Temporal.PlainDate | null;
  /** Null: as the item keeps, from today. */
  usableUntil: Temporal.PlainDate | null;
  note: string;
}
