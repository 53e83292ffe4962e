// Surprises: letters about a sitting on which a surprise voucher was used. They stay in the outbox until the owner says
// that they may know; then the newest goes, and what it makes out of date does not. Letters to the owner go as ever.
import { Injectable } from '@nestjs/common';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { TogetherIn } from '../platform/db/together-in.js';
import type { Tx } from '../platform/db/tx.js';
import { Jobs } from '../platform/jobs/registry.js';
import { VouchersService } from '../vouchers/vouchers.service.js';
import { type MailRow, MailStore } from './mail.store.js';

const isToThem = ({ kind }: MailRow): boolean => kind !== 'sign-in' && !kind.startsWith('owner:');

@Injectable()
export class Surprises {
  private readonly store = new MailStore();
  private readonly held = new TogetherIn<string, boolean>(async (tx, ids) => {
    const held = await this.vouchers.heldAmong(tx, ids);
    return ids.map((id) => held.has(id));
  });

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly jobs: Jobs,
    private readonly vouchers: VouchersService,
  ) {}

  /** Holds a leased letter back where it would spoil a surprise. @returns whether it did */
  async holdBack(tx: Tx, mail: MailRow): Promise<boolean> {
    if (!isToThem(mail) || !(await this.held.ask(tx, mail.about_id))) return false;
    await this.store.settle(tx, mail, 'held', this.clock.now(), 'Held back: a voucher is a surprise.');
    return true;
  }

  /** Whether nothing may be told of a sitting yet. */
  holds(tx: Tx, sittingId: string): Promise<boolean> {
    return this.held.ask(tx, sittingId);
  }

  /** Without the letters that would spoil a surprise, so that nobody is asked to tell them by hand either. */
  async without(tx: Tx, mails: MailRow[]): Promise<MailRow[]> {
    const held = await this.vouchers.heldAmong(tx, [...new Set(mails.map((one) => one.about_id))]);
    return mails.filter((one) => !held.has(one.about_id));
  }

  /** How many letters are held back about each of some sittings. */
  heldCounts(studioId: string, sittingIds: string[]): Promise<Map<string, number>> {
    return this.db.inStudio(studioId, (tx) => this.store.heldCounts(tx, sittingIds));
  }

  /** A surprise is over: lets the newest letter held back go. Nothing where another still holds; may come twice. */
  async release(tx: Tx, sittingId: string): Promise<void> {
    if ((await this.vouchers.heldAmong(tx, [sittingId])).has(sittingId)) return;
    const held = await this.store.lockHeld(tx, sittingId);
    const newest = held.at(-1);
    if (!newest) return;
    const older = held.filter((one) => one.sequence < newest.sequence);
    await this.store.drop(
      tx,
      older.map((one) => one.mail_id),
      'Held back as a surprise until a later letter said more.',
    );
    for (const { mail_id: mailId, kind } of held.filter((one) => one.sequence === newest.sequence)) {
      // whoever never heard of the first place is told of theirs, not that it was moved
      const first = kind === 'moved' && older.some((one) => one.kind === 'confirmed');
      await this.store.wake(tx, mailId, first ? 'confirmed' : kind);
      await this.jobs.enqueue(tx, 'mail.send', { mailId }, { key: mailId });
    }
  }
}
