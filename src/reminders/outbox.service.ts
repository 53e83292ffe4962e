// The owner's look into the outbox: what went, what waits, what failed, and each letter as it reads.
import { Injectable } from '@nestjs/common';
import { Db } from '../platform/db/db.js';
import { AppError } from '../platform/problems.js';
import { Composing } from './composing.service.js';
import type { Letter } from './letters.schemas.js';
import { type MailRow, MailStore } from './mail.store.js';

@Injectable()
export class OutboxService {
  private readonly store = new MailStore();

  constructor(
    private readonly db: Db,
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
}
