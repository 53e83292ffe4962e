// What of teaching waits for the owner: who asks to learn one to one, places that came free while somebody waits, days
// that cannot be as they stand, and days whose date of decision is near. It decides nothing.
import { Injectable } from '@nestjs/common';
import { Clock } from '../platform/clock.js';
import type { Tx } from '../platform/db/tx.js';
import { RoomService } from '../room/room.service.js';
import { SettingsService } from '../room/settings.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import type { TeachingToDecide } from './day-views.schemas.js';
import { TeachingDecisions } from './decisions.service.js';
import { SessionsStore } from './sessions.store.js';
import { SignUpsStore } from './sign-ups.store.js';
import { stands } from './states.calc.js';
import { TeachingViews } from './views.service.js';

@Injectable()
export class TeachingToDecideService {
  private readonly sessions = new SessionsStore();
  private readonly signUps = new SignUpsStore();

  constructor(
    private readonly clock: Clock,
    private readonly room: RoomService,
    private readonly settings: SettingsService,
    private readonly views: TeachingViews,
    private readonly decisions: TeachingDecisions,
  ) {}

  /** The same number of statements however much there is. */
  async of(tx: Tx, studio: Studio): Promise<TeachingToDecide> {
    const requested = await this.signUps.requested(tx);
    const sessions = await this.sessions.inStates(tx, ['draft', 'open', 'full'], this.clock.now());
    const first = await this.firstInLine(tx, sessions);
    const asked = requested.map(({ id }) => id);
    const views = await this.views.owns(tx, [...asked, ...first]);
    const some = (ids: string[]) => ids.flatMap((id) => views.get(id) ?? []);
    const due = await this.decisions.decisionsDue(tx, this.room.today(studio));
    const toMove = await this.toMove(tx, studio, sessions);
    return { asked: some(asked), toOffer: some(first), toMove, due };
  }

  /** By day with places left that has not begun: the first who waits and whom they suffice. */
  private async firstInLine(
    tx: Tx,
    sessions: Awaited<ReturnType<SessionsStore['inStates']>>,
  ): Promise<string[]> {
    const open = sessions.filter(({ state, taken, places }) => state === 'open' && taken < places);
    const places = await this.room.byIds(
      tx,
      open.map(({ occupancyId }) => occupancyId),
    );
    const ahead = open.filter(({ occupancyId }) =>
      places.some((place) => place.id === occupancyId && !this.room.begun(place)),
    );
    const all = await this.signUps.ofSessions(
      tx,
      ahead.map(({ id }) => id),
    );
    const waiting = all.filter(({ state }) => state === 'waiting');
    const students = await this.signUps.students(
      tx,
      waiting.map(({ id }) => id),
    );
    const size = (signUpId: string) => students.filter((one) => one.signUpId === signUpId).length;
    return ahead.flatMap(({ id, places: most, taken }) => {
      const one = waiting.find(({ sessionId, id: own }) => sessionId === id && size(own) <= most - taken);
      return one ? [one.id] : [];
    });
  }

  private async toMove(
    tx: Tx,
    studio: Studio,
    sessions: Awaited<ReturnType<SessionsStore['inStates']>>,
  ): Promise<TeachingToDecide['toMove']> {
    const touched = await this.settings.toBeMoved(tx, studio, 'teaching');
    const places = await this.room.byIds(
      tx,
      sessions.map(({ occupancyId }) => occupancyId),
    );
    return sessions.flatMap((session) => {
      const place = places.find(({ id }) => id === session.occupancyId);
      if (!place || !stands(session.state)) return [];
      const reason = !place.holds
        ? ('clash' as const)
        : touched.find(({ occupancy }) => occupancy.id === place.id)?.reason;
      return reason ? [{ day: { session, place }, reason }] : [];
    });
  }
}
