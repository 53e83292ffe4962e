// Gift vouchers as the database keeps them, and what is typed into their forms.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { plainDateText } from '../daylight/daylight.schemas.js';
import { instant, plainDate } from '../platform/db/row.js';
import { orNothing, textOf } from '../stock/preparation-forms.schemas.js';

export const voucherRow = z.object({
  voucher_id: z.uuid(),
  number: z.string(),
  buyer: z.string(),
  buyer_reach: z.string(),
  for_whom: z.string(),
  worth: z.string(),
  valid_until: plainDate.nullable(),
  surprise: z.boolean(),
  told_at: instant.nullable(),
  sitting_id: z.uuid().nullable(),
  used_on: plainDate.nullable(),
});

export interface Voucher {
  id: string;
  /** As it stands on the paper, in capitals. */
  number: string;
  buyer: string;
  /** How the buyer is reached; '' where it is not known. */
  buyerReach: string;
  forWhom: string;
  /** A note, no sum that is reckoned with. */
  worth: string;
  /** The last day on which it counts; null for no end. */
  validUntil: Temporal.PlainDate | null;
  /** Nothing is told to whoever sits before the owner says so. */
  surprise: boolean;
  /** When the owner said so. */
  toldAt: Temporal.Instant | null;
  used: { sittingId: string; on: Temporal.PlainDate } | null;
}

export const toVoucher = (row: z.output<typeof voucherRow>): Voucher => ({
  id: row.voucher_id,
  number: row.number,
  buyer: row.buyer,
  buyerReach: row.buyer_reach,
  forWhom: row.for_whom,
  worth: row.worth,
  validUntil: row.valid_until,
  surprise: row.surprise,
  toldAt: row.told_at,
  used: row.sitting_id && row.used_on ? { sittingId: row.sitting_id, on: row.used_on } : null,
});

const yes = z
  .literal('yes')
  .optional()
  .transform((sent) => sent === 'yes');

const number = textOf(20)
  .transform((text) => text.replace(/\s+/g, ' ').toUpperCase())
  .pipe(z.string().min(1, 'Please give the number on the voucher.'));
const line = (most: number) => textOf(most).transform((text) => text.replace(/\s+/g, ' '));

export const voucherForm = z.object({
  number,
  buyer: line(200).pipe(z.string().min(1, 'Please say who bought it.')),
  buyerReach: line(254),
  forWhom: line(200),
  worth: line(200),
  validUntil: orNothing(plainDateText),
  surprise: yes,
});

export const useForm = z.object({
  number,
  request: z.uuid('Please choose the request.'),
  /** Honour it although it has run out. */
  anyway: yes,
});
