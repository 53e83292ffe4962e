// What of baths and shelf must be done by which date, for the list of preparation and the calendar of tasks.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { RoomService } from '../room/room.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { BathsService } from './baths.service.js';
import { bathTasks, type DueTask, shelfTasks } from './due.calc.js';
import { PlanningService } from './planning.service.js';

@Injectable()
export class DueService {
  constructor(
    private readonly db: Db,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly baths: BathsService,
    private readonly planning: PlanningService,
  ) {}

  /** In order of their dates, reckoned ahead from a day. */
  async around(tx: Tx, today: Temporal.PlainDate): Promise<DueTask[]> {
    const { plan } = await this.baths.around(tx, today);
    const horizon = await this.planning.horizon(tx, today);
    const all = [...bathTasks(plan), ...shelfTasks(horizon)];
    return all.sort((a, b) => b.by.until(a.by).days || (a.key < b.key ? -1 : 1));
  }

  /**
   * Those that are due within so many days from today; however far, the first day that no bath takes and what of the
   * shelf cannot be had in time.
   */
  soon(studioId: string, days: number): Promise<DueTask[]> {
    return this.db.inStudio(studioId, async (tx) => {
      const today = this.room.today(await this.studios.load(tx));
      const all = await this.around(tx, today);
      const alarms = new Map(
        all
          .filter((one) => one.alarm)
          .reverse()
          .map((one) => [one.key, one]),
      );
      return all.filter((one) => alarms.get(one.key) === one || today.until(one.by).days <= days);
    });
  }
}
