// Whether a teaching day is held: which days are to be decided soon, and that one goes ahead. Calling off is an act of
// sessions.service.ts. The owner decides; the least number only tells what they see.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import type { DecisionDue } from './day-views.schemas.js';
import { SeatsService } from './seats.service.js';
import { SessionsStore } from './sessions.store.js';
import { nextOfSession } from './states.calc.js';

/** A decision is asked for so many days before its date. Assumption. */
export const ASKED_DAYS_AHEAD = 7;

@Injectable()
export class TeachingDecisions {
  private readonly store = new SessionsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly room: RoomService,
    private readonly seats: SeatsService,
  ) {}

  /** The days to come whose date of decision is near or past and of which nobody has decided, the first one first. */
  async decisionsDue(tx: Tx, today: Temporal.PlainDate): Promise<DecisionDue[]> {
    const by = today.add({ days: ASKED_DAYS_AHEAD });
    const sessions = await this.store.undecided(tx, by, this.clock.now());
    const places = await this.room.byIds(
      tx,
      sessions.map(({ occupancyId }) => occupancyId),
    );
    return sessions.flatMap((session) => {
      const place = places.find(({ id }) => id === session.occupancyId);
      return place ? [{ session, place, enough: session.taken >= session.least }] : [];
    });
  }

  /** The day is held, whoever comes; said twice it stands as said first. @throws AppError wrong_state */
  async goAhead(studioId: string, who: { name: string }, sessionId: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const { session } = await this.seats.lock(tx, sessionId);
      if (session.state === 'draft' || !nextOfSession(session.state, 'call_off'))
        throw new AppError('wrong_state', 'This day has changed in the meantime.');
      if (session.goesAheadAt) return;
      await this.store.setGoesAhead(tx, sessionId, this.clock.now());
      const about = { aboutKind: 'teaching', aboutId: sessionId, event: 'go ahead' };
      await recordHistory(tx, this.clock, { who: who.name, ...about, note: `${session.taken} have a place` });
    });
  }
}
