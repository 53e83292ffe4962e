// The record on the back of a plate as the database keeps it, and what its forms send.
import { z } from 'zod';
import { textOf } from '../stock/preparation-forms.schemas.js';
import { type RecordField, WHATS } from './record.calc.js';

export const fieldRow = z.object({
  field_id: z.uuid(),
  position: z.number(),
  label: z.string(),
  what: z.enum(WHATS),
  archived: z.boolean(),
});

export const toField = (row: z.output<typeof fieldRow>): RecordField => ({
  id: row.field_id,
  position: row.position,
  label: row.label,
  what: row.what,
  archived: row.archived,
});

const oneLine = (most: number) => textOf(most).transform((text) => text.replace(/\s+/g, ' '));

export const fieldForm = z.object({
  label: oneLine(60).pipe(z.string().min(1, 'Please name the field.')),
  what: z.enum(WHATS, 'Please choose what it tells.'),
});

export const moveForm = z.object({ by: z.enum(['up', 'down']) });

/** Typed fields come beside it, as `field-ID`. */
export const recordForm = z.object({ names: oneLine(300) });
export const entryText = oneLine(300);
