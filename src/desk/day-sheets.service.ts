// One day for whoever works on it: who comes, when, on which plates, and how it went. It decides nothing.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { slotLight, WEATHER_FACTORS } from '../daylight/exposure.calc.js';
import { type LightWindow, lightWindow } from '../daylight/window.calc.js';
import { dayBounds } from '../lib/zoned-time.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import type { HoldStill } from '../room/openings.calc.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import { RoomService } from '../room/room.service.js';
import { NOTHING_YET, type SittingDay } from '../sittings/endings.schemas.js';
import { EndingsService } from '../sittings/endings.service.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { SittingViews } from '../sittings/views.service.js';
import { TeachingCalendar } from '../teaching/calendar-days.service.js';
import type { DayView, DayWithPeople } from '../teaching/day-views.schemas.js';
import { StudiosService } from '../studios/studios.service.js';

export interface OnSheet {
  view: SittingView;
  place: Occupancy;
  day: SittingDay;
  /** How long they hold still; null where the light is too low or too long. */
  holdStill: HoldStill | null;
}

export interface DaySheet {
  date: Temporal.PlainDate;
  today: Temporal.PlainDate;
  zone: string;
  /** Good light of the day; null where there is none. */
  window: LightWindow | null;
  /** In the order of their hours; offered places are not among them. */
  sittings: OnSheet[];
  /** Teaching days of the date, in the order of their hours. */
  teaching: (DayView & DayWithPeople)[];
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
    private readonly calendar: TeachingCalendar,
  ) {}

  of(studioId: string, date: Temporal.PlainDate): Promise<DaySheet> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const { start, end } = dayBounds(studio.zone, date);
      const all = await this.room.between(tx, start, end, this.clock.now());
      const places = all.filter(
        (one) =>
          one.holds && !one.tentative && one.kind === 'sitting' && one.wallStart.toPlainDate().equals(date),
      );
      const ids = places.map((one) => one.heldFor);
      const views = new Map((await this.views.byIds(tx, studio, ids)).map((view) => [view.sitting.id, view]));
      const days = await this.endings.of(tx, ids);
      const window = lightWindow(studio, date, studio.lightFloorDegrees);
      const sittings = places
        .sort((one, other) => one.startsAt.epochMilliseconds - other.startsAt.epochMilliseconds)
        .flatMap((place) => {
          const view = views.get(place.heldFor);
          if (!view) return [];
          const day = days.get(place.heldFor) ?? NOTHING_YET;
          const hours = { start: place.startsAt, end: place.endsAt };
          const light = slotLight(studio, studio, window, hours, studio.exposureCapSeconds);
          const { from, to } = WEATHER_FACTORS.dull;
          const holdStill = light.ok
            ? { clear: light.clear, dull: { from: light.clear.from * from, to: light.clear.to * to } }
            : null;
          return [{ view, place, day, holdStill }];
        });
      const teaching = await this.taught(tx, all, date);
      return { date, today: this.room.today(studio), zone: studio.zone, window, sittings, teaching };
    });
  }

  private async taught(tx: Tx, all: Occupancy[], date: Temporal.PlainDate): Promise<DaySheet['teaching']> {
    const places = all.filter(
      (one) => one.holds && one.kind === 'teaching' && one.wallStart.toPlainDate().equals(date),
    );
    const days = await this.calendar.days(
      tx,
      places.map((one) => one.heldFor),
    );
    return places.flatMap((place) => {
      const day = days.get(place.heldFor);
      return day ? [{ ...day, place }] : [];
    });
  }
}
