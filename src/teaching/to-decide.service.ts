// What of teaching waits for the owner: who asks to learn one to one, places that came free while somebody waits, days
// that cannot be as they stand, and days whose date of decision is near. It decides nothing.
import { Injectable } from '@nestjs/common';
import { Clock } from '../platform/clock.js';
import type { Tx } from '../platform/db/tx.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import { RoomService } from '../room/room.service.js';
import { SettingsService } from '../room/settings.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { offerExpiry } from '../waiting/expiry.calc.js';
import type { Mode, WaitingRules } from '../waiting/rules.schemas.js';
import { WaitingService } from '../waiting/waiting.service.js';
import type { TeachingToDecide } from './day-views.schemas.js';
import { TeachingDecisions } from './decisions.service.js';
import { firstInLine } from './passing-on.calc.js';
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
    private readonly waiting: WaitingService,
  ) {}

  /** The same number of statements however much there is. */
  async of(tx: Tx, studio: Studio): Promise<TeachingToDecide> {
    const requested = await this.signUps.requested(tx);
    const sessions = await this.sessions.inStates(tx, ['draft', 'open', 'full'], this.clock.now());
    const toMove = await this.toMove(tx, studio, sessions);
    const first = await this.firstInLine(tx, studio, sessions, toMove);
    const asked = requested.map(({ id }) => id);
    const views = await this.views.owns(tx, [...asked, ...first.map(({ id }) => id)]);
    const toOffer = first.flatMap(({ id, byRule, mode }) => {
      const view = views.get(id);
      return view ? [{ ...view, byRule, mode }] : [];
    });
    const due = await this.decisions.decisionsDue(tx, this.room.today(studio));
    return { asked: asked.flatMap((id) => views.get(id) ?? []), toOffer, toMove, due };
  }

  /** By day with places left that has not begun and can be held: the first who waits and could be asked still. */
  private async firstInLine(
    tx: Tx,
    studio: Studio,
    sessions: Awaited<ReturnType<SessionsStore['inStates']>>,
    toMove: TeachingToDecide['toMove'],
  ): Promise<{ id: string; byRule: boolean; mode: Mode }[]> {
    const rules = await this.waiting.rules(tx);
    const shut = new Set(toMove.map(({ day }) => day.session.id));
    const open = sessions.filter(
      ({ id, state, taken, places }) => state === 'open' && taken < places && !shut.has(id),
    );
    const places = await this.room.byIds(
      tx,
      open.map(({ occupancyId }) => occupancyId),
    );
    const ahead = open.filter(({ occupancyId }) =>
      places.some((place) => place.id === occupancyId && this.timeToAnswer(studio, place, rules)),
    );
    const all = await this.signUps.ofSessions(
      tx,
      ahead.map(({ id }) => id),
    );
    const waiting = all.filter(({ state }) => state === 'waiting');
    const ids = waiting.map(({ id }) => id);
    const students = await this.signUps.students(tx, ids);
    const offers = await this.waiting.newestOf(tx, ids);
    return ahead.flatMap((session) => {
      const own = waiting.filter(({ sessionId }) => sessionId === session.id);
      const one = firstInLine(session, own, students, offers);
      const byRule = this.waiting.passesOn(rules, session.freedAt);
      return one ? [{ id: one.id, byRule, mode: rules.mode }] : [];
    });
  }

  /** Whether the day is far enough ahead for an offer. */
  private timeToAnswer({ zone }: Studio, place: Occupancy, { life, notice }: WaitingRules): boolean {
    const { startsAt } = place;
    const asked = { zone, now: this.clock.now(), startsAt, noticeDays: notice.near, life };
    return !this.room.begun(place) && offerExpiry(asked).ok;
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
