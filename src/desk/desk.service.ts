// What the desk's pages show, gathered from the features to its left: one transaction a page, no statement
// per request. It decides nothing; decisions are made in sittings.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Account } from '../accounts/accounts.schemas.js';
import { LinksService } from '../accounts/links.service.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import type { HistoryLine } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { type DayOfPlaces, RoomService } from '../room/room.service.js';
import { needsOf } from '../sittings/needs.calc.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { next } from '../sittings/states.calc.js';
import { SittingViews } from '../sittings/views.service.js';
import { coverOn, type Shelf } from '../stock/cover.calc.js';
import type { PlateSize, SetAside } from '../stock/stock.schemas.js';
import { StockService } from '../stock/stock.service.js';
import { type Want, wantsOf } from '../stock/wants.calc.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import {
  bestPlace,
  choicesOf,
  type DayChoice,
  openPlaces,
  type PlaceChoice,
  rangeToSearch,
  type StockGlance,
  stockGlance,
} from './glance.calc.js';

export interface WaitingRequest {
  view: SittingView;
  /** How many places could be given, and the one to look at first. */
  open: number;
  best: PlaceChoice | null;
}

export interface Front {
  waiting: WaitingRequest[];
  next: SittingView[];
  wants: Want[];
}

export interface WholeRequest {
  view: SittingView;
  history: HistoryLine[];
  /** The days that suit, while there is something to decide; else null. */
  choices: DayChoice[] | null;
  setAside: SetAside[];
}

export interface ShelfNow {
  today: Temporal.PlainDate;
  shelf: Shelf;
  /** All that is still to be mixed or ordered for given places. */
  wants: Want[];
}

@Injectable()
export class DeskService {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly links: LinksService,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly views: SittingViews,
  ) {}

  /** The owner's front page. */
  front(studioId: string): Promise<Front> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const today = this.room.today(studio);
      const views = await this.views.inStates(tx, studio, ['requested', 'confirmed']);
      const shelf = await this.shelfIn(tx);
      const sizes = await this.stock.plateSizes(tx);
      const requests = views.filter((view) => view.sitting.state === 'requested');
      const days = await this.daysByPlates(tx, studio, requests);
      const known = new Map<string, StockGlance>();
      const waiting = requests.map((view) => {
        const found = days.get(view.plates.length) ?? [];
        const places = openPlaces(choices(view, studio, { days: found, shelf, sizes, today, known }));
        return { view, open: places.length, best: bestPlace(places) };
      });
      const wants = wantsOf(await this.stock.planned(tx, today), shelf, today);
      return { waiting, next: this.upcoming(views), wants };
    });
  }

  /** The confirmed sittings to come, the next first. */
  next(studioId: string): Promise<SittingView[]> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      return this.upcoming(await this.views.inStates(tx, studio, ['confirmed']));
    });
  }

  /** Everything about one request or sitting. @throws AppError not_found */
  request(studioId: string, sittingId: string): Promise<WholeRequest> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const view = await this.views.byId(tx, studio, sittingId);
      const decidable = next(view.sitting.state, 'approve') !== null;
      return {
        view,
        history: await this.views.history(tx, sittingId),
        choices: decidable ? await this.choicesFor(tx, studio, view) : null,
        setAside: await this.views.setAside(tx, sittingId),
      };
    });
  }

  shelf(studioId: string): Promise<ShelfNow> {
    return this.db.inStudio(studioId, async (tx) => {
      const today = this.room.today(await this.studios.load(tx));
      const shelf = await this.shelfIn(tx);
      return { today, shelf, wants: wantsOf(await this.stock.planned(tx, today), shelf, today, null) };
    });
  }

  /** Makes the owner's calendar link, if there is none yet. */
  async makeCalendar(studioId: string, owner: Account): Promise<void> {
    await this.db.inStudio(studioId, (tx) => this.links.ensure(tx, 'feed', owner.id, 'owner'));
  }

  /** The open places depend on how many plates are made, and on nothing else of a request. */
  private async daysByPlates(
    tx: Tx,
    studio: Studio,
    requests: SittingView[],
  ): Promise<Map<number, DayOfPlaces[]>> {
    const days = new Map<number, DayOfPlaces[]>();
    for (const plates of new Set(requests.map((view) => view.plates.length)))
      days.set(plates, await this.room.days(tx, studio, this.room.bookable(studio), plates));
    return days;
  }

  private async choicesFor(tx: Tx, studio: Studio, view: SittingView): Promise<DayChoice[]> {
    const range = rangeToSearch(view.sitting.suits, this.room.bookable(studio));
    if (!range) return [];
    const days = await this.room.days(tx, studio, range, view.plates.length);
    const shelf = await this.shelfIn(tx);
    const sizes = await this.stock.plateSizes(tx);
    const known = new Map<string, StockGlance>();
    return choices(view, studio, { days, shelf, sizes, today: this.room.today(studio), known });
  }

  private async shelfIn(tx: Tx): Promise<Shelf> {
    return { items: await this.stock.items(tx), lots: await this.stock.lots(tx) };
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

interface Circumstances {
  days: DayOfPlaces[];
  shelf: Shelf;
  sizes: PlateSize[];
  today: Temporal.PlainDate;
  /** What was reckoned before for the same plates and day; many ask for the same. */
  known: Map<string, StockGlance>;
}

function choices(view: SittingView, studio: Studio, facts: Circumstances): DayChoice[] {
  const { days, shelf, sizes, today, known } = facts;
  const needs = needsOf(view.plates, sizes, shelf.items, studio.reserveQuantity);
  const sameNeeds = needs.map(({ itemId, quantity }) => `${itemId} ${quantity}`).join();
  return choicesOf(view.sitting.suits, days, (day) => {
    const key = `${sameNeeds} ${day}`;
    const glance = known.get(key) ?? stockGlance(coverOn(needs, shelf, day, today));
    known.set(key, glance);
    return glance;
  });
}
