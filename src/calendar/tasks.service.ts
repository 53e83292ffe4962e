// The tasks feed: what must be prepared, and by when, gathered from the shelf. It holds nothing that a sitter told.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { Tx } from '../platform/db/tx.js';
import { DueService } from '../stock/due.service.js';
import { PreparationService } from '../stock/preparation.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { WINDOW } from './feeds.calc.js';
import type { CalendarEntry } from './ics.calc.js';
import { dueEntry, preparationEntry, TASK_DAYS_BACK } from './tasks.calc.js';

@Injectable()
export class TasksService {
  constructor(
    private readonly studios: StudiosService,
    private readonly preparation: PreparationService,
    private readonly due: DueService,
  ) {}

  /** The tasks from TASK_DAYS_BACK days before a date to the end of a feed's window. @param desk the desk's address */
  async entries(tx: Tx, studio: Studio, today: Temporal.PlainDate, desk: string): Promise<CalendarEntry[]> {
    const raisedAt = await this.studios.calendarRaisedAt(tx);
    const { zone, calendarCounter: counter } = studio;
    const dayBegan = Temporal.Instant.from(`${today.toString()}T00:00:00Z`);
    const source = { studioId: studio.id, zone, counter, raisedAt, dayBegan, url: `${desk}/prepare` };
    const due = await this.due.around(tx, today);
    const { tasks, sizes } = await this.preparation.around(tx, studio, today);
    const [from, until] = [
      today.subtract({ days: TASK_DAYS_BACK }),
      today.add({ months: WINDOW.monthsAhead }),
    ];
    const within = (day: Temporal.PlainDate) =>
      Temporal.PlainDate.compare(from, day) <= 0 && Temporal.PlainDate.compare(day, until) <= 0;
    return [
      ...tasks.filter(({ day }) => within(day)).map((task) => preparationEntry(task, sizes, source)),
      ...due.filter(({ by }) => within(by)).map((task) => dueEntry(task, source, desk)),
    ];
  }
}
