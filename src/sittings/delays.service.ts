// Where somebody who comes later on their day could still sit: today or in the days after. It changes nothing; the act
// is EndingsService.delay.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { AppError } from '../platform/problems.js';
import type { Slot } from '../room/openings.calc.js';
import { RoomService } from '../room/room.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { askingOf } from './asking.calc.js';
import type { SittingView } from './sittings.schemas.js';
import { next } from './states.calc.js';
import { SittingViews } from './views.service.js';

/** How far ahead. Assumption: whoever travelled stays for a week or comes back in the next. */
export const LATER_DAYS = 14;

export interface Later {
  view: SittingView;
  today: Temporal.PlainDate;
  /** Open starts that have not passed, the first first. */
  open: Slot[];
}

@Injectable()
export class DelaysService {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly views: SittingViews,
  ) {}

  /** Their own place counts as free, and no notice is asked. @throws AppError not_found; wrong_state before the day, or after the ending */
  placesFor(studioId: string, sittingId: string): Promise<Later> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const view = await this.views.byId(tx, studio, sittingId);
      const today = this.room.today(studio);
      const day = view.place?.wallStart.toPlainDate();
      if (!next(view.sitting.state, 'delay') || !day || Temporal.PlainDate.compare(today, day) < 0)
        throw new AppError('wrong_state', 'They have no place today that could be later.');
      const range = { from: today, until: today.add({ days: LATER_DAYS }) };
      const anyTime = { ...studio, leastNoticeDays: 0 };
      const [days = []] = await this.room.daysForEach(tx, anyTime, range, [askingOf(view)], [sittingId]);
      const now = this.clock.now();
      const isAhead = ({ startsAt }: Slot) =>
        startsAt !== null && Temporal.Instant.compare(startsAt, now) > 0;
      const isTheirs = ({ wallStart }: Slot) => view.place?.wallStart.equals(wallStart) === true;
      const open = days.flatMap((one) => one.openings.filter((slot) => slot.closed === null));
      return { view, today, open: open.filter((slot) => isAhead(slot) && !isTheirs(slot)) };
    });
  }
}
