// Gathers what a plan depends on, in one transaction and without a statement per person.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { ActualsService } from '../chemistry/actuals.service.js';
import { dayBounds } from '../lib/zoned-time.js';
import { Clock } from '../platform/clock.js';
import type { Tx } from '../platform/db/tx.js';
import { type DayOfPlaces, RoomService } from '../room/room.service.js';
import { DaysService } from '../stock/days.service.js';
import { IfPromised } from '../stock/if-promised.calc.js';
import { PlanningService } from '../stock/planning.service.js';
import type { Need } from '../stock/stock.schemas.js';
import { StockService } from '../stock/stock.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { type Expiry, noticeNeeded, offerExpiry } from '../waiting/expiry.calc.js';
import type { OfferLife } from '../waiting/rules.schemas.js';
import { WaitingService } from '../waiting/waiting.service.js';
import { askingKey, askingsOf } from './asking.calc.js';
import { bottleFor, needsOf } from './needs.calc.js';
import type { OnShelf, PlanFacts, Waiting } from './plan-problem.calc.js';
import { suppliesOf } from './plan-supplies.calc.js';
import type { SittingView } from './sittings.schemas.js';

@Injectable()
export class PlanFactsService {
  constructor(
    private readonly clock: Clock,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly planning: PlanningService,
    private readonly actuals: ActualsService,
    private readonly waiting: WaitingService,
    private readonly days: DaysService,
  ) {}

  /**
   * For some people, the first of the list first, over all days for which places are given. The places they have and
   * what is set aside for them count as given back.
   */
  async of(tx: Tx, studio: Studio, people: SittingView[]): Promise<PlanFacts> {
    const today = this.room.today(studio);
    const range = this.room.bookable(studio);
    const days = await this.daysByAsking(tx, studio, people);
    const rules = await this.room.rules(tx);
    const { notice, life } = await this.waiting.rules(tx);
    const yearBegins = dayBounds(studio.zone, today.with({ month: 1, day: 1 })).start;
    const end = dayBounds(studio.zone, range.until).end;
    const holding = (await this.room.between(tx, yearBegins, end, end)).filter((one) => one.holds);
    const sizes = await this.stock.plateSizes(tx);
    const items = await this.stock.items(tx);
    const figures = await this.actuals.figures(tx);
    const without = new Set(people.map(({ sitting }) => sitting.id));
    const horizon = await this.planning.horizon(tx, today, without);
    const passedOver = await this.waiting.passedOver(tx);
    const expiry = expiryBy(studio.zone, this.clock.now(), life);
    const shelf = shelfBy(new IfPromised(horizon), await this.days.besides(tx, today));
    const waiting = people.map((view): Waiting => {
      const needs = needsOf(
        view.plates,
        sizes,
        items,
        studio.reserveQuantity,
        figures,
        bottleFor(onPlates(view)),
      );
      const { farAway = null } = view.journey ?? {};
      const noticeDays = noticeNeeded(farAway, view.sitting.marks.noticeDays, notice);
      return {
        view,
        noticeDays,
        expiryOf: (startsAt) => expiry(startsAt, noticeDays),
        days: days.get(askingKey(view)) ?? [],
        needs: needs.map(({ itemId, quantity }) => ({ item: itemId, quantity })),
        shelfOn: (day) => shelf(needs, day),
        passedOver: passedOver.get(view.sitting.id) ?? new Set(),
      };
    });
    const needed = new Set(waiting.flatMap(({ needs }) => needs.map(({ item }) => item)));
    return { waiting, today, rules, holding, supplies: (dates) => suppliesOf(horizon, needed, dates) };
  }

  private async daysByAsking(
    tx: Tx,
    studio: Studio,
    people: SittingView[],
  ): Promise<Map<string, DayOfPlaces[]>> {
    const askings = askingsOf(people);
    const range = this.room.bookable(studio);
    const leaving = people.map(({ sitting }) => sitting.id);
    const days = await this.room.daysForEach(tx, studio, range, [...askings.values()], leaving);
    return new Map([...askings.keys()].map((key, at) => [key, days[at] ?? []]));
  }
}

/** How the shelf stands with needs on a day; many need the same. */
function shelfBy(ifPromised: IfPromised, besides: (day: Temporal.PlainDate) => Need[]) {
  const known = new Map<string, OnShelf>();
  return (needs: Need[], day: Temporal.PlainDate): OnShelf => {
    const key = `${needs.map(({ itemId, quantity }) => `${itemId} ${quantity}`).join()} ${day}`;
    const found = known.get(key) ?? onShelf(ifPromised.on(day, [...needs, ...besides(day)]).state);
    known.set(key, found);
    return found;
  };
}

/** When offers made at an instant would run out; many need the same notice. */
function expiryBy(zone: string, now: Temporal.Instant, life: OfferLife) {
  const known = new Map<string, Expiry>();
  return (startsAt: Temporal.Instant, noticeDays: number): Expiry => {
    const key = `${startsAt.epochMilliseconds} ${noticeDays}`;
    const found = known.get(key) ?? offerExpiry({ zone, now, startsAt, noticeDays, life });
    known.set(key, found);
    return found;
  };
}

function onShelf(state: ReturnType<IfPromised['on']>['state']): OnShelf {
  if (state === 'enough' || state === 'cannot be had') return state;
  return 'to be had';
}

function onPlates({ plates, sitters }: SittingView) {
  const ids = new Set(plates.flatMap((plate) => plate.sitterIds));
  return sitters.filter(({ id }) => ids.has(id));
}
