// SQL of the outbox. A row is leased before it is sent, so that two workers never send it at once.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { instant } from '../platform/db/row.js';
import type { Tx } from '../platform/db/tx.js';
import { LETTER_KINDS, type LetterKind } from './letters.schemas.js';

const mailRow = z.object({
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
});
export type MailRow = z.output<typeof mailRow>;

export interface NewMail {
  id: string;
  aboutId: string;
  sequence: number;
  kind: LetterKind;
  recipient: string;
  recipientName: string;
  snapshot: unknown;
  messageId: string;
}

export class MailStore {
  /** Puts a letter in the outbox; false when the same letter is there already. */
  async insert(tx: Tx, mail: NewMail, at: Temporal.Instant): Promise<boolean> {
    const added = await tx.run(
      `insert into mail (studio_id, mail_id, about_id, sequence, kind, recipient, recipient_name, snapshot, state,
         message_id, created_at)
       values ($1, $2, $3, $4, $5, $6, $7, $8, 'waiting', $9, $10) on conflict on constraint mail_once do nothing`,
      [
        tx.studioId,
        mail.id,
        mail.aboutId,
        mail.sequence,
        mail.kind,
        mail.recipient,
        mail.recipientName,
        JSON.stringify(mail.snapshot),
        mail.messageId,
        at,
      ],
    );
    return added === 1;
  }

  /** Leases a letter for sending; null when it is done or somebody else is sending it just now. */
  async lease(tx: Tx, id: string, now: Temporal.Instant, until: Temporal.Instant): Promise<MailRow | null> {
    return tx.maybe(
      mailRow,
      `update mail set state = 'sending', lease_until = $4, attempts = attempts + 1
       where studio_id = $1 and mail_id = $2
         and (state = 'waiting' or (state = 'sending' and lease_until <= $3)) returning *`,
      [tx.studioId, id, now, until],
    );
  }

  /**
   * Notes how an attempt went. That it was sent counts whoever says it; anything else only from whoever
   * holds the lease, so that one who comes back late does not undo what others did meanwhile.
   */
  async settle(
    tx: Tx,
    attempt: Pick<MailRow, 'mail_id' | 'attempts'>,
    state: 'sent' | 'waiting' | 'parked' | 'dropped',
    at: Temporal.Instant,
    error = '',
  ): Promise<void> {
    await tx.run(
      `update mail set state = $3, lease_until = null, last_error = $5,
         sent_at = case when $3 = 'sent' then $4::timestamptz else sent_at end
       where studio_id = $1 and mail_id = $2 and state <> 'sent'
         and ($3 = 'sent' or (state = 'sending' and attempts = $6))`,
      [tx.studioId, attempt.mail_id, state, at, error.slice(0, 500), attempt.attempts],
    );
  }

  /** Lets a parked letter wait to be sent once more; false when it is not parked. */
  async unpark(tx: Tx, id: string): Promise<boolean> {
    const unparked = await tx.run(
      `update mail set state = 'waiting' where studio_id = $1 and mail_id = $2 and state = 'parked'`,
      [tx.studioId, id],
    );
    return unparked === 1;
  }

  /** The first letter about something to a person: later ones thread under it. */
  async firstMessageId(tx: Tx, aboutId: string, recipient: string): Promise<string | null> {
    const rows = await tx.many(
      z.object({ message_id: z.string() }),
      `select message_id from mail where studio_id = $1 and about_id = $2 and recipient = $3
       order by created_at, mail_id limit 1`,
      [tx.studioId, aboutId, recipient],
    );
    return rows[0]?.message_id ?? null;
  }

  async latest(tx: Tx, most: number): Promise<MailRow[]> {
    return tx.many(
      mailRow,
      'select * from mail where studio_id = $1 order by created_at desc, mail_id limit $2',
      [tx.studioId, most],
    );
  }

  async byId(tx: Tx, id: string): Promise<MailRow | null> {
    return tx.maybe(mailRow, 'select * from mail where studio_id = $1 and mail_id = $2', [tx.studioId, id]);
  }
}
