// Sends one letter of the outbox: leases it, composes it, hands it to the mailer outside any transaction, notes how
// it went. A mail server's "not now", and a letter that could not be composed, is tried again by the queue; the
// server's "no", and a letter that failed as often as it may, is parked for the owner to see.
import { Injectable } from '@nestjs/common';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { Jobs } from '../platform/jobs/registry.js';
import { isRefusal, Mailer } from '../platform/mailer.js';
import { Composing } from './composing.service.js';
import { type MailRow, MailStore } from './mail.store.js';
import { Surprises } from './surprises.service.js';
import { triedOut } from './tries.calc.js';

const LEASE_SECONDS = 60;

@Injectable()
export class Sending {
  private readonly store = new MailStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly jobs: Jobs,
    private readonly mailer: Mailer,
    private readonly composing: Composing,
    private readonly surprises: Surprises,
  ) {}

  /**
   * Sends a letter unless it is done. One that is being sent is looked at again when its lease is over, since
   * whoever sends it may have died.
   * @throws what failed, when it is worth another try
   */
  async send(studioId: string, mailId: string): Promise<void> {
    const now = this.clock.now();
    const mail = await this.db.inStudio(studioId, async (tx) => {
      const leased = await this.store.lease(tx, mailId, now, now.add({ seconds: LEASE_SECONDS }));
      if (leased) return leased;
      const runAt = (await this.store.byId(tx, mailId))?.lease_until;
      if (runAt) await this.jobs.enqueue(tx, 'mail.send', { mailId }, { key: mailId, runAt });
      return null;
    });
    if (!mail) return;
    try {
      if (await this.db.inStudio(studioId, (tx) => this.surprises.holdBack(tx, mail))) return;
      const message = await this.db.inStudio(studioId, (tx) => this.composing.message(tx, mail));
      if (!message) return await this.settle(studioId, mail, 'dropped', 'Out of date before it was sent.');
      await this.mailer.send(message);
    } catch (error) {
      const ended = isRefusal(error) || triedOut(mail.attempts);
      await this.settle(studioId, mail, ended ? 'parked' : 'waiting', (error as Error).message);
      if (!ended) throw error;
      return;
    }
    await this.settle(studioId, mail, 'sent');
  }

  private settle(
    studioId: string,
    mail: MailRow,
    state: 'sent' | 'waiting' | 'parked' | 'dropped',
    error = '',
  ): Promise<void> {
    return this.db.inStudio(studioId, (tx) => this.store.settle(tx, mail, state, this.clock.now(), error));
  }
}
