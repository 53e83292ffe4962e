// What the desk's pages show, gathered from the features to its left: one transaction a page, no statement
// per request. It decides nothing; decisions are made in sittings.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Account } from '../accounts/accounts.schemas.js';
import { LinksService } from '../accounts/links.service.js';
import { Clock } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import { editAlone } from '../platform/db/alone.js';
import { Db } from '../platform/db/db.js';
import { type HistoryLine, type HistoryRow, historyBefore, recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import type { Sitter } from '../people/people.schemas.js';
import { PeopleService } from '../people/people.service.js';
import type { Touched, TouchedReason } from '../room/preview.calc.js';
import { RoomService } from '../room/room.service.js';
import { SettingsService } from '../room/settings.service.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { next } from '../sittings/states.calc.js';
import { SittingViews } from '../sittings/views.service.js';
import type { NoBath } from '../stock/bath-days.calc.js';
import { BathsService } from '../stock/baths.service.js';
import { type Outlook, outlooks } from '../stock/outlook.calc.js';
import { PlanningService } from '../stock/planning.service.js';
import type { SetAside } from '../stock/stock.schemas.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import type { Offer } from '../waiting/offers.schemas.js';
import { WaitingService } from '../waiting/waiting.service.js';
import type { DayChoice } from './glance.calc.js';
import { GlancesService, limitOfView } from './glances.service.js';
import { type LastAct, UndoActs } from './undo-acts.service.js';

export interface WholeRequest {
  view: SittingView;
  history: HistoryLine[];
  /** The days that suit, while there is something to decide; else null. */
  choices: DayChoice[] | null;
  limit: number;
  setAside: SetAside[];
  /** The offer nobody has answered, and the moment it is looked at. */
  offer: Offer | null;
  now: Temporal.Instant;
  /** How the shelf stands with it; null when nothing is set aside for days to come. */
  outlook: Outlook | null;
  /** Why the day that is offered cannot be held; null where it can, or nothing is offered. */
  shut: TouchedReason | null;
  /** Why no silver bath takes the day it is confirmed for; null where one does, or where no bath is kept. */
  noBath: NoBath | null;
  /** Whole address of the page of whoever asked; null once it has run out. */
  theirPage: string | null;
  /** What the desk did last with it, while nothing happened since. */
  lastAct: LastAct | null;
}

@Injectable()
export class DeskService {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly config: Config,
    private readonly links: LinksService,
    private readonly studios: StudiosService,
    private readonly people: PeopleService,
    private readonly room: RoomService,
    private readonly settings: SettingsService,
    private readonly baths: BathsService,
    private readonly planning: PlanningService,
    private readonly views: SittingViews,
    private readonly waiting: WaitingService,
    private readonly undo: UndoActs,
    private readonly glances: GlancesService,
  ) {}

  /** Everything about one request or sitting. @throws AppError not_found */
  request(studioId: string, sittingId: string): Promise<WholeRequest> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const view = await this.views.byId(tx, studio, sittingId);
      const decidable = next(view.sitting.state, 'approve') !== null;
      const horizon = await this.planning.horizon(tx, this.room.today(studio));
      const noBath = await this.baths.daysWithout(tx, horizon.today);
      return {
        view,
        history: await this.views.history(tx, sittingId),
        choices: decidable ? await this.glances.choicesFor(tx, studio, view, horizon) : null,
        limit: limitOfView(view, (await this.room.rules(tx)).limits),
        setAside: await this.views.setAside(tx, sittingId),
        offer: await this.waiting.openFor(tx, sittingId),
        now: this.clock.now(),
        lastAct: await this.undo.last(tx, sittingId),
        theirPage: await this.theirPage(tx, studio, sittingId),
        outlook: outlooks(horizon).get(sittingId) ?? null,
        shut: view.sitting.state === 'offered' ? await this.whyShut(tx, studio, view) : null,
        noBath: (view.place?.holds && noBath.get(view.place.wallStart.toPlainDate().toString())) || null,
      };
    });
  }

  /** Why a place cannot be as it stands; null where it can. */
  private async whyShut(tx: Tx, studio: Studio, { sitting }: SittingView): Promise<TouchedReason | null> {
    const touched = await this.settings.toBeMoved(tx, studio);
    return touched.find(({ occupancy }) => occupancy.id === sitting.occupancyId)?.reason ?? null;
  }

  /** What was done, the newest first. @param before the line to go on from; null for the newest */
  log(studioId: string, before: bigint | null, count: number): Promise<HistoryRow[]> {
    return this.db.inStudio(studioId, (tx) => historyBefore(tx, before, count));
  }

  private async theirPage(tx: Tx, { slug }: Studio, sittingId: string): Promise<string | null> {
    const link = await this.links.find(tx, 'place', sittingId);
    return link && `${this.config.publicUrl}/s/${slug}/place/${this.links.token(link)}`;
  }

  /** Notes how the people of a sitting hold still, as `poseOf` says of each. @throws AppError not_found */
  async setPose(
    studioId: string,
    who: Account,
    sittingId: string,
    poseOf: (sitterId: string) => Pick<Sitter, 'ageBand' | 'headRest'>,
    check: (stands: readonly Sitter[]) => void = () => {},
  ): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'pose');
      const view = await this.views.byId(tx, await this.studios.load(tx), sittingId);
      check(view.sitters);
      const poses = view.sitters.map(({ id }) => ({ id, ...poseOf(id) }));
      await this.people.setPose(tx, view.contact.id, poses);
      const about = { aboutKind: 'sitting', aboutId: sittingId, event: 'pose' };
      await recordHistory(tx, this.clock, { who: who.name, ...about });
    });
  }

  /** The views of some sittings of a preview, in its order. */
  touchedViews(
    studioId: string,
    touched: Touched[],
  ): Promise<{ view: SittingView; reason: TouchedReason }[]> {
    return this.db.inStudio(studioId, async (tx) => this.viewsOf(tx, await this.studios.load(tx), touched));
  }

  private async viewsOf(tx: Tx, studio: Studio, touched: Touched[]) {
    const ids = touched.map(({ occupancy }) => occupancy.id);
    const views = await this.views.byOccupancies(tx, studio, ids);
    return touched.flatMap(({ occupancy, reason }) => {
      const view = views.get(occupancy.id);
      return view ? [{ view, reason }] : [];
    });
  }
}
