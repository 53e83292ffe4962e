// The owner's look into the outbox: what went, what waits, what failed, each letter as it reads, and sending a
// parked one again.
import { Injectable } from '@nestjs/common';
import type { Account } from '../accounts/accounts.schemas.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import { Jobs } from '../platform/jobs/registry.js';
import { AppError } from '../platform/problems.js';
import { Composing } from './composing.service.js';
import { aboutKindOf, type Letter } from './letters.schemas.js';
import { type MailRow, MailStore } from './mail.store.js';

@Injectable()
export class OutboxService {
  private readonly store = new MailStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly jobs: Jobs,
    private readonly composing: Composing,
  ) {}

  latest(studioId: string, most = 200): Promise<MailRow[]> {
    return this.db.inStudio(studioId, (tx) => this.store.latest(tx, most));
  }

  /** A letter with its words; the words are null for a sign-in link that has run out. */
  read(studioId: string, mailId: string): Promise<{ mail: MailRow; letter: Letter | null }> {
    return this.db.inStudio(studioId, async (tx) => {
      const mail = await this.store.byId(tx, mailId);
      if (!mail) throw new AppError('not_found', 'This letter is not in the outbox.');
      return { mail, letter: await this.composing.letter(tx, mail) };
    });
  }

  /**
   * Sends a parked letter again; it has as many tries as it had at first.
   * @throws AppError not_found, wrong_state for one that is not parked, and for a sign-in link, which runs out
   */
  async sendAgain(studioId: string, who: Account, mailId: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const mail = await this.store.byId(tx, mailId);
      if (!mail) throw new AppError('not_found', 'This letter is not in the outbox.');
      if (mail.kind === 'sign-in' || !(await this.store.unpark(tx, mailId)))
        throw new AppError('wrong_state', 'This letter does not wait to be sent again.');
      await this.jobs.enqueue(tx, 'mail.send', { mailId }, { key: mailId });
      const about = { aboutKind: aboutKindOf(mail.kind), aboutId: mail.about_id };
      await recordHistory(tx, this.clock, { who: who.name, ...about, event: 'send again', note: mail.kind });
    });
  }
}
