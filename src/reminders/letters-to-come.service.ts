// The reminders that somebody is still to get, as they are planned, for their own page. It changes nothing.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { instantToWall } from '../lib/zoned-time.js';
import type { FirmPlace, LetterToCome } from '../people/letters-to-come.schemas.js';
import { LettersToCome } from '../people/letters-to-come.service.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import type { Spot } from '../travel/journey.calc.js';
import { comingOf } from './coming.calc.js';
import { zoneAt } from './reminder-plan.calc.js';
import { RemindersStore } from './reminders.store.js';
import { Surprises } from './surprises.service.js';

@Injectable()
export class PlannedLetters extends LettersToCome {
  private readonly store = new RemindersStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly surprises: Surprises,
  ) {
    super();
  }

  /** Two statements, however many are planned; none for whoever has no place or wants no reminders. */
  async of(studio: Spot & { id: string }, firm: FirmPlace | null): Promise<LetterToCome[] | null> {
    if (!firm || firm.contact.remindersStoppedAt) return null;
    const { of, turns, contact, place } = firm;
    const rows = await this.db.inStudio(studio.id, async (tx) => {
      if ('sittingId' in of && (await this.surprises.holds(tx, of.sittingId))) return [];
      return (await this.store.of(tx, of)).filter((one) => one.turn === turns);
    });
    if (rows.length === 0) return null;
    const coming = comingOf(contact, studio, place);
    const now = this.clock.now();
    return rows
      .filter((one) => one.state === 'planned' && Temporal.Instant.compare(one.due_at, now) > 0)
      .map(({ kind, due_at: at }) => ({
        about: kind,
        on: instantToWall(zoneAt(at, { place, coming }), at).toPlainDate(),
        by: contact.reachBy,
      }));
  }
}
