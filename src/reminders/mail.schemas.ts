// A letter in the outbox.
import { z } from 'zod';
import { instant } from '../platform/db/row.js';
import { BY_HAND, LETTER_KINDS } from './letters.schemas.js';

export const mailRow = z.object({
  mail_id: z.uuid(),
  about_id: z.uuid(),
  sequence: z.number(),
  kind: z.enum(LETTER_KINDS),
  recipient: z.string(),
  recipient_name: z.string(),
  snapshot: z.unknown(),
  state: z.enum(['waiting', 'sending', 'sent', 'parked', 'dropped']),
  message_id: z.string(),
  attempts: z.number(),
  lease_until: instant.nullable(),
  last_error: z.string(),
  created_at: instant,
  sent_at: instant.nullable(),
  by_hand: z.enum(BY_HAND),
  telephone_now: z.boolean(),
  told_at: instant.nullable(),
  told_by: z.string(),
});
export type MailRow = z.output<typeof mailRow>;
