// Sends one letter of the outbox: leases and composes it in one transaction, hands it to the mailer outside any, notes how
// it went. A mail server's "not now", and a letter that could not be composed, is tried again by the queue; the
// server's "no", and a letter that failed as often as it may, is parked for the owner to see. A letter whose turn at the
// mail server did not come is looked at again as if it had not been tried; a reminder that is late waits for the morning
// where its reader is, or is dropped.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { Shared } from '../platform/db/shared.js';
import type { Tx } from '../platform/db/tx.js';
import { Jobs } from '../platform/jobs/registry.js';
import { isRefusal, Mailer, type Message } from '../platform/mailer.js';
import { TurnTooLate } from '../platform/turns.js';
import { Composing } from './composing.service.js';
import { isReminder, isToStudents } from './letters.schemas.js';
import { type MailRow, MailStore } from './mail.store.js';
import { Reminding } from './reminding.service.js';
import { Surprises } from './surprises.service.js';
import { triedOut } from './tries.calc.js';

const LEASE_SECONDS = 60;
/** An attempt is cut off well before its lease ends, so that there are never two of a letter at once. */
const ATTEMPT_SECONDS = 45;

/** A letter that is leased, and what is to be sent; nothing once it is settled that it is not sent now, or never. */
interface Attempt {
  mail: MailRow;
  message: Message | null;
}

/** How an attempt ended. */
interface End {
  mail: MailRow;
  state: 'sent' | 'waiting' | 'parked' | 'dropped';
  why?: string;
}

@Injectable()
export class Sending {
  private readonly store = new MailStore();
  private readonly attempts: Shared<string, Attempt | null>;
  private readonly leases: Shared<string, MailRow | null>;
  private readonly ends: Shared<End, void>;
  private readonly notNow: Shared<MailRow, void>;

  constructor(
    db: Db,
    private readonly clock: Clock,
    private readonly jobs: Jobs,
    private readonly mailer: Mailer,
    private readonly composing: Composing,
    private readonly surprises: Surprises,
    private readonly reminding: Reminding,
  ) {
    this.attempts = new Shared(
      db,
      (tx, id) => this.begin(tx, id),
      (id) => id,
    );
    this.leases = new Shared(
      db,
      (tx, id) => this.lease(tx, id),
      (id) => id,
    );
    this.ends = new Shared(
      db,
      (tx, { mail, state, why }) => this.settle(tx, mail, state, why),
      ({ mail }) => mail.mail_id,
    );
    this.notNow = new Shared(
      db,
      (tx, mail) => this.postpone(tx, mail, this.clock.now()),
      (mail) => mail.mail_id,
    );
  }

  /**
   * Sends a letter unless it is done. One that is being sent is looked at again when its lease is over, since
   * whoever sends it may have died. Letters that are sent at once share their transactions.
   * @throws what failed, when it is worth another try
   */
  async send(studioId: string, mailId: string): Promise<void> {
    const attempt = AbortSignal.timeout(ATTEMPT_SECONDS * 1_000);
    let begun: Attempt | null = null;
    try {
      begun = await this.attempts.do(studioId, mailId);
      if (!begun?.message) return;
      attempt.throwIfAborted();
      await this.mailer.send(begun.message, attempt);
    } catch (error) {
      // one that could not be composed is not leased either: that it was tried is noted all the same
      const mail = begun?.mail ?? (await this.leases.do(studioId, mailId));
      if (!mail) return; // another has it by now
      if (error instanceof TurnTooLate) return this.notNow.do(studioId, mail);
      const ended = isRefusal(error) || triedOut(mail.attempts);
      const why = attempt.aborted
        ? `It took more than ${ATTEMPT_SECONDS} seconds.`
        : (error as Error).message;
      await this.ends.do(studioId, { mail, state: ended ? 'parked' : 'waiting', why });
      if (!ended) throw error;
      return;
    }
    await this.ends.do(studioId, { mail: begun.mail, state: 'sent' });
  }

  /** Null for one that is done, or that somebody else is sending. */
  private async begin(tx: Tx, mailId: string): Promise<Attempt | null> {
    const mail = await this.lease(tx, mailId);
    return mail && { mail, message: await this.messageToSend(tx, mail) };
  }

  private async lease(tx: Tx, mailId: string): Promise<MailRow | null> {
    const now = this.clock.now();
    const leased = await this.store.lease(tx, mailId, now, now.add({ seconds: LEASE_SECONDS }));
    if (leased) return leased;
    const runAt = (await this.store.byId(tx, mailId))?.lease_until;
    if (runAt) await this.jobs.enqueue(tx, 'mail.send', { mailId }, { key: mailId, runAt });
    return null;
  }

  /** A leased letter's message; null once it is settled that it is not sent now, or never. */
  private async messageToSend(tx: Tx, mail: MailRow): Promise<Message | null> {
    if (await this.surprises.holdBack(tx, mail)) return null;
    const when = reminds(mail) ? await this.reminding.mayGo(tx, mail) : 'now';
    const message = when === 'now' ? await this.composing.message(tx, mail) : null;
    if (message) return message;
    if (when === 'now' || when === 'never')
      await this.settle(tx, mail, 'dropped', 'Out of date before it was sent.');
    else await this.postpone(tx, mail, when);
    return null;
  }

  /** It is looked at again then, as if it had not been tried. */
  private async postpone(tx: Tx, mail: MailRow, runAt: Temporal.Instant): Promise<void> {
    await this.store.postpone(tx, mail);
    const { mail_id: mailId } = mail;
    await this.jobs.enqueue(tx, 'mail.send', { mailId }, { key: mailId, runAt });
  }

  private settle(tx: Tx, mail: MailRow, state: End['state'], why = ''): Promise<void> {
    return this.store.settle(tx, mail, state, this.clock.now(), why);
  }
}

const reminds = ({ kind }: MailRow) => isReminder(kind) || (isToStudents(kind) && kind !== 'teaching');
