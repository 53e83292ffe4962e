// The day of a sitting: arrived, delayed, and every ending; each but the delay may be taken back the same day.
// Who stood in the studio was told there; of a place owed a letter tells once it cannot be taken back. Plates made are not written down here.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { LinksService } from '../accounts/links.service.js';
import { dayBounds, instantToWall } from '../lib/zoned-time.js';
import { Clock, Random } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { Jobs } from '../platform/jobs/registry.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import { DaysService } from '../stock/days.service.js';
import { StockService } from '../stock/stock.service.js';
import type { SetAside } from '../stock/stock.schemas.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { type Ending, ending, NOTHING_YET, type SittingDay } from './endings.schemas.js';
import { EndingsStore, type Used } from './endings.store.js';
import { LINK_DAYS_WITHOUT_A_DAY, PlacesService } from './places.service.js';
import type { Sitting } from './sittings.schemas.js';
import { SittingsStore } from './sittings.store.js';
import { next } from './states.calc.js';

interface Who {
  name: string;
}

const EVENT = { made: 'end_made', 'no plate': 'end_no_plate', missed: 'end_missed' } as const;

@Injectable()
export class EndingsService {
  private readonly store = new EndingsStore();
  private readonly sittings = new SittingsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly days: DaysService,
    private readonly places: PlacesService,
    private readonly jobs: Jobs,
  ) {}

  /** How some sittings went so far; nothing where nobody told. */
  of(tx: Tx, sittingIds: string[]): Promise<Map<string, SittingDay>> {
    return this.store.of(tx, sittingIds);
  }

  /** Ticks that they are here, or takes the tick back. @throws AppError wrong_state before the day or after the ending */
  async arrived(studioId: string, who: Who, sittingId: string, here: boolean): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const { studio, sitting, lapsed } = await this.places.lock(tx, sittingId);
      if (sitting.state !== 'confirmed') throw over();
      await this.dayOf(tx, studio, sitting);
      const { arrivedAt } = (await this.store.of(tx, [sittingId])).get(sittingId) ?? NOTHING_YET;
      if ((arrivedAt !== null) !== here) {
        await this.store.setArrived(tx, sittingId, here ? this.clock.now() : null);
        const about = { aboutKind: 'sitting', aboutId: sittingId, event: here ? 'arrive' : 'not_arrived' };
        await recordHistory(tx, this.clock, { who: who.name, ...about });
      }
      if (lapsed > 0) await this.studios.raiseCalendarCounter(tx);
    });
  }

  /**
   * Tells how a sitting ended, on its day or later. What was set aside counts as used, or is given back where nobody
   * came. Whoever came for no plate, or was stranded, stands first on the list again with the day of the first asking.
   * @throws AppError bad_input, wrong_state before the day or when it has ended otherwise
   */
  async end(studioId: string, who: Who, sittingId: string, input: unknown): Promise<void> {
    const told: Ending = readInput(ending, input);
    await this.db.inStudio(studioId, async (tx) => {
      const { studio, sitting } = await this.places.lock(tx, sittingId);
      if (!next(sitting.state, EVENT[told.how])) throw over();
      const day = await this.dayOf(tx, studio, sitting);
      await this.days.lock(tx, day); // before the items, as everybody does
      const setAside = (await this.held(tx, sittingId)).length > 0;
      if (told.how === 'missed') await this.days.release(tx, studio, sittingId, day);
      else await this.useUp(tx, who, sittingId);
      const reason = told.how === 'made' ? '' : told.reason;
      const owed = told.how === 'no plate' || reason === 'stranded';
      await this.places.turn(tx, sitting, {
        event: EVENT[told.how],
        who: who.name,
        note: [reason, told.note].filter((one) => one !== '').join(': '),
        tell: null,
      });
      const returnId = owed ? await this.askAgain(tx, who, sitting) : null;
      if (returnId) await this.tellOfReturn(tx, studio, returnId);
      await this.store.setEnding(tx, sittingId, {
        endedAt: this.clock.now(),
        reason,
        note: told.note,
        returnId,
        setAside,
      });
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  /**
   * Takes an ending back on the day it was told: what was used is in the bottles again and set aside as before, if it
   * was then, and the request in its stead is gone.
   * @throws AppError wrong_state on a later day, or when a place was offered in its stead; short_of_stock
   */
  async undo(studioId: string, who: Who, sittingId: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const found = (await this.store.of(tx, [sittingId])).get(sittingId) ?? NOTHING_YET;
      // both at once, in the order of ids
      await this.sittings.lockAll(tx, [sittingId, ...(found.returnId ? [found.returnId] : [])]);
      const { studio, sitting } = await this.places.lock(tx, sittingId);
      const told = (await this.store.of(tx, [sittingId])).get(sittingId);
      if (!told?.endedAt || !next(sitting.state, 'undo_ending'))
        throw new AppError('wrong_state', 'There is no ending to take back.');
      if (!instantToWall(studio.zone, told.endedAt).toPlainDate().equals(this.room.today(studio)))
        throw new AppError('wrong_state', 'An ending can be taken back on the day it was told only.');
      if (told.returnId) await this.withdrawReturn(tx, who, told.returnId);
      await this.stock.putBack(tx, await this.store.used(tx, sittingId), who.name);
      await this.store.setUsed(tx, sittingId, []);
      if (told.setAside)
        await this.places.setAsideAgain(tx, studio, sitting, await this.dayOf(tx, studio, sitting));
      await this.places.turn(tx, sitting, { event: 'undo_ending', who: who.name, tell: null });
      await this.store.setEnding(tx, sittingId, {
        endedAt: null,
        reason: '',
        note: '',
        returnId: null,
        setAside: false,
      });
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  /**
   * They come later: another open place, today or on another day, for the one they have; also after its hour, and
   * without notice.
   * @throws AppError wrong_state before the day, not_an_opening, place_taken, short_of_stock
   */
  async delay(
    studioId: string,
    who: Who,
    sittingId: string,
    to: Temporal.PlainDateTime,
    check: (stands: Temporal.PlainDateTime | undefined) => void = () => {},
  ): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const { studio, sitting } = await this.places.lock(tx, sittingId);
      const [had] = sitting.occupancyId ? await this.room.byIds(tx, [sitting.occupancyId]) : [];
      check(had?.wallStart);
      if (!next(sitting.state, 'delay')) throw over();
      await this.dayOf(tx, studio, sitting);
      if (Temporal.PlainDateTime.compare(to, instantToWall(studio.zone, this.clock.now())) <= 0)
        throw new AppError('not_an_opening', 'That hour has passed.');
      const place = await this.places.move(tx, { ...studio, leastNoticeDays: 0 }, sitting, to, false);
      const was = had?.wallStart.toString({ smallestUnit: 'minute' });
      const note = `${was} to ${to.toString({ smallestUnit: 'minute' })}`;
      await this.places.turn(tx, sitting, {
        event: 'delay',
        who: who.name,
        note,
        tell: 'moved',
        was,
        occupancyId: place.id,
      });
      await this.places.confirmed(tx, sitting, place);
      await this.store.setArrived(tx, sittingId, null);
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  /** Locks sittings of which plates are typed in, in the order of their ids. */
  async lockAll(tx: Tx, sittingIds: string[]): Promise<void> {
    await this.sittings.lockAll(tx, [...sittingIds].sort());
  }

  /**
   * What the ending of a sitting took from the bottles, for whoever knows better what its plates took and answers for
   * it from now on: taking the ending back moves no stock any more. The sitting must be locked.
   */
  async takeOver(tx: Tx, sittingId: string): Promise<Used[]> {
    const used = await this.store.used(tx, sittingId);
    await this.store.setUsed(tx, sittingId, []);
    await this.store.forgetSetAside(tx, sittingId);
    return used;
  }

  /** The day of its place. @throws AppError wrong_state where that has not come */
  private async dayOf(tx: Tx, studio: Studio, { occupancyId }: Sitting): Promise<Temporal.PlainDate> {
    const [place] = occupancyId ? await this.room.byIds(tx, [occupancyId]) : [];
    const day = place?.wallStart.toPlainDate();
    if (!day || Temporal.PlainDate.compare(this.room.today(studio), day) < 0)
      throw new AppError('wrong_state', 'The day of this sitting has not come yet.');
    return day;
  }

  /** What was set aside counts as used, as far as it is in the bottles. */
  private async useUp(tx: Tx, who: Who, sittingId: string): Promise<void> {
    const held = await this.held(tx, sittingId);
    const used = held.flatMap(({ lotId, quantity }) => (lotId && quantity > 0n ? [{ lotId, quantity }] : []));
    await this.stock.use(tx, sittingId, used, who.name);
    await this.store.setUsed(tx, sittingId, used);
  }

  /** What is set aside for a sitting, held against whoever settles its day at the same moment. */
  private async held(tx: Tx, sittingId: string): Promise<SetAside[]> {
    const items = (await this.stock.setAside(tx, sittingId)).map(({ item }) => item.id);
    await this.stock.lock(tx, items);
    return this.stock.setAside(tx, sittingId);
  }

  /** The same people and plates once more, on the list. */
  private async askAgain(tx: Tx, who: Who, before: Sitting): Promise<string> {
    const id = this.random.id();
    const plates = (await this.sittings.plates(tx, [before.id])).get(before.id) ?? [];
    const again: Sitting = {
      ...before,
      id,
      state: 'waiting',
      message: '',
      occupancyId: null,
      turns: 0,
      returnOwed: true,
      returnOf: before.id,
      offersUnanswered: 0,
    };
    await this.sittings.insert(
      tx,
      again,
      plates.map((one) => ({ ...one, id: this.random.id() })),
    );
    await this.sittings.setMarks(tx, id, before.marks);
    const expires = this.clock.now().add({ hours: 24 * LINK_DAYS_WITHOUT_A_DAY });
    await this.links.make(tx, 'place', id, expires);
    const about = { aboutKind: 'sitting', aboutId: id, event: 'return_owed' };
    await recordHistory(tx, this.clock, { who: who.name, ...about });
    return id;
  }

  /** The letter goes when the day is over, since an ending can be taken back until then. */
  private async tellOfReturn(tx: Tx, studio: Studio, sittingId: string): Promise<void> {
    const runAt = dayBounds(studio.zone, this.room.today(studio)).end;
    const told = { sittingId, change: 'waiting', sequence: 0 } as const;
    await this.jobs.enqueue(tx, 'place.changed', told, { key: `${sittingId}:0`, runAt });
  }

  private async withdrawReturn(tx: Tx, who: Who, returnId: string): Promise<void> {
    const again = await this.sittings.byId(tx, returnId, true);
    if (!again || again.state === 'withdrawn') return;
    if (again.state !== 'waiting')
      throw new AppError(
        'wrong_state',
        'A place was offered in its stead already; please settle that first.',
      );
    await this.places.turn(tx, again, { event: 'withdraw', who: who.name, tell: null });
  }
}

const over = () =>
  new AppError('wrong_state', 'This sitting has no place any more, or how it ended is told already.');
