// Whom it concerns that a bath or bottle is off, by name, for the desk's pages. Nothing is decided here.
import { Injectable } from '@nestjs/common';
import { dayBounds } from '../../lib/zoned-time.js';
import { Db } from '../../platform/db/db.js';
import { RoomService } from '../../room/room.service.js';
import type { SittingView } from '../../sittings/sittings.schemas.js';
import { SittingViews } from '../../sittings/views.service.js';
import { FaultsService, type WholeFault } from '../../stock/faults.service.js';
import { StudiosService } from '../../studios/studios.service.js';

export interface Concerned {
  whole: WholeFault;
  /** Who comes, by the day's date and by the sitting's id. */
  names: Map<string, string[]>;
  /** Who has a place on the day of the entry and of whom nobody told yet how it ended, the first first. */
  thatDay: SittingView[];
}

@Injectable()
export class ConcernedService {
  constructor(
    private readonly db: Db,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly views: SittingViews,
    private readonly faults: FaultsService,
  ) {}

  /** @throws AppError not_found */
  async of(studioId: string, faultId: string): Promise<Concerned> {
    const whole = await this.faults.one(studioId, faultId);
    const dates = [
      whole.fault.day,
      ...whole.days.map(({ day }) => day.date),
      ...whole.concerned.map(({ day }) => day),
    ];
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const last = dates.reduce((a, b) => (a.until(b).days > 0 ? b : a));
      const end = dayBounds(studio.zone, last).end;
      const places = await this.room.between(tx, dayBounds(studio.zone, whole.fault.day).start, end, end);
      const views = await this.views.byOccupancies(
        tx,
        studio,
        places.filter((one) => one.holds).map((one) => one.id),
      );
      const names = new Map<string, string[]>();
      for (const { sitting, contact, place } of views.values())
        for (const key of [sitting.id, place?.wallStart.toPlainDate().toString() ?? ''])
          names.set(key, [...(names.get(key) ?? []), contact.name]);
      const thatDay = [...views.values()]
        .filter(
          ({ sitting, place }) =>
            sitting.state === 'confirmed' && place?.wallStart.toPlainDate().equals(whole.fault.day),
        )
        .sort((a, b) => startOf(a) - startOf(b));
      return { whole, names, thatDay };
    });
  }
}

const startOf = ({ place }: SittingView) => place?.startsAt.epochMilliseconds ?? 0;
