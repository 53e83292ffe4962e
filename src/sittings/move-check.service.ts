// Whether the starts that the owner typed for people who must move are open for them, before anything is done. It goes
// by the room as it will be: whoever leaves a place in the same go frees it. The shelf is looked at when they move.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { dayInWords, timeInWords } from '../lib/words.js';
import { Db } from '../platform/db/db.js';
import { CLOSED_WORDS, type DayOfPlaces, RoomService } from '../room/room.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { askingOf } from './asking.calc.js';
import type { MoveChoice } from './moving.schemas.js';
import { SittingViews } from './views.service.js';

export interface StartProblem {
  sittingId: string;
  message: string;
}

@Injectable()
export class MoveCheckService {
  constructor(
    private readonly db: Db,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly views: SittingViews,
  ) {}

  /** What is wrong with typed starts, in the order of the choices; nothing for a sitting that is not known. */
  async problems(
    studioId: string,
    choices: MoveChoice[],
    typed: ReadonlySet<string>,
  ): Promise<StartProblem[]> {
    if (typed.size === 0) return [];
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const { until } = this.room.bookable(studio);
      const all = await this.views.byIds(
        tx,
        studio,
        choices.map((one) => one.sittingId),
      );
      const views = new Map(all.map((view) => [view.sitting.id, view]));
      const leaving = choices.filter(({ act }) => act !== 'leave').map((one) => one.sittingId);
      const found: StartProblem[] = [];
      const given = new Map<string, string>();
      for (const { sittingId, act, from } of choices) {
        const view = views.get(sittingId);
        if (typeof act === 'string' || !view) continue;
        const { to } = act;
        const taken = given.get(to.toString());
        given.set(to.toString(), view.contact.name);
        if (!typed.has(sittingId)) continue;
        const range = { from: to.toPlainDate(), until: to.toPlainDate() };
        const wrong = (message: string) => found.push({ sittingId, message });
        if (taken !== undefined) wrong(`You have given this start to ${taken} already.`);
        else if (to.equals(from)) wrong('This is the place that they have.');
        else if (Temporal.PlainDate.compare(range.from, until) > 0)
          wrong(`Places are given until ${dayInWords(until)}.`);
        else {
          const [days] = await this.room.daysForEach(tx, studio, range, [askingOf(view)], leaving);
          const message = closedAt(days?.[0], to);
          if (message !== null) wrong(message);
        }
      }
      return found;
    });
  }
}

/** Why a start is not open, in words, with those of the day that are; null when it is open. */
function closedAt(day: DayOfPlaces | undefined, start: Temporal.PlainDateTime): string | null {
  const slot = day?.openings.find(({ wallStart }) => wallStart.equals(start));
  if (slot?.closed === null) return null;
  if (!day) return `${dayInWords(start.toPlainDate())} is no day of sittings.`;
  const open = day.openings
    .filter(({ closed }) => closed === null)
    .map(({ wallStart }) => timeInWords(wallStart));
  const others = open.length > 0 ? ` Open that day: ${open.join(', ')}.` : ' Nothing is open that day.';
  return `${slot?.closed ? `Not open: ${CLOSED_WORDS[slot.closed]}.` : 'No sitting starts at that time.'}${others}`;
}
