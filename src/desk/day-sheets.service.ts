// One day for whoever works on it: who comes, when, on which plates, and how it went. It decides nothing.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { dayBounds } from '../lib/zoned-time.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import { RoomService } from '../room/room.service.js';
import { NOTHING_YET, type SittingDay } from '../sittings/endings.schemas.js';
import { EndingsService } from '../sittings/endings.service.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { SittingViews } from '../sittings/views.service.js';
import { StudiosService } from '../studios/studios.service.js';

export interface OnSheet {
  view: SittingView;
  place: Occupancy;
  day: SittingDay;
}

export interface DaySheet {
  date: Temporal.PlainDate;
  today: Temporal.PlainDate;
  zone: string;
  /** In the order of their hours; offered places are not among them. */
  sittings: OnSheet[];
}

@Injectable()
export class DaySheets {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly views: SittingViews,
    private readonly endings: EndingsService,
  ) {}

  of(studioId: string, date: Temporal.PlainDate): Promise<DaySheet> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const { start, end } = dayBounds(studio.zone, date);
      const places = (await this.room.between(tx, start, end, this.clock.now())).filter(
        (one) =>
          one.holds && !one.tentative && one.kind === 'sitting' && one.wallStart.toPlainDate().equals(date),
      );
      const ids = places.map((one) => one.heldFor);
      const views = new Map((await this.views.byIds(tx, studio, ids)).map((view) => [view.sitting.id, view]));
      const days = await this.endings.of(tx, ids);
      const sittings = places
        .sort((one, other) => one.startsAt.epochMilliseconds - other.startsAt.epochMilliseconds)
        .flatMap((place) => {
          const view = views.get(place.heldFor);
          return view ? [{ view, place, day: days.get(place.heldFor) ?? NOTHING_YET }] : [];
        });
      return { date, today: this.room.today(studio), zone: studio.zone, sittings };
    });
  }
}
