// Puts one letter in the outbox and has it sent; the same letter twice is one.
import { Injectable } from '@nestjs/common';
import { Clock, Random } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import type { Tx } from '../platform/db/tx.js';
import { Jobs } from '../platform/jobs/registry.js';
import type { ByHand, LetterKind } from './letters.schemas.js';
import { MailStore } from './mail.store.js';
import { WordingsService } from './wordings.service.js';

@Injectable()
export class Posting {
  private readonly store = new MailStore();

  constructor(
    private readonly config: Config,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly jobs: Jobs,
    private readonly wordings: WordingsService,
  ) {}

  /** @returns the letter's id; null where the same letter is in the outbox already */
  async post(
    tx: Tx,
    aboutId: string,
    sequence: number,
    kind: LetterKind,
    to: { name: string; email: string },
    snapshot: unknown,
    hand: { byHand: ByHand; telephoneNow: boolean } = { byHand: '', telephoneNow: false },
  ): Promise<string | null> {
    const wording = await this.wordings.attached(tx, kind, snapshot);
    const id = this.random.id();
    const messageId = `<${id}@${new URL(this.config.publicUrl).hostname}>`;
    const mail = {
      id,
      aboutId,
      sequence,
      kind,
      recipient: to.email,
      recipientName: to.name,
      snapshot: { ...(snapshot as object), ...wording },
      messageId,
      ...hand,
    };
    if (!(await this.store.insert(tx, mail, this.clock.now()))) return null;
    await this.jobs.enqueue(tx, 'mail.send', { mailId: id }, { key: id });
    return id;
  }
}
