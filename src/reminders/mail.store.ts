// SQL of the outbox. A row is leased before it is sent, so that two workers never send it at once.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Tx } from '../platform/db/tx.js';
import type { ByHand, LetterKind } from './letters.schemas.js';
import { type MailRow, mailRow } from './mail.schemas.js';

export type { MailRow };

/** Letters to whoever asked, or to the studio to be passed on to them. */
const TO_THEM = `kind <> 'sign-in' and kind not like 'owner:%'`;

export interface NewMail {
  id: string;
  aboutId: string;
  sequence: number;
  kind: LetterKind;
  recipient: string;
  recipientName: string;
  snapshot: unknown;
  messageId: string;
  byHand: ByHand;
  telephoneNow: boolean;
}

export class MailStore {
  /** Puts a letter in the outbox; false when the same letter is there already. */
  async insert(tx: Tx, mail: NewMail, at: Temporal.Instant): Promise<boolean> {
    const added = await tx.run(
      `insert into mail (studio_id, mail_id, about_id, sequence, kind, recipient, recipient_name, snapshot, state,
         message_id, created_at, by_hand, telephone_now)
       values ($1, $2, $3, $4, $5, $6, $7, $8, 'waiting', $9, $10, $11, $12) on conflict on constraint mail_once do nothing`,
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
        mail.byHand,
        mail.telephoneNow,
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
    state: 'sent' | 'waiting' | 'parked' | 'dropped' | 'held',
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

  /** Lets a leased letter wait as if it had not been tried. */
  async postpone(tx: Tx, attempt: Pick<MailRow, 'mail_id' | 'attempts'>): Promise<void> {
    await tx.run(
      `update mail set state = 'waiting', lease_until = null, attempts = attempts - 1
       where studio_id = $1 and mail_id = $2 and state = 'sending' and attempts = $3`,
      [tx.studioId, attempt.mail_id, attempt.attempts],
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

  /** Every letter about something, the oldest first. */
  async about(tx: Tx, aboutId: string): Promise<MailRow[]> {
    return tx.many(
      mailRow,
      'select * from mail where studio_id = $1 and about_id = $2 order by created_at, mail_id',
      [tx.studioId, aboutId],
    );
  }

  async byId(tx: Tx, id: string): Promise<MailRow | null> {
    return tx.maybe(mailRow, 'select * from mail where studio_id = $1 and mail_id = $2', [tx.studioId, id]);
  }

  /** Letters that mail does not bring, or too late, and that nobody has told; those dropped are out of date. */
  async untold(tx: Tx): Promise<MailRow[]> {
    return tx.many(
      mailRow,
      `select * from mail where studio_id = $1 and told_at is null and state <> 'dropped' and ${TO_THEM}
         and (by_hand <> '' or telephone_now or state = 'parked') order by created_at, mail_id`,
      [tx.studioId],
    );
  }

  /** The sequence of the newest letter to them about each of some sittings. */
  async newest(tx: Tx, aboutIds: string[]): Promise<Map<string, number>> {
    const rows = await tx.many(
      z.object({ about_id: z.uuid(), newest: z.number() }),
      `select about_id, max(sequence) as newest from mail
       where studio_id = $1 and about_id = any($2::uuid[]) and state <> 'dropped' and ${TO_THEM} group by about_id`,
      [tx.studioId, aboutIds],
    );
    return new Map(rows.map((row) => [row.about_id, row.newest]));
  }

  /** What was told by hand since an instant, the latest first. */
  async told(tx: Tx, since: Temporal.Instant): Promise<MailRow[]> {
    return tx.many(
      mailRow,
      'select * from mail where studio_id = $1 and told_at >= $2 order by told_at desc, mail_id',
      [tx.studioId, since],
    );
  }

  /** Ticks letters to a sitting's contact as told; those ticked before stay as they are. @returns how many */
  async tell(tx: Tx, aboutId: string, ids: string[], at: Temporal.Instant, who: string): Promise<number> {
    return tx.run(
      `update mail set told_at = $4, told_by = $5
       where studio_id = $1 and about_id = $2 and mail_id = any($3::uuid[]) and told_at is null and ${TO_THEM}`,
      [tx.studioId, aboutId, ids, at, who],
    );
  }

  /** Takes ticks back. @returns how many */
  async untell(tx: Tx, aboutId: string, ids: string[]): Promise<number> {
    return tx.run(
      `update mail set told_at = null, told_by = ''
       where studio_id = $1 and about_id = $2 and mail_id = any($3::uuid[]) and told_at is not null`,
      [tx.studioId, aboutId, ids],
    );
  }

  /** Letters that wait for nothing any more: refused by the mail server, about no sitting, or to the studio. */
  async parkedAtHome(tx: Tx): Promise<MailRow[]> {
    return tx.many(
      mailRow,
      `select * from mail where studio_id = $1 and state = 'parked' and not (${TO_THEM} and by_hand = '')
       order by created_at, mail_id`,
      [tx.studioId],
    );
  }

  /** The letters of one turn of a sitting, locked, in one order. */
  async lockTurn(tx: Tx, aboutId: string, sequence: number): Promise<MailRow[]> {
    return tx.many(
      mailRow,
      `select * from mail where studio_id = $1 and about_id = $2 and sequence = $3 order by mail_id for no key update`,
      [tx.studioId, aboutId, sequence],
    );
  }

  /** Letters about a sitting that a surprise holds back, locked, the newest last. */
  async lockHeld(tx: Tx, aboutId: string): Promise<MailRow[]> {
    return tx.many(
      mailRow,
      `select * from mail where studio_id = $1 and about_id = $2 and state = 'held'
       order by sequence, created_at, mail_id for no key update`,
      [tx.studioId, aboutId],
    );
  }

  async heldCounts(tx: Tx, aboutIds: string[]): Promise<Map<string, number>> {
    const rows = await tx.many(
      z.object({ about_id: z.uuid(), held: z.number() }),
      `select about_id, count(*)::int as held from mail
       where studio_id = $1 and about_id = any($2::uuid[]) and state = 'held' group by about_id`,
      [tx.studioId, aboutIds],
    );
    return new Map(rows.map((row) => [row.about_id, row.held]));
  }

  /** Lets a letter that was held back wait to be sent, as one of a kind. */
  async wake(tx: Tx, id: string, kind: LetterKind): Promise<void> {
    await tx.run(
      `update mail set state = 'waiting', attempts = 0, last_error = '', kind = $3
       where studio_id = $1 and mail_id = $2 and state = 'held'`,
      [tx.studioId, id, kind],
    );
  }

  async drop(tx: Tx, ids: string[], why: string): Promise<void> {
    await tx.run(
      `update mail set state = 'dropped', lease_until = null, last_error = $3
       where studio_id = $1 and mail_id = any($2::uuid[])`,
      [tx.studioId, ids, why],
    );
  }
}
