// In which language letters go to somebody, as the studio notes it for whoever told it so.
import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import { PeopleService } from '../people/people.service.js';
import { theirLanguage } from '../people/ways.schemas.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import { readInput } from '../platform/input.js';
import { RemindedService } from './reminded.service.js';
import type { Of } from './reminders.store.js';

@Injectable()
export class LetterLanguage {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly people: PeopleService,
    private readonly reminded: RemindedService,
  ) {}

  /** Letters that are in the outbox already stay as they are. @throws AppError bad_input, not_found */
  async setAtDesk(studioId: string, who: { name: string }, of: Of, input: unknown): Promise<void> {
    const { language } = readInput(z.object({ language: theirLanguage }), { language: input });
    await this.db.inStudio(studioId, async (tx) => {
      const { contact } = await this.reminded.load(tx, of);
      if (contact.language === language) return;
      await this.people.setLanguage(tx, contact.id, language);
      const about = { aboutKind: 'contact', aboutId: contact.id };
      await recordHistory(tx, this.clock, { who: who.name, ...about, event: 'language', note: language });
    });
  }
}
