// One day for whoever works on it: who comes, when, on which plates, out of which bottles and bath, and how it went.
// As many statements for one sitting as for six. It decides nothing.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { type LightWindow, lightWindow } from '../daylight/window.calc.js';
import { dayBounds } from '../lib/zoned-time.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { isThere } from '../room/attendance.calc.js';
import type { Made } from '../plates/made.schemas.js';
import { MadeService } from '../plates/made.service.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import { type HoldStill, holdStillIn } from '../room/openings.calc.js';
import { limitOfPlates, type PoseLimits } from '../room/pose.calc.js';
import { RoomService } from '../room/room.service.js';
import { NOTHING_YET, type SittingDay } from '../sittings/endings.schemas.js';
import { EndingsService } from '../sittings/endings.service.js';
import type { SittingView } from '../sittings/sittings.schemas.js';
import { SittingViews } from '../sittings/views.service.js';
import { type BathDay, plannedFor } from '../stock/bath-days.calc.js';
import { BathsService } from '../stock/baths.service.js';
import { type FaultOfDay, FaultsService } from '../stock/faults.service.js';
import type { ItemKind, PlateSize } from '../stock/stock.schemas.js';
import { StockService } from '../stock/stock.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { TeachingCalendar } from '../teaching/calendar-days.service.js';
import type { DayView, DayWithPeople } from '../teaching/day-views.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { asksForHelper, daysBeside, type DullPlan, dullPlan, LOOK_DAYS } from './day-facts.calc.js';
import { limitOfView } from './glances.service.js';

/** What is poured of something, by the bottles it is set aside from; null: still to be mixed or bought. */
export interface Poured {
  item: string;
  bottles: (string | null)[];
}

export interface OnSheet {
  view: SittingView;
  place: Occupancy;
  day: SittingDay;
  /** How long they hold still; null where the light is too low or too long. */
  holdStill: HoldStill | null;
  /** How long each can, in seconds, in the order they were named. */
  canHold: { name: string; seconds: number }[];
  /** Null where they hold still for as long as a dull sky asks, too. */
  dull: DullPlan | null;
  asksForHelper: boolean;
  poured: Poured[];
}

export interface DaySheet {
  date: Temporal.PlainDate;
  today: Temporal.PlainDate;
  zone: string;
  /** Good light of the day; null where there is none. */
  window: LightWindow | null;
  /** In the order of their hours; offered places are not among them. */
  sittings: OnSheet[];
  helper: boolean;
  /** Which bath takes its plates, or why none does; null for days past and where nothing is set aside. */
  bath: BathDay | null;
  /** For test plates and the day itself. */
  poured: Poured[];
  /** What was wrong with the chemistry that day. */
  faults: FaultOfDay[];
  /** The studio days beside it; null where none is near. */
  before: Temporal.PlainDate | null;
  after: Temporal.PlainDate | null;
  /** Plates of the day that were typed in, in the order of their numbers. */
  made: Made[];
  /** Teaching days of the date, in the order of their hours. */
  teaching: (DayView & DayWithPeople)[];
}

/** What is poured at the bench; glass and parcels are no bottles. */
const BENCH: readonly ItemKind[] = ['collodion', 'developer', 'fixer', 'varnish'];

@Injectable()
export class DaySheets {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly baths: BathsService,
    private readonly faults: FaultsService,
    private readonly views: SittingViews,
    private readonly endings: EndingsService,
    private readonly made: MadeService,
    private readonly calendar: TeachingCalendar,
  ) {}

  of(studioId: string, date: Temporal.PlainDate): Promise<DaySheet> {
    return this.db.inStudio(studioId, async (tx) => {
      const studio = await this.studios.load(tx);
      const near = await this.placesNear(tx, studio, date);
      const places = near
        .filter((one) => one.kind === 'sitting' && one.wallStart.toPlainDate().equals(date))
        .sort((one, other) => one.startsAt.epochMilliseconds - other.startsAt.epochMilliseconds);
      const ids = places.map((one) => one.heldFor);
      const views = new Map((await this.views.byIds(tx, studio, ids)).map((view) => [view.sitting.id, view]));
      const days = await this.endings.of(tx, ids);
      const window = lightWindow(studio, date, studio.lightFloorDegrees);
      const { limits, helper, rhythms } = await this.room.rules(tx);
      const sizes = await this.stock.plateSizes(tx);
      const today = this.room.today(studio);
      const held = await this.stock.heldOn(tx, date);
      const about = { limits, sizes };
      const sittings = places.flatMap((place): OnSheet[] => {
        const view = views.get(place.heldFor);
        if (!view) return [];
        const holdStill = holdStillIn(studio, window, place);
        const day = days.get(place.heldFor) ?? NOTHING_YET;
        const own = held.filter(({ heldFor }) => heldFor === place.heldFor);
        return [{ view, place, day, holdStill, ...asks(view, holdStill, about), poured: pouredOf(own) }];
      });
      const others = held.filter(({ heldFor }) => !near.some((place) => place.heldFor === heldFor));
      return {
        date,
        today,
        zone: studio.zone,
        window,
        sittings,
        helper: isThere(helper, date),
        bath: plannedFor((await this.baths.around(tx, today)).plan, date),
        poured: pouredOf(others),
        faults: await this.faults.onDay(tx, date),
        made: await this.made.plates(tx, date),
        teaching: await this.taught(tx, near, date),
        ...daysBeside(
          date,
          rhythms,
          near.map((one) => one.wallStart.toPlainDate()),
        ),
      };
    });
  }

  private async taught(tx: Tx, near: Occupancy[], date: Temporal.PlainDate): Promise<DaySheet['teaching']> {
    const places = near.filter((one) => one.kind === 'teaching' && one.wallStart.toPlainDate().equals(date));
    const days = await this.calendar.days(
      tx,
      places.map((one) => one.heldFor),
    );
    return places.flatMap((place) => {
      const day = days.get(place.heldFor);
      return day ? [{ ...day, place }] : [];
    });
  }

  /** Places that hold the room around a date, offered ones left out. */
  private async placesNear(tx: Tx, { zone }: Studio, date: Temporal.PlainDate): Promise<Occupancy[]> {
    const from = dayBounds(zone, date.subtract({ days: LOOK_DAYS })).start;
    const until = dayBounds(zone, date.add({ days: LOOK_DAYS })).end;
    const places = await this.room.between(tx, from, until, this.clock.now());
    return places.filter((one) => one.holds && !one.tentative && one.kind !== 'closure');
  }
}

function asks(
  view: SittingView,
  holdStill: HoldStill | null,
  { limits, sizes }: { limits: PoseLimits; sizes: PlateSize[] },
): Pick<OnSheet, 'canHold' | 'dull' | 'asksForHelper'> {
  return {
    canHold: view.sitters.map((one) => ({ name: one.name, seconds: limitOfPlates([[one]], limits) })),
    dull: holdStill && dullPlan(holdStill, limitOfView(view, limits), view.plates, sizes),
    asksForHelper: asksForHelper(view.plates, sizes),
  };
}

function pouredOf(held: { item: { name: string; kind: ItemKind }; bottle: string | null }[]): Poured[] {
  const byItem = new Map<string, Poured>();
  for (const kind of BENCH)
    for (const { item, bottle } of held) {
      if (item.kind !== kind) continue;
      const one = byItem.get(item.name) ?? { item: item.name, bottles: [] };
      if (!one.bottles.includes(bottle)) one.bottles.push(bottle);
      byItem.set(item.name, one);
    }
  return [...byItem.values()];
}
