// Erasing a person: everything personal goes, and what the books need stays true: stock, counts, running numbers, the
// facts of history. One way for the owner, for the rules of keeping, and for a copy that is put back.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { LinksService } from '../accounts/links.service.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { StudiosService } from '../studios/studios.service.js';
import { ErasureStore } from './erasure.store.js';
import { ErasureLog } from './erasure-log.service.js';
import type { ErasureLine, ErasurePreview } from './privacy.schemas.js';
import { PrivacyStore } from './privacy.store.js';
import { needlesOf, ROWS_ABOUT, tagOf } from './tags.calc.js';

@Injectable()
export class ErasureService {
  private readonly store = new PrivacyStore();
  private readonly erasing = new ErasureStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly links: LinksService,
    private readonly studios: StudiosService,
    private readonly log: ErasureLog,
  ) {}

  /** What erasing somebody would come to. @throws AppError not_found */
  preview(studioId: string, contactId: string): Promise<ErasurePreview> {
    return this.db.inStudio(studioId, async (tx) => {
      const contact = await this.locked(tx, contactId);
      const ids = await this.store.ids(tx, contactId);
      const columns = await this.store.columns(tx);
      const goes: ErasurePreview['goes'] = [];
      for (const table of Object.keys(ROWS_ABOUT)) {
        const touched = columns.some((one) => {
          const tag = one.table === table ? tagOf(one.comment) : null;
          return tag?.of === 'person' && tag.done !== 'kept';
        });
        const rows = touched ? await this.store.count(tx, table, ids) : 0;
        if (rows > 0) goes.push({ table, rows });
      }
      const standing = await this.store.standing(tx, contactId, this.clock.now());
      const { name, erased_at: erasedAt, erase_asked_at: askedAt } = contact;
      return { contactId, name, erasedAt, askedAt, standing, goes };
    });
  }

  /**
   * Erases somebody, at the owner's word. Once more is no mistake.
   * @throws AppError not_found; wrong_state while a place of theirs stands or is offered
   */
  async erase(studioId: string, who: { name: string }, contactId: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      await this.locked(tx, contactId);
      if ((await this.store.standing(tx, contactId, this.clock.now())) > 0)
        throw new AppError(
          'wrong_state',
          'A place of theirs lies ahead. Please give it back or call it off first.',
        );
      await this.eraseNow(tx, contactId, who.name);
      await this.studios.raiseCalendarCounter(tx);
    });
    await this.afterwards(studioId);
  }

  /** The same inside an act; whether a place stands is the caller's question. The calendar counter is the caller's too. */
  async eraseNow(
    tx: Tx,
    contactId: string,
    who: string,
    at: Temporal.Instant = this.clock.now(),
  ): Promise<void> {
    const contact = await this.locked(tx, contactId);
    if (contact.erased_at) return;
    const columns = await this.store.columns(tx);
    const ids = await this.store.ids(tx, contactId);
    const person = await this.store.needles(tx, contactId);
    const needles = needlesOf(person);
    await this.erasing.deleteNaming(tx, [...ids, ...needlesOf({ names: [], reached: person.reached })]);
    await this.erasing.end(tx, ids, at);
    await this.erasing.erase(tx, columns, ids, at);
    await this.erasing.eraseLetters(tx, columns, [...ids, ...needles], at);
    await this.erasing.eraseWords(tx, columns, needles);
    await this.erasing.forgetErrors(tx);
    await this.erasing.note(tx, contactId, at, who);
    const about = { aboutKind: 'contact', aboutId: contactId, event: 'erase' };
    await recordHistory(tx, this.clock, { who, ...about });
  }

  /** What cannot be in the transaction, done until it is: the log's file, and files of letters. Bears running twice. */
  async afterwards(studioId: string): Promise<void> {
    const found = await this.db.inStudio(studioId, async (tx) => ({
      lines: (await this.erasing.erased(tx)).map(toLine),
      messageIds: await this.erasing.messageIds(tx),
    }));
    await this.log.add(studioId, found.lines);
    await this.log.forgetLetters(found.messageIds);
  }

  /**
   * Erases in a copy that was just put back whoever was erased since it was made, by the log of this installation and the
   * copy's own. A place that stands in the copy stays, without a name: the owner gives it back.
   * @returns how many
   */
  async again(tx: Tx, lines: ErasureLine[]): Promise<number> {
    const own = (await this.erasing.erased(tx)).map(toLine);
    const all = new Map([...lines, ...own].map((line) => [line.contact, line]));
    const present = await this.store.present(tx, [...all.keys()]);
    for (const contactId of present) await this.eraseNow(tx, contactId, all.get(contactId)?.who ?? '');
    for (const { contact, who } of all.values()) await this.erasing.note(tx, contact, this.clock.now(), who);
    if (present.length > 0) await this.studios.raiseCalendarCounter(tx);
    return present.length;
  }

  /** They ask for it on their own page; the owner does it. @throws AppError not_found, link_expired */
  async ask(studioId: string, token: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const contactId = await this.behind(tx, token);
      await this.store.askToBeErased(tx, contactId, this.clock.now());
      const about = { aboutKind: 'contact', aboutId: contactId, event: 'erase_asked' };
      await recordHistory(tx, this.clock, { who: 'contact', ...about });
    });
  }

  /** Whether they have asked for it. @throws AppError not_found, link_expired */
  hasAsked(studioId: string, token: string): Promise<boolean> {
    return this.db.inStudio(studioId, async (tx) => {
      const contactId = await this.behind(tx, token);
      return (await this.store.asked(tx)).some((one) => one.contact_id === contactId);
    });
  }

  /** Whose page a place link opens: of a sitting or of a sign-up. @throws AppError not_found, link_expired */
  async behind(tx: Tx, token: string): Promise<string> {
    const { subjectId } = await this.links.open(tx, 'place', token);
    const contactId = await this.store.contactOf(tx, subjectId);
    if (contactId === null) throw new AppError('not_found');
    return contactId;
  }

  /** Who asks to be erased, the longest waiting first. */
  async asked(tx: Tx): Promise<{ contactId: string; name: string; askedAt: Temporal.Instant }[]> {
    const rows = await this.store.asked(tx);
    return rows.map((row) => ({ contactId: row.contact_id, name: row.name, askedAt: row.erase_asked_at }));
  }

  private async locked(tx: Tx, contactId: string) {
    const contact = await this.store.lock(tx, contactId);
    if (!contact) throw new AppError('not_found', 'This person is not known here.');
    return contact;
  }
}

const toLine = (row: { contact_id: string; at: Temporal.Instant; who: string }): ErasureLine => ({
  contact: row.contact_id,
  at: row.at.toString(),
  who: row.who,
});
