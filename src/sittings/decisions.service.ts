// What the owner decides about a request: approve it to a place, or decline it with a message.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Account } from '../accounts/accounts.schemas.js';
import { LinksService } from '../accounts/links.service.js';
import { ActualsService } from '../chemistry/actuals.service.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { Jobs } from '../platform/jobs/registry.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import { DaysService } from '../stock/days.service.js';
import { StockService } from '../stock/stock.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { needsOf } from './needs.calc.js';
import { type Sitting, suitsOn } from './sittings.schemas.js';
import { SittingsStore } from './sittings.store.js';
import { next, type SittingEvent } from './states.calc.js';

/** A place link lives until so many days after the day of the sitting. */
const LINK_DAYS_AFTER = 30;

@Injectable()
export class DecisionsService {
  private readonly store = new SittingsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly jobs: Jobs,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly days: DaysService,
    private readonly actuals: ActualsService,
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
      const sitting = await this.undecided(tx, sittingId, 'approve');
      const studio = await this.studios.load(tx);
      const day = wallStart.toPlainDate();
      if (!suitsOn(sitting.suits, day))
        throw new AppError('not_an_opening', 'That day is not among the days asked for.');
      const plates = (await this.store.plates(tx, [sittingId])).get(sittingId) ?? [];
      const place = await this.room.take(tx, studio, {
        wallStart,
        plates: plates.length,
        sitters: new Set(plates.flatMap((one) => one.sitterIds)).size,
        kindId: sitting.kindId,
        heldFor: sittingId,
      });
      const needs = needsOf(
        plates,
        await this.stock.plateSizes(tx),
        await this.stock.items(tx),
        studio.reserveQuantity,
        await this.actuals.figures(tx),
      );
      await this.days.reserve(tx, studio, sittingId, needs, day);
      const change = { at: this.clock.now(), message: '', occupancyId: place.id };
      if (!(await this.store.setState(tx, sittingId, sitting.state, 'confirmed', change)))
        throw new AppError('wrong_state');
      await this.links.setExpiry(tx, 'place', sittingId, place.endsAt.add({ hours: 24 * LINK_DAYS_AFTER }));
      await this.links.ensure(tx, 'feed', sitting.contactId, 'sitter');
      const told = { sittingId, change: 'confirmed', sequence: place.sequence } as const;
      await this.jobs.enqueue(tx, 'place.changed', told, { key: `${sittingId}:confirmed` });
      await this.record(tx, who, sittingId, 'approve', wallStart.toString({ smallestUnit: 'minute' }));
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
      const sitting = await this.undecided(tx, sittingId, 'decline');
      await this.store.setState(tx, sittingId, sitting.state, 'declined', {
        at: this.clock.now(),
        message: words,
      });
      const told = { sittingId, change: 'declined', sequence: 0 } as const;
      await this.jobs.enqueue(tx, 'place.changed', told, { key: `${sittingId}:declined` });
      await this.record(tx, who, sittingId, 'decline', words);
    });
  }

  private async undecided(tx: Tx, sittingId: string, event: SittingEvent): Promise<Sitting> {
    const sitting = await this.store.byId(tx, sittingId, true);
    if (!sitting) throw new AppError('not_found', 'This request is not known here.');
    if (!next(sitting.state, event))
      throw new AppError('wrong_state', 'This request was answered or given up in the meantime.');
    return sitting;
  }

  private record(tx: Tx, who: Account, aboutId: string, event: string, note: string): Promise<void> {
    return recordHistory(tx, this.clock, { who: who.name, aboutKind: 'sitting', aboutId, event, note });
  }
}
