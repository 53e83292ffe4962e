// What the desk's pages show, gathered from the features to its left: one transaction a page, no statement
// per request. It decides nothing; decisions are made in sittings.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Account } from '../accounts/accounts.schemas.js';
import { LinksService } from '../accounts/links.service.js';
import { ActualsService } from '../chemistry/actuals.service.js';
import type { OwnFigures } from '../chemistry/learning.calc.js';
import { Clock } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import { Db } from '../platform/db/db.js';
import { type HistoryLine, recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import type { Sitter } from '../people/people.schemas.js';
import { PeopleService } from '../people/people.service.js';
import { needsHelper } from '../room/attendance.calc.js';
import { limitOfPlates, type PoseLimits } from '../room/pose.calc.js';
import type { Touched, TouchedReason } from '../room/preview.calc.js';
import { type DayOfPlaces, RoomService } from '../room/room.service.js';
import { SettingsService } from '../room/settings.service.js';
import { askingKey, askingOf, askingsOf } from '../sittings/asking.calc.js';
import { needsOf } from '../sittings/needs.calc.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { next } from '../sittings/states.calc.js';
import { SittingViews } from '../sittings/views.service.js';
import type { NoBath } from '../stock/bath-days.calc.js';
import { BathsService } from '../stock/baths.service.js';
import type { Horizon } from '../stock/horizon.calc.js';
import { IfPromised } from '../stock/if-promised.calc.js';
import { type Outlook, outlooks } from '../stock/outlook.calc.js';
import { PlanningService } from '../stock/planning.service.js';
import type { Item, PlateSize, SetAside } from '../stock/stock.schemas.js';
import { StockService } from '../stock/stock.service.js';
import { type ToDo, toDo } from '../stock/to-do.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import type { Offer } from '../waiting/offers.schemas.js';
import { WaitingService } from '../waiting/waiting.service.js';
import {
  bestPlace,
  choicesOf,
  type DayChoice,
  openPlaces,
  pastBefore,
  type PlaceChoice,
  rangeToSearch,
} from './glance.calc.js';

export interface WaitingRequest {
  view: SittingView;
  /** Seconds that all on their plates can hold still. */
  limit: number;
  /** How many places could be given, and the one to look at first. */
  open: number;
  best: PlaceChoice | null;
}

/** A confirmed sitting that wants another day, and why. */
export interface ToMove {
  view: SittingView;
  reason: TouchedReason | 'clash';
}

export interface Front {
  waiting: WaitingRequest[];
  toMove: ToMove[];
  next: SittingView[];
  /** Those of days past of which nobody told how they ended, the oldest first. */
  untold: SittingView[];
  /** How the shelf stands with each confirmed sitting, by its id. */
  outlooks: Map<string, Outlook>;
  /** What is to be done at the shelf soon. */
  todo: ToDo[];
  /** The days with plates that no silver bath takes, by date as "2027-05-14". */
  noBath: Map<string, NoBath>;
}

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
  /** Why no silver bath takes the day it is confirmed for; null where one does, or where no bath is kept. */
  noBath: NoBath | null;
  /** Whole address of the page of whoever asked; null once it has run out. */
  theirPage: string | null;
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
    private readonly stock: StockService,
    private readonly baths: BathsService,
    private readonly planning: PlanningService,
    private readonly views: SittingViews,
    private readonly waiting: WaitingService,
    private readonly actuals: ActualsService,
  ) {}

  /** The owner's front page. */
  front(studioId: string): Promise<Front> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const today = this.room.today(studio);
      const views = await this.views.inStates(tx, studio, ['requested', 'confirmed'], this.clock.now());
      const horizon = await this.planning.horizon(tx, today);
      const shelf = await this.shelfAhead(tx, horizon);
      const requests = views.filter((view) => view.sitting.state === 'requested');
      const { limits } = await this.room.rules(tx);
      const days = await this.daysByAsking(tx, studio, requests);
      const waiting = requests.map((view) => {
        const found = days.get(askingKey(view)) ?? [];
        const places = openPlaces(choices(view, studio, found, shelf));
        return { view, limit: limitOfView(view, limits), open: places.length, best: bestPlace(places) };
      });
      const next = this.upcoming(views);
      const toMove = await this.toMove(tx, studio, next);
      const noBath = await this.baths.daysWithout(tx, today);
      const untold = pastBefore(today, await this.views.inStates(tx, studio, ['confirmed']));
      return { waiting, toMove, next, untold, outlooks: outlooks(horizon), todo: toDo(horizon), noBath };
    });
  }

  /** The confirmed sittings to come, the next first. */
  next(studioId: string): Promise<SittingView[]> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      return this.upcoming(await this.views.inStates(tx, studio, ['confirmed'], this.clock.now()));
    });
  }

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
        choices: decidable ? await this.choicesFor(tx, studio, view, horizon) : null,
        limit: limitOfView(view, (await this.room.rules(tx)).limits),
        setAside: await this.views.setAside(tx, sittingId),
        offer: await this.waiting.openFor(tx, sittingId),
        now: this.clock.now(),
        theirPage: await this.theirPage(tx, studio, sittingId),
        outlook: outlooks(horizon).get(sittingId) ?? null,
        noBath: (view.place?.holds && noBath.get(view.place.wallStart.toPlainDate().toString())) || null,
      };
    });
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
  ): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const view = await this.views.byId(tx, await this.studios.load(tx), sittingId);
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

  private async toMove(tx: Tx, studio: Studio, next: SittingView[]): Promise<ToMove[]> {
    const clashes = next.filter(({ place }) => place?.holds === false);
    const touched = await this.viewsOf(tx, studio, await this.settings.toBeMoved(tx, studio));
    return [...clashes.map((view) => ({ view, reason: 'clash' as const })), ...touched];
  }

  private async viewsOf(tx: Tx, studio: Studio, touched: Touched[]) {
    const ids = touched.map(({ occupancy }) => occupancy.id);
    const views = await this.views.byOccupancies(tx, studio, ids);
    return touched.flatMap(({ occupancy, reason }) => {
      const view = views.get(occupancy.id);
      return view ? [{ view, reason }] : [];
    });
  }

  private async daysByAsking(
    tx: Tx,
    studio: Studio,
    requests: SittingView[],
  ): Promise<Map<string, DayOfPlaces[]>> {
    const askings = askingsOf(requests);
    const days = await this.room.daysForEach(tx, studio, this.room.bookable(studio), [...askings.values()]);
    return new Map([...askings.keys()].map((key, at) => [key, days[at] ?? []]));
  }

  private async choicesFor(
    tx: Tx,
    studio: Studio,
    view: SittingView,
    horizon: Horizon,
  ): Promise<DayChoice[]> {
    const range = rangeToSearch(view.sitting.suits, this.room.bookable(studio));
    if (!range) return [];
    const days = await this.room.days(tx, studio, range, askingOf(view));
    const found = choices(view, studio, days, await this.shelfAhead(tx, horizon));
    const dates = found.map((day) => day.date);
    const plateSizes = view.plates.map((plate) => plate.plateSizeId);
    const baths = await this.baths.readiness(tx, dates, horizon.today, plateSizes);
    return found.map((day) => {
      const reason = baths.get(day.date.toString())?.reason ?? null;
      return reason === null || reason === 'no bath' ? day : { ...day, noBath: reason };
    });
  }

  private async shelfAhead(tx: Tx, horizon: Horizon): Promise<ShelfAhead> {
    const items = [...horizon.items.values()].map(({ item }) => item);
    const sizes = await this.stock.plateSizes(tx);
    const figures = await this.actuals.figures(tx);
    return { items, sizes, figures, ifPromised: new IfPromised(horizon), known: new Map() };
  }

  private upcoming(views: SittingView[]): SittingView[] {
    const now = this.clock.now().epochMilliseconds;
    const start = ({ place }: SittingView) => place?.startsAt.epochMilliseconds ?? 0;
    return views
      .filter((view) => view.sitting.state === 'confirmed')
      .filter(({ place }) => place !== null && place.endsAt.epochMilliseconds > now)
      .sort((a, b) => start(a) - start(b));
  }
}

/** What is known of the shelf while many requests are looked at. */
interface ShelfAhead {
  items: Item[];
  sizes: PlateSize[];
  figures: OwnFigures;
  ifPromised: IfPromised;
  /** What was reckoned before for the same plates and day; many ask for the same. */
  known: Map<string, Outlook>;
}

function choices(view: SittingView, studio: Studio, days: DayOfPlaces[], shelf: ShelfAhead): DayChoice[] {
  const { items, sizes, figures, ifPromised, known } = shelf;
  const helped = new Map(days.map((day) => [day.date.toString(), day.helper]));
  const wanted = view.plates.some((plate) => {
    const size = sizes.find((one) => one.id === plate.plateSizeId);
    return size !== undefined && needsHelper({ ...size, people: plate.sitterIds.length });
  });
  const needs = needsOf(view.plates, sizes, items, studio.reserveQuantity, figures);
  const sameNeeds = needs.map(({ itemId, quantity }) => `${itemId} ${quantity}`).join();
  const found = choicesOf(view.sitting.suits, days, (day) => {
    const key = `${sameNeeds} ${day}`;
    const outlook = known.get(key) ?? ifPromised.on(day, needs);
    known.set(key, outlook);
    return outlook;
  });
  if (!wanted) return found;
  return found.map((day) => (helped.get(day.date.toString()) ? day : { ...day, helperMissing: true }));
}

function limitOfView({ plates, sitters }: SittingView, limits: PoseLimits): number {
  const onPlate = ({ sitterIds }: SittingView['plates'][number]) =>
    sitters.filter((one) => sitterIds.includes(one.id));
  return limitOfPlates(plates.map(onPlate), limits);
}
