// What the front page of the desk shows, gathered from the features to its left: one transaction, and as many
// statements whether one waits or a hundred. The order is inbox.calc.ts's.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { OutsideService } from '../outside/outside.service.js';
import type { OwedCounts } from '../plates/owed.calc.js';
import { OwedService } from '../plates/owed.service.js';
import type { Tx } from '../platform/db/tx.js';
import { ErasureService } from '../privacy/erasure.service.js';
import { TelephoneService } from '../reminders/telephone.service.js';
import { RoomService } from '../room/room.service.js';
import { SettingsService } from '../room/settings.service.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { ListService } from '../sittings/list.service.js';
import { CorrectionsService } from '../sittings/corrections.service.js';
import { SittingViews } from '../sittings/views.service.js';
import { type NoBath, daysWithout } from '../stock/bath-days.calc.js';
import { BathsService } from '../stock/baths.service.js';
import { bathTasks, shelfTasks } from '../stock/due.calc.js';
import { type Outlook, outlooks } from '../stock/outlook.calc.js';
import { PlanningService } from '../stock/planning.service.js';
import { PreparationService } from '../stock/preparation.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { TeachingToDecideService } from '../teaching/to-decide.service.js';
import { WaitingService } from '../waiting/waiting.service.js';
import { pastBefore, type WaitingRequest } from './glance.calc.js';
import { GlancesService } from './glances.service.js';
import { type Inbox, type InboxFacts, inboxOf, LINES_SHOWN, type ToMove } from './inbox.calc.js';

export interface Front {
  inbox: Inbox;
  /** The first few requests to answer, with what stands behind a yes; by sitting. */
  glances: Map<string, WaitingRequest>;
  next: SittingView[];
  /** How the shelf stands with each confirmed sitting, by its id. */
  outlooks: Map<string, Outlook>;
  /** The days with plates that no silver bath takes, by date as "2027-05-14". */
  noBath: Map<string, NoBath>;
  /** What is still owed for plates made. */
  plates: OwedCounts;
}

@Injectable()
export class InboxService {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly settings: SettingsService,
    private readonly baths: BathsService,
    private readonly planning: PlanningService,
    private readonly preparation: PreparationService,
    private readonly views: SittingViews,
    private readonly waiting: WaitingService,
    private readonly corrections: CorrectionsService,
    private readonly telephone: TelephoneService,
    private readonly teaching: TeachingToDecideService,
    private readonly glances: GlancesService,
    private readonly owed: OwedService,
    private readonly erasures: ErasureService,
    private readonly outside: OutsideService,
    private readonly list: ListService,
  ) {}

  /** The owner's front page. */
  front(studioId: string): Promise<Front> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const { today, work, horizon, noBath } = await this.work(tx, studio);
      const open = ['requested', 'waiting', 'offered', 'confirmed'] as const;
      const views = await this.views.inStates(tx, studio, [...open]);
      const inState = (state: (typeof open)[number]) =>
        views.filter(({ sitting }) => sitting.state === state);
      const requests = inState('requested');
      const next = this.upcoming(inState('confirmed'));
      const offers = (await this.waiting.unanswered(tx)).flatMap((offer) => {
        const view = inState('offered').find(({ sitting }) => sitting.id === offer.forId);
        return view ? [{ view, offer }] : [];
      });
      const freed = await this.list.freedFor(tx, studio, inState('waiting'));
      const wishes = (await this.corrections.open(tx)).flatMap((wish) => {
        const view = views.find(({ sitting }) => sitting.id === wish.sittingId);
        return view ? [{ view, wish }] : [];
      });
      const inbox = inboxOf({
        ...work,
        telephone: await this.telephone.toTell(tx, studio),
        offers,
        freed,
        requests,
        wishes,
        erasures: await this.erasures.asked(tx),
        toMove: await this.toMove(tx, studio, next),
        teachingCalls: await this.telephone.teachingToTell(tx),
        teaching: await this.teaching.of(tx, studio),
        untold: pastBefore(today, inState('confirmed')),
        owed: inState('waiting').filter(({ sitting }) => sitting.returnOwed),
        parked: await this.telephone.parkedAtHome(tx),
        unread: await this.outside.failing(tx),
      });
      const first = await this.glances.atEach(tx, studio, requests.slice(0, LINES_SHOWN), horizon);
      const glances = new Map(first.map((one) => [one.view.sitting.id, one]));
      const plates = await this.owed.counts(tx, studio);
      return { inbox, glances, next, outlooks: outlooks(horizon), noBath, plates };
    });
  }

  /** The assistant's: what is to be mixed, ordered and prepared, and who comes next. */
  assistant(studioId: string): Promise<Pick<Front, 'inbox' | 'next'>> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const { work } = await this.work(tx, studio);
      const none = {
        ...{
          telephone: [],
          offers: [],
          freed: [],
          requests: [],
          wishes: [],
          erasures: [],
          toMove: [],
          untold: [],
          owed: [],
          parked: [],
          unread: [],
        },
        ...{ teachingCalls: [], teaching: { asked: [], toOffer: [], toMove: [], due: [] } },
      };
      const views = await this.views.inStates(tx, studio, ['confirmed'], this.clock.now());
      return { inbox: inboxOf({ ...work, ...none }), next: this.upcoming(views) };
    });
  }

  /** Every request that waits for an answer, the oldest first, with what stands behind a yes. */
  requests(studioId: string): Promise<WaitingRequest[]> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const views = await this.views.inStates(tx, studio, ['requested']);
      const horizon = await this.planning.horizon(tx, this.room.today(studio));
      return this.glances.atEach(tx, studio, views, horizon);
    });
  }

  /** The confirmed sittings and open offers that cannot be as they stand, the next first. */
  allToMove(studioId: string): Promise<ToMove[]> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const views = await this.views.inStates(tx, studio, ['confirmed'], this.clock.now());
      return this.toMove(tx, studio, this.upcoming(views));
    });
  }

  /** What must be done by a date, whenever that is. */
  async due(tx: Tx, studio: Studio): Promise<Pick<InboxFacts, 'today' | 'due'>> {
    const { today, work } = await this.work(tx, studio);
    return { today, due: work.due };
  }

  private async work(tx: Tx, studio: Studio) {
    const today = this.room.today(studio);
    const horizon = await this.planning.horizon(tx, today);
    const { plan } = await this.baths.around(tx, today);
    const { tasks } = await this.preparation.around(tx, studio, today);
    const due = [...bathTasks(plan), ...shelfTasks(horizon)];
    const work: Pick<InboxFacts, 'now' | 'today' | 'due' | 'tasks'> = {
      now: this.clock.now(),
      today,
      due,
      tasks,
    };
    return { today, work, horizon, noBath: daysWithout(plan) };
  }

  private async toMove(tx: Tx, studio: Studio, next: SittingView[]): Promise<ToMove[]> {
    const clashes = next.filter(({ place }) => place?.holds === false);
    const touched = await this.settings.toBeMoved(tx, studio);
    const views = await this.views.byOccupancies(
      tx,
      studio,
      touched.map(({ occupancy }) => occupancy.id),
    );
    return [
      ...clashes.map((view) => ({ view, reason: 'clash' as const })),
      ...touched.flatMap(({ occupancy, reason }) => {
        const view = views.get(occupancy.id);
        return view ? [{ view, reason }] : [];
      }),
    ];
  }

  /** The sittings that are not over, the next first. */
  private upcoming(confirmed: SittingView[]): SittingView[] {
    const now: Temporal.Instant = this.clock.now();
    const start = ({ place }: SittingView) => place?.startsAt.epochMilliseconds ?? 0;
    return confirmed
      .filter(({ place }) => place !== null && place.endsAt.epochMilliseconds > now.epochMilliseconds)
      .sort((a, b) => start(a) - start(b));
  }
}
