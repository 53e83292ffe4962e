// Plates and sizes as they are in the book, for tests of arithmetic.
import { Temporal } from 'temporal-polyfill';
import type { Made } from '../../src/plates/made.schemas.js';
import type { PlateSize } from '../../src/stock/stock.schemas.js';

export const plateSize = (id: string, widthMm: number, heightMm: number): PlateSize => ({
  ...{ id, name: id, widthMm, heightMm, offered: true, position: 1 },
});

/** A whole plate of a sitting, not kept, with nothing else said of it. */
export const made = (said: Partial<Made>): Made => ({
  id: `plate ${said.number ?? 0}`,
  number: 1,
  day: Temporal.PlainDate.from('2027-04-02'),
  sittingId: 'sitting',
  plateId: null,
  plateSizeId: 'whole',
  keeper: false,
  seconds: null,
  sky: null,
  lotId: null,
  bathId: null,
  result: '',
  note: '',
  names: '',
  seriesId: null,
  seriesNumber: null,
  who: 'Isaura Fenwick',
  struckAt: null,
  ...said,
});
