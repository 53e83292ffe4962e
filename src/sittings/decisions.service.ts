// What the owner decides about a request: approve it to a place, or decline it with a message.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Account } from '../accounts/accounts.schemas.js';
import { Db } from '../platform/db/db.js';
import { AppError } from '../platform/problems.js';
import { StudiosService } from '../studios/studios.service.js';
import { PlacesService } from './places.service.js';
import { suitsOn } from './sittings.schemas.js';
import { next } from './states.calc.js';

@Injectable()
export class DecisionsService {
  constructor(
    private readonly db: Db,
    private readonly studios: StudiosService,
    private readonly places: PlacesService,
  ) {}

  /**
   * Gives a request the place that starts at a wall time: holds the room, sets the stock aside, and
   * tells the contact, all or nothing. The day must be among those asked for.
   * @throws AppError wrong_state, not_an_opening, place_taken, short_of_stock
   */
  async approve(
    studioId: string,
    who: Account,
    sittingId: string,
    wallStart: Temporal.PlainDateTime,
  ): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const { studio, sitting } = await this.places.lock(tx, sittingId);
      if (!next(sitting.state, 'approve')) throw answered();
      if (!suitsOn(sitting.suits, wallStart.toPlainDate()))
        throw new AppError('not_an_opening', 'That day is not among the days asked for; it can be offered.');
      const place = await this.places.take(tx, studio, sitting, wallStart);
      await this.places.turn(tx, sitting, {
        event: 'approve',
        who: who.name,
        note: wallStart.toString({ smallestUnit: 'minute' }),
        change: { message: '', occupancyId: place.id, offersUnanswered: 0, returnOwed: false },
        tell: 'confirmed',
        undoable: 'approve',
      });
      await this.places.confirmed(tx, sitting, place);
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  /** Declines a request with a message to the contact. @throws AppError wrong_state, bad_input */
  async decline(studioId: string, who: Account, sittingId: string, message: string): Promise<void> {
    const words = message.trim();
    if (words === '' || words.length > 2000)
      throw new AppError('bad_input', undefined, [
        {
          field: 'message',
          message: words === '' ? 'Please say a word to them.' : 'Please keep this under 2,000 characters.',
        },
      ]);
    await this.db.inStudio(studioId, async (tx) => {
      const { sitting, lapsed } = await this.places.lock(tx, sittingId);
      if (!next(sitting.state, 'decline')) throw answered();
      const change = { message: words };
      await this.places.turn(tx, sitting, {
        event: 'decline',
        who: who.name,
        note: words,
        change,
        tell: 'declined',
        undoable: 'decline',
      });
      if (lapsed > 0) await this.studios.raiseCalendarCounter(tx);
    });
  }
}

const answered = () => new AppError('wrong_state', 'This request was answered or given up in the meantime.');
