// In which language letters go to somebody and their calendars are: changed on their own page, or by the studio for
// whoever told it so.
import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import { LinksService } from '../accounts/links.service.js';
import { PeopleService } from '../people/people.service.js';
import { theirLanguage } from '../people/ways.schemas.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { RoomService } from '../room/room.service.js';
import { SittingViews } from '../sittings/views.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { TeachingCalendar } from '../teaching/calendar-days.service.js';
import type { Language } from '../words/languages.js';
import { RemindedService } from './reminded.service.js';
import type { Of } from './reminders.store.js';

@Injectable()
export class LetterLanguage {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly people: PeopleService,
    private readonly room: RoomService,
    private readonly sittings: SittingViews,
    private readonly teaching: TeachingCalendar,
    private readonly reminded: RemindedService,
  ) {}

  /** Letters that are in the outbox already stay as they are. @throws AppError bad_input, not_found */
  async setAtDesk(studioId: string, who: { name: string }, of: Of, input: unknown): Promise<void> {
    const language = read(input);
    await this.db.inStudio(studioId, (tx) => this.change(tx, of, who.name, language));
  }

  /**
   * The same by the secret of their own page.
   * @returns the language as it is now
   * @throws AppError bad_input, not_found, link_expired
   */
  async setOwn(
    studioId: string,
    day: 'sitting' | 'teaching',
    token: string,
    input: unknown,
  ): Promise<Language> {
    return this.db.inStudio(studioId, async (tx) => {
      const { subjectId } = await this.links.open(tx, 'place', token);
      const language = read(input);
      const of: Of = day === 'sitting' ? { sittingId: subjectId } : { signUpId: subjectId };
      await this.change(tx, of, 'contact', language);
      return language;
    });
  }

  /** Calendars read otherwise then, so all that stands in them has a later revision. */
  private async change(tx: Tx, of: Of, who: string, language: Language): Promise<void> {
    const { contact } = await this.reminded.load(tx, of);
    if (contact.language === language) return;
    await this.people.setLanguage(tx, contact.id, language);
    const days = await this.teaching.ofContact(tx, contact.id);
    const sittings = await this.sittings.idsOf(tx, contact.id);
    await this.room.revise(tx, [...sittings, ...days.map(({ session }) => session.id)]);
    const about = { aboutKind: 'contact', aboutId: contact.id };
    await recordHistory(tx, this.clock, { who, ...about, event: 'language', note: language });
    await this.studios.raiseCalendarCounter(tx);
  }
}

const read = (language: unknown): Language =>
  readInput(z.object({ language: theirLanguage }), { language }).language;
