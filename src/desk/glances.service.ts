// What stands behind a yes, for one request or many: the open places on the days that suit, with light and shelf. No
// statement per request; those who ask for the same are reckoned once.
import { Injectable } from '@nestjs/common';
import { ActualsService } from '../chemistry/actuals.service.js';
import type { OwnFigures } from '../chemistry/learning.calc.js';
import type { Tx } from '../platform/db/tx.js';
import { needsHelper } from '../room/attendance.calc.js';
import { limitOfPlates, type PoseLimits } from '../room/pose.calc.js';
import { type DayOfPlaces, RoomService } from '../room/room.service.js';
import { askingKey, askingOf, askingsOf } from '../sittings/asking.calc.js';
import { needsOf } from '../sittings/needs.calc.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { BathsService } from '../stock/baths.service.js';
import type { Horizon } from '../stock/horizon.calc.js';
import { DaysService } from '../stock/days.service.js';
import { IfPromised } from '../stock/if-promised.calc.js';
import type { Outlook } from '../stock/outlook.calc.js';
import type { Item, PlateSize } from '../stock/stock.schemas.js';
import { StockService } from '../stock/stock.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import {
  bestPlace,
  choicesOf,
  type DayChoice,
  openPlaces,
  rangeToSearch,
  type WaitingRequest,
} from './glance.calc.js';

@Injectable()
export class GlancesService {
  constructor(
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly baths: BathsService,
    private readonly actuals: ActualsService,
    private readonly days: DaysService,
  ) {}

  /** Each request with how many places are open on its days, and the best. */
  async atEach(tx: Tx, studio: Studio, requests: SittingView[], horizon: Horizon): Promise<WaitingRequest[]> {
    const shelf = await this.shelfAhead(tx, horizon);
    const { limits } = await this.room.rules(tx);
    const askings = askingsOf(requests);
    const found = await this.room.daysForEach(tx, studio, this.room.bookable(studio), [...askings.values()]);
    const days = new Map([...askings.keys()].map((key, at) => [key, found[at] ?? []]));
    return requests.map((view) => {
      const places = openPlaces(choices(view, studio, days.get(askingKey(view)) ?? [], shelf));
      return { view, limit: limitOfView(view, limits), open: places.length, best: bestPlace(places) };
    });
  }

  /** Every day that suits a request, open or not, with its baths. */
  async choicesFor(tx: Tx, studio: Studio, view: SittingView, horizon: Horizon): Promise<DayChoice[]> {
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
    const besides = await this.days.besides(tx, horizon.today);
    return { items, sizes, figures, besides, ifPromised: new IfPromised(horizon), known: new Map() };
  }
}

/** What is known of the shelf while many requests are looked at. */
interface ShelfAhead {
  items: Item[];
  sizes: PlateSize[];
  figures: OwnFigures;
  besides: Awaited<ReturnType<DaysService['besides']>>;
  ifPromised: IfPromised;
  /** What was reckoned before for the same plates and day; many ask for the same. */
  known: Map<string, Outlook>;
}

function choices(view: SittingView, studio: Studio, days: DayOfPlaces[], shelf: ShelfAhead): DayChoice[] {
  const { items, sizes, figures, besides, ifPromised, known } = shelf;
  const helped = new Map(days.map((day) => [day.date.toString(), day.helper]));
  const wanted = view.plates.some((plate) => {
    const size = sizes.find((one) => one.id === plate.plateSizeId);
    return size !== undefined && needsHelper({ ...size, people: plate.sitterIds.length });
  });
  const needs = needsOf(view.plates, sizes, items, studio.reserveQuantity, figures);
  const sameNeeds = needs.map(({ itemId, quantity }) => `${itemId} ${quantity}`).join();
  const found = choicesOf(view.sitting.suits, days, (day) => {
    const key = `${sameNeeds} ${day}`;
    const outlook = known.get(key) ?? ifPromised.on(day, [...needs, ...besides(day)]);
    known.set(key, outlook);
    return outlook;
  });
  if (!wanted) return found;
  return found.map((day) => (helped.get(day.date.toString()) ? day : { ...day, helperMissing: true }));
}

/** Seconds that all on their plates can hold still. */
export function limitOfView({ plates, sitters }: SittingView, limits: PoseLimits): number {
  const onPlate = ({ sitterIds }: SittingView['plates'][number]) =>
    sitters.filter((one) => sitterIds.includes(one.id));
  return limitOfPlates(plates.map(onPlate), limits);
}
