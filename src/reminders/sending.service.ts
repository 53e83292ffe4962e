// Sends one letter of the outbox: leases it, hands it to the mailer outside any transaction, notes how it
// went. A mail server's "not now" is tried again by the queue; its "no" is parked for the owner to see.
import { Injectable } from '@nestjs/common';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { Mailer } from '../platform/mailer.js';
import { Composing } from './composing.service.js';
import { type MailRow, MailStore } from './mail.store.js';

const LEASE_SECONDS = 60;

@Injectable()
export class Sending {
  private readonly store = new MailStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly mailer: Mailer,
    private readonly composing: Composing,
  ) {}

  /**
   * Sends a letter unless it is done or being sent.
   * @throws the mail server's or connection's failure when it is worth another try
   */
  async send(studioId: string, mailId: string): Promise<void> {
    const now = this.clock.now();
    const leased = await this.db.inStudio(studioId, async (tx) => {
      const mail = await this.store.lease(tx, mailId, now, now.add({ seconds: LEASE_SECONDS }));
      return mail && { mail, message: await this.composing.message(tx, mail) };
    });
    if (!leased) return;
    if (!leased.message)
      return this.settle(studioId, leased.mail, 'dropped', 'Out of date before it was sent.');
    try {
      await this.mailer.send(leased.message);
    } catch (error) {
      const refused = ((error as { responseCode?: number }).responseCode ?? 0) >= 500;
      await this.settle(studioId, leased.mail, refused ? 'parked' : 'waiting', (error as Error).message);
      if (!refused) throw error;
      return;
    }
    await this.settle(studioId, leased.mail, 'sent');
  }

  private settle(
    studioId: string,
    mail: MailRow,
    state: 'sent' | 'waiting' | 'parked' | 'dropped',
    error = '',
  ): Promise<void> {
    return this.db.inStudio(studioId, (tx) =>
      this.store.settle(tx, mail.mail_id, state, this.clock.now(), error),
    );
  }
}
