// Stopping reminders, and having them again: by the address in a letter's head, on somebody's own page, or by the studio
// for them. Only reminders stop; what is answered, moved or called off is told as ever.
import { Injectable } from '@nestjs/common';
import { LinksService } from '../accounts/links.service.js';
import { Clock } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import type { Contact } from '../people/people.schemas.js';
import { PeopleService } from '../people/people.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { isReminder, isToStudents } from './letters.schemas.js';
import type { MailRow } from './mail.schemas.js';
import { RemindedService } from './reminded.service.js';
import type { Of } from './reminders.store.js';

@Injectable()
export class StopsService {
  constructor(
    private readonly config: Config,
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly links: LinksService,
    private readonly people: PeopleService,
    private readonly reminded: RemindedService,
  ) {}

  /**
   * The address in the head of a letter at which its reader stops reminders, the same each time. Null for any other
   * letter, and for what the studio passes on.
   */
  async addressFor(tx: Tx, { slug }: Pick<Studio, 'slug'>, mail: MailRow): Promise<string | null> {
    const { kind, about_id: id, by_hand } = mail;
    const ofTeaching = kind !== 'teaching' && isToStudents(kind);
    if (by_hand !== '' || (!ofTeaching && !isReminder(kind))) return null;
    const { contact } = await this.reminded.load(tx, ofTeaching ? { signUpId: id } : { sittingId: id });
    const token = this.links.token(await this.links.ensure(tx, 'reminders', contact.id));
    return `${this.config.publicUrl}/s/${slug}/reminders/${token}`;
  }

  /** Who is behind such an address. @throws AppError not_found, link_expired */
  behind(studioId: string, token: string): Promise<Contact> {
    return this.db.inStudio(studioId, (tx) => this.open(tx, token));
  }

  /** Stops reminders or has them again; once more is no mistake. @throws AppError not_found, link_expired */
  set(studioId: string, token: string, wanted: boolean): Promise<void> {
    return this.db.inStudio(studioId, async (tx) => {
      await this.change(tx, await this.open(tx, token), 'contact', wanted);
    });
  }

  /** The same by the secret of their own page. @throws AppError not_found, link_expired */
  setOwn(studioId: string, day: 'sitting' | 'teaching', token: string, wanted: boolean): Promise<void> {
    return this.db.inStudio(studioId, async (tx) => {
      const { subjectId } = await this.links.open(tx, 'place', token);
      const of: Of = day === 'sitting' ? { sittingId: subjectId } : { signUpId: subjectId };
      await this.change(tx, (await this.reminded.load(tx, of)).contact, 'contact', wanted);
    });
  }

  /** The same by the studio, for whoever told it so. @throws AppError not_found */
  setAtDesk(studioId: string, who: { name: string }, of: Of, wanted: boolean): Promise<void> {
    return this.db.inStudio(studioId, async (tx) => {
      await this.change(tx, (await this.reminded.load(tx, of)).contact, who.name, wanted);
    });
  }

  private async open(tx: Tx, token: string): Promise<Contact> {
    return this.people.contact(tx, (await this.links.open(tx, 'reminders', token)).subjectId);
  }

  private async change(tx: Tx, contact: Contact, who: string, wanted: boolean): Promise<void> {
    if ((contact.remindersStoppedAt === null) === wanted) return;
    await this.people.setReminders(tx, contact, wanted);
    const event = wanted ? 'reminders again' : 'no reminders';
    await recordHistory(tx, this.clock, { who, aboutKind: 'contact', aboutId: contact.id, event });
  }
}
