// Days that cannot be held, as far as teaching goes: which teaching days stand there and whom they touch, and calling
// off those the owner chose. Each is an act of its own; people are told once it is done, never before.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { dayBounds } from '../lib/zoned-time.js';
import { Db } from '../platform/db/db.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { TeachingCalendar } from './calendar-days.service.js';
import type { DayView, DayWithPeople } from './day-views.schemas.js';
import { SessionsService } from './sessions.service.js';
import { SessionsStore } from './sessions.store.js';
import { SignUpsStore } from './sign-ups.store.js';
import { stands } from './states.calc.js';

/** A teaching day on days that cannot be held, with who has a place there; and how many only wait. */
export interface TeachingToCallOff extends DayWithPeople, DayView {
  waiting: number;
}

export interface CalledOff {
  sessionId: string;
  name: string;
  /** Null when it was done. */
  problem: string | null;
}

/** A day that lost the room to a clash may have done so at any time. */
const FROM_EVER = Temporal.Instant.fromEpochMilliseconds(0);

@Injectable()
export class TeachingMoving {
  private readonly sessions = new SessionsStore();
  private readonly signUps = new SignUpsStore();

  constructor(
    private readonly db: Db,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly calendar: TeachingCalendar,
    private readonly made: SessionsService,
  ) {}

  /** The teaching days that stand between two dates, both included, and have not begun; in the order of time. */
  standing(
    studioId: string,
    days: { from: Temporal.PlainDate; until: Temporal.PlainDate },
  ): Promise<TeachingToCallOff[]> {
    return this.db.inStudio(studioId, async (tx) => {
      const { zone } = await this.studios.load(tx);
      const from = dayBounds(zone, days.from).start;
      const until = dayBounds(zone, days.until).end;
      const places = (await this.room.between(tx, from, until, FROM_EVER)).filter(
        (one) =>
          one.kind === 'teaching' &&
          !this.room.begun(one) &&
          Temporal.Instant.compare(one.startsAt, from) >= 0,
      );
      const ids = places.map(({ heldFor }) => heldFor);
      const found = await this.calendar.days(tx, ids);
      const all = await this.signUps.ofSessions(tx, ids);
      return places.flatMap((place) => {
        const day = found.get(place.heldFor);
        if (!day || !stands(day.session.state) || day.session.occupancyId !== place.id) return [];
        const waiting = all.filter(
          ({ sessionId, state }) => sessionId === day.session.id && state === 'waiting',
        ).length;
        return [{ ...day, place, waiting }];
      });
    });
  }

  /**
   * Calls off those chosen, one after the other; a day that was moved or changed since it was shown is not touched.
   * @param words what everybody is told
   */
  async callOff(
    studioId: string,
    who: { name: string },
    words: string,
    chosen: { sessionId: string; seen: string }[],
  ): Promise<CalledOff[]> {
    const outcomes: CalledOff[] = [];
    for (const { sessionId, seen } of chosen) {
      const now = await this.seen(studioId, sessionId);
      if (!now) continue;
      const { name } = now;
      try {
        if (now.seen !== seen)
          throw new AppError(
            'wrong_state',
            'Somebody signed up, left or moved it meanwhile. Please look again.',
          );
        await this.made.callOff(studioId, who, sessionId, words);
        outcomes.push({ sessionId, name, problem: null });
      } catch (error) {
        if (!(error instanceof AppError)) throw error;
        outcomes.push({ sessionId, name, problem: error.detail });
      }
    }
    return outcomes;
  }

  /** A day as it stands: its name, and what tells one moment of it from another. */
  private seen(studioId: string, sessionId: string): Promise<{ name: string; seen: string } | null> {
    return this.db.inStudio(studioId, async (tx) => {
      const session = await this.sessions.byId(tx, sessionId, false);
      return session && { name: session.course.name, seen: seenOf(session) };
    });
  }
}

/** Stands for a day and all that was told of it. */
export const seenOf = ({ sequence, state }: Pick<DayView['session'], 'sequence' | 'state'>): string =>
  `${sequence} ${state}`;
