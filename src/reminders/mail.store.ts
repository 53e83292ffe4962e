// SQL of the outbox. A row is leased before it is sent, so that two workers never send it at once.
import type { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { TogetherIn } from '../platform/db/together-in.js';
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

interface Asked {
  id: string;
  now: Temporal.Instant;
  until: Temporal.Instant;
}
interface Ended extends Pick<MailRow, 'mail_id' | 'attempts'> {
  state: string;
  at: Temporal.Instant;
  error: string;
}

export class MailStore {
  private readonly posted = new TogetherIn<NewMail & { at: Temporal.Instant }, boolean>(async (tx, all) => {
    const rows = await tx.many(
      z.object({ mail_id: z.uuid() }),
      `insert into mail (studio_id, mail_id, about_id, sequence, kind, recipient, recipient_name, snapshot, state,
         message_id, created_at, by_hand, telephone_now)
       select $1, mail_id, about_id, sequence, kind, recipient, recipient_name, snapshot, 'waiting', message_id, at,
         by_hand, telephone_now
       from unnest($2::uuid[], $3::uuid[], $4::int[], $5::text[], $6::text[], $7::text[], $8::jsonb[], $9::text[],
         $10::timestamptz[], $11::text[], $12::boolean[]) as m (mail_id, about_id, sequence, kind, recipient, recipient_name,
         snapshot, message_id, at, by_hand, telephone_now)
       on conflict on constraint mail_once do nothing returning mail_id`,
      [
        tx.studioId,
        all.map((mail) => mail.id),
        all.map((mail) => mail.aboutId),
        all.map((mail) => mail.sequence),
        all.map((mail) => mail.kind),
        all.map((mail) => mail.recipient),
        all.map((mail) => mail.recipientName),
        all.map((mail) => JSON.stringify(mail.snapshot)),
        all.map((mail) => mail.messageId),
        all.map((mail) => mail.at),
        all.map((mail) => mail.byHand),
        all.map((mail) => mail.telephoneNow),
      ],
    );
    const entered = new Set(rows.map((row) => row.mail_id));
    return all.map(({ id }) => entered.has(id));
  });
  private readonly leases = new TogetherIn<Asked, MailRow | null>(async (tx, asked) => {
    const { now, until } = asked[0] as Asked;
    const rows = await tx.many(
      mailRow,
      `update mail set state = 'sending', lease_until = $4, attempts = attempts + 1
       where studio_id = $1 and mail_id = any($2::uuid[])
         and (state = 'waiting' or (state = 'sending' and lease_until <= $3)) returning *`,
      [tx.studioId, asked.map((one) => one.id), now, until],
    );
    return asked.map(({ id }) => rows.find((row) => row.mail_id === id) ?? null);
  });
  private readonly ends = new TogetherIn<Ended, void>(async (tx, all) => {
    await tx.run(
      `update mail m set state = e.state, lease_until = null, last_error = e.error,
         sent_at = case when e.state = 'sent' then e.at else m.sent_at end
       from unnest($2::uuid[], $3::int[], $4::text[], $5::timestamptz[], $6::text[]) as e (mail_id, attempts, state, at, error)
       where m.studio_id = $1 and m.mail_id = e.mail_id and m.state <> 'sent'
         and (e.state = 'sent' or (m.state = 'sending' and m.attempts = e.attempts))`,
      [
        tx.studioId,
        all.map((one) => one.mail_id),
        all.map((one) => one.attempts),
        all.map((one) => one.state),
        all.map((one) => one.at),
        all.map((one) => one.error.slice(0, 500)),
      ],
    );
    return all.map(() => undefined);
  });
  private readonly firsts = new TogetherIn<{ aboutId: string; recipient: string }, string | null>(
    async (tx, asked) => {
      const rows = await tx.many(
        z.object({ about_id: z.uuid(), recipient: z.string(), message_id: z.string() }),
        `select distinct on (about_id, recipient) about_id, recipient, message_id from mail
         where studio_id = $1 and about_id = any($2::uuid[]) and recipient = any($3::text[])
         order by about_id, recipient, created_at, mail_id`,
        [tx.studioId, asked.map((one) => one.aboutId), asked.map((one) => one.recipient)],
      );
      return asked.map(
        ({ aboutId, recipient }) =>
          rows.find((row) => row.about_id === aboutId && row.recipient === recipient)?.message_id ?? null,
      );
    },
  );

  /** Puts a letter in the outbox; false when the same letter is there already. */
  insert(tx: Tx, mail: NewMail, at: Temporal.Instant): Promise<boolean> {
    return this.posted.ask(tx, { ...mail, at });
  }

  /** Leases a letter for sending; null when it is done or somebody else is sending it just now. */
  lease(tx: Tx, id: string, now: Temporal.Instant, until: Temporal.Instant): Promise<MailRow | null> {
    return this.leases.ask(tx, { id, now, until });
  }

  /**
   * Notes how an attempt went. That it was sent counts whoever says it; anything else only from whoever
   * holds the lease, so that one who comes back late does not undo what others did meanwhile.
   */
  settle(
    tx: Tx,
    attempt: Pick<MailRow, 'mail_id' | 'attempts'>,
    state: 'sent' | 'waiting' | 'parked' | 'dropped' | 'held',
    at: Temporal.Instant,
    error = '',
  ): Promise<void> {
    return this.ends.ask(tx, { ...attempt, state, at, error });
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

  /** The Message-ID of the first letter about something to a person: later ones thread under it. */
  firstMessageId(tx: Tx, aboutId: string, recipient: string): Promise<string | null> {
    return this.firsts.ask(tx, { aboutId, recipient });
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

  /** Every letter about something, locked, in one order. */
  async lockAbout(tx: Tx, aboutId: string): Promise<MailRow[]> {
    return tx.many(
      mailRow,
      'select * from mail where studio_id = $1 and about_id = $2 order by mail_id for no key update',
      [tx.studioId, aboutId],
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
