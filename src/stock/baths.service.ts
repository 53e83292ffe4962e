// Silver baths: what is in them, which day each of them takes, and what their owner tells of them. What is written
// into a ledger goes through bath-ledger.service.ts.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { Account } from '../accounts/accounts.schemas.js';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { type BathPlan, planBaths, platesByDay, type PlatesOfDay, readinessOf } from './bath-days.calc.js';
import { daysWithout, type NoBath, type Readiness } from './bath-days.calc.js';
import { bathForm, newBathForm } from './bath-forms.schemas.js';
import { type BathNow, bathNow, chartOf, type ChartPoint, standing } from './baths.calc.js';
import { type Bath, type BathEvent, type Fault, plainEvent } from './baths.schemas.js';
import { BathsStore } from './baths.store.js';
import type { Item, Lot, PlateSize } from './stock.schemas.js';
import { StockService } from './stock.service.js';
import { moreThanFull } from './words.calc.js';

export interface Baths {
  today: Temporal.PlainDate;
  baths: BathNow[];
  plates: PlatesOfDay[];
  plan: BathPlan;
  sizes: PlateSize[];
}

export interface WholeBath extends Baths {
  now: BathNow;
  /** The whole ledger, in the order in which things happened. */
  events: BathEvent[];
  chart: ChartPoint[];
  /** Bottles of silver nitrate. */
  crystals: Lot[];
  faults: Fault[];
}

const MOST_FAULTS = 50;

@Injectable()
export class BathsService {
  private readonly store = new BathsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly stock: StockService,
  ) {}

  /** All baths as they stand, and the days they take: four statements, whatever there is. */
  async around(tx: Tx, today: Temporal.PlainDate): Promise<Baths> {
    const { baths, plates, sizes } = await this.read(tx, today);
    return { today, baths, plates, sizes, plan: planBaths(plates, baths, sizes, today) };
  }

  /** All baths, the retired ones last. */
  list(tx: Tx): Promise<Bath[]> {
    return this.store.baths(tx);
  }

  /** The days with plates that no bath takes, by date as "2027-05-14"; none where no bath was ever entered. */
  async daysWithout(tx: Tx, today: Temporal.PlainDate): Promise<Map<string, NoBath>> {
    return daysWithout((await this.around(tx, today)).plan);
  }

  /**
   * How each of some days stands for want of a bath, by its date as "2027-05-14". Where no bath was ever entered
   * every day is 'not ready' for the reason 'no bath'; callers may take that for baths that are not kept here.
   * @param plateSizeIds sizes that each of these days would have to take besides what is set aside for it
   */
  async readiness(
    tx: Tx,
    days: readonly Temporal.PlainDate[],
    today: Temporal.PlainDate,
    plateSizeIds: readonly string[] = [],
  ): Promise<Map<string, Readiness>> {
    const { baths, plates, sizes } = await this.read(tx, today);
    const besides = sizes.filter((one) => plateSizeIds.includes(one.id));
    const known = new Set(plates.map(({ date }) => date.toString()));
    const others = days.filter((date) => !known.has(date.toString()));
    const all = [...plates, ...others.map((date) => ({ date, plates: 0, area: 0n, sizes: [] }))].sort(
      (a, b) => Temporal.PlainDate.compare(a.date, b.date),
    );
    const asked = new Set(days.map(String));
    const wanted = all.map((day) =>
      asked.has(day.date.toString()) ? { ...day, sizes: [...day.sizes, ...besides] } : day,
    );
    return new Map(
      planBaths(wanted, baths, sizes, today).days.flatMap((day) =>
        asked.has(day.date.toString()) ? [[day.date.toString(), readinessOf(day)] as const] : [],
      ),
    );
  }

  all(studioId: string): Promise<Baths & { faults: Fault[]; crystals: Lot[] }> {
    return this.db.inStudio(studioId, async (tx) => {
      const around = await this.around(tx, this.room.today(await this.studios.load(tx)));
      return {
        ...around,
        faults: await this.store.faults(tx, MOST_FAULTS),
        crystals: await this.crystals(tx),
      };
    });
  }

  /** One bath with its ledger. @throws AppError not_found */
  one(studioId: string, bathId: string): Promise<WholeBath> {
    return this.db.inStudio(studioId, async (tx) => {
      const around = await this.around(tx, this.room.today(await this.studios.load(tx)));
      const now = around.baths.find(({ bath }) => bath.id === bathId) ?? unknown();
      const events = await this.store.events(tx, [bathId]);
      const ahead = around.plan.days.filter(({ bath, topUp }) => bath?.id === bathId && topUp === null);
      const faults = await this.store.faults(tx, MOST_FAULTS, bathId);
      return {
        ...around,
        now,
        events,
        faults,
        chart: chartOf(now.bath, events, untilTopUp(around.plan, bathId, ahead)),
        crystals: await this.crystals(tx, now.bath.lotId),
      };
    });
  }

  /** Enters a bath, with what is in it. The same id twice is one bath. @throws AppError bad_input */
  add(studioId: string, who: Account, bathId: string, input: unknown): Promise<void> {
    const said = readInput(bathForm.and(newBathForm), input);
    return this.db.inStudio(studioId, async (tx) => {
      const { strength, inIt, ...rest } = said;
      await this.check(tx, rest);
      if (inIt !== null && inIt > rest.volume)
        throw new AppError('bad_input', undefined, [{ field: 'inIt', message: moreThanFull(rest.volume) }]);
      if (await this.store.locked(tx, bathId)) return;
      const day = this.room.today(await this.studios.load(tx));
      const state = { state: 'working', stateSince: day, stateUntil: null } as const;
      await this.store.save(tx, { ...rest, ...state, id: bathId });
      const line = { id: this.random.id(), bathId, day, who: who.name };
      const volume = inIt ?? rest.volume;
      await this.store.addEvent(tx, { ...plainEvent('made', line), strength, volume }, this.clock.now());
      await this.note(tx, who, bathId, 'bath', rest.name);
    });
  }

  /** Changes what is told of a bath; its ledger and state stay. @throws AppError bad_input, not_found */
  change(
    studioId: string,
    who: Account,
    bathId: string,
    input: unknown,
    check: (bath: Bath) => void = () => {},
  ): Promise<void> {
    const said = readInput(bathForm, input);
    return this.db.inStudio(studioId, async (tx) => {
      const bath = (await this.store.locked(tx, bathId)) ?? unknown();
      check(bath);
      await this.check(tx, said, bath.lotId);
      await this.store.save(tx, { ...bath, ...said });
      await this.note(tx, who, bathId, 'bath', said.name);
    });
  }

  private async read(tx: Tx, today: Temporal.PlainDate) {
    const sizes = await this.stock.plateSizes(tx);
    const all = await this.store.baths(tx);
    const events = await this.store.events(
      tx,
      all.map((one) => one.id),
    );
    const baths = all.map((bath) =>
      bathNow(
        bath,
        events.filter((one) => one.bathId === bath.id),
      ),
    );
    const poured = standing(events).filter((one) => one.kind === 'poured' && one.day.equals(today));
    const plates = platesByDay(await this.store.sheetsAhead(tx, today), sizes, {
      date: today,
      poured: poured.reduce((sum, one) => sum + (one.area ?? 0n), 0n),
      plates: poured.reduce((sum, one) => sum + (one.plates ?? 0), 0),
    });
    return { sizes, baths, plates };
  }

  /** Bottles of silver nitrate by weight, and the one that a bath names already. */
  private async crystals(tx: Tx, named: string | null = null): Promise<Lot[]> {
    const silver = new Set((await this.stock.items(tx)).filter(isSilverNitrate).map((one) => one.id));
    return (await this.stock.lots(tx)).filter((lot) => silver.has(lot.itemId) || lot.id === named);
  }

  private async check(
    tx: Tx,
    said: Pick<Bath, 'plateSizeId' | 'volume' | 'leastVolume' | 'targetStrength' | 'leastStrength' | 'lotId'>,
    named: string | null = null,
  ): Promise<void> {
    const sizes = await this.stock.plateSizes(tx);
    const lots = said.lotId === null ? [] : await this.crystals(tx, named);
    const problems = [
      ...(sizes.some((one) => one.id === said.plateSizeId)
        ? []
        : [{ field: 'plateSizeId', message: 'Please choose the largest plate.' }]),
      ...(said.leastVolume > said.volume
        ? [{ field: 'leastVolume', message: 'The least is more than it holds when full.' }]
        : []),
      ...(said.leastStrength > said.targetStrength
        ? [{ field: 'leastStrength', message: 'The least is more than it is made up to.' }]
        : []),
      ...(said.lotId === null || lots.some((one) => one.id === said.lotId)
        ? []
        : [{ field: 'lotId', message: 'Please choose a bottle of crystals.' }]),
    ];
    if (problems.length > 0) throw new AppError('bad_input', undefined, problems);
  }

  private async note(tx: Tx, who: Account, aboutId: string, event: string, note: string): Promise<void> {
    await recordHistory(tx, this.clock, { who: who.name, aboutKind: 'bath', aboutId, event, note });
    await this.studios.raiseCalendarCounter(tx);
  }
}

/** By its substance; where none is told, by its name. */
const isSilverNitrate = ({ unit, substance, name }: Item) =>
  unit === 'mg' && (substance === null ? /silver nitrate/i.test(name) : substance === 'silver nitrate');

/** The days of a bath up to the first for which it must be topped up: what comes then is another strength. */
function untilTopUp(plan: BathPlan, bathId: string, ahead: BathPlan['days']): BathPlan['days'] {
  const [first] = plan.topUps.filter(({ bath }) => bath.id === bathId);
  if (!first) return ahead;
  return ahead.filter(({ date }) => Temporal.PlainDate.compare(date, first.forDay) < 0);
}

function unknown(): never {
  throw new AppError('not_found', 'This bath is not known here.');
}
