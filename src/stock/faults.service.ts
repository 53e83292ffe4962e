// "The chemistry is off": one act puts a bath or a bottle aside and writes down what was seen. Whom it concerns and
// what there is instead is told; nobody is written to.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { Account } from '../accounts/accounts.schemas.js';
import { Clock } from '../platform/clock.js';
import { editAlone } from '../platform/db/alone.js';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { readInput } from '../platform/input.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { suspected } from './acts.calc.js';
import { ActsService } from './acts.service.js';
import { dependingOn } from './bath-days.calc.js';
import { faultForm, offForm, TEST_PLATE } from './bath-forms.schemas.js';
import { standing } from './baths.calc.js';
import { type Bath, type Fault, plainEvent } from './baths.schemas.js';
import { BathsService } from './baths.service.js';
import { BathsStore } from './baths.store.js';
import type { Lot } from './stock.schemas.js';
import { StockService } from './stock.service.js';

/** What a day has of a bottle's material, now that the bottle is put aside. */
export interface BottleConcern {
  /** The sitting, or the day's own materials. */
  heldFor: string;
  day: Temporal.PlainDate;
  /** Other bottles that serve it; a part that is still to be mixed or bought has none. */
  instead: string[];
  missing: boolean;
}

export interface WholeFault {
  fault: Fault;
  today: Temporal.PlainDate;
  /** What was put aside. */
  bath: Bath | null;
  bottle: Lot | null;
  /** Plates that went through the bath that day. */
  platesThatDay: number;
  /** The days that were the bath's, each with the bath that takes it now. */
  days: ReturnType<typeof dependingOn>;
  concerned: BottleConcern[];
}

export type FaultOfDay = Fault & { at: Temporal.Instant; name: string };

const RETIRED = 'This bath is retired: it is aside already.';

@Injectable()
export class FaultsService {
  private readonly store = new BathsStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly stock: StockService,
    private readonly acts: ActsService,
    private readonly baths: BathsService,
  ) {}

  /**
   * Puts a bath or a bottle aside, and writes down what was seen; of a failed test plate only that, as long as
   * nobody knows why. The same id twice is one entry. One that is
   * suspect already stays so: another thing may be seen. A retired bath is aside already, and stays retired.
   * @throws AppError bad_input, not_found
   */
  off(studioId: string, who: Account, faultId: string, input: unknown): Promise<void> {
    const { what, seen, note } = readInput(offForm, input);
    const [kind, id = ''] = what.split(':');
    return this.db.inStudio(studioId, async (tx) => {
      const day = this.room.today(await this.studios.load(tx));
      const about = { bathId: kind === 'bath' ? id : null, lotId: kind === 'bottle' ? id : null };
      const fault = { id: faultId, day, ...about, seen, note, who: who.name };
      const bath = kind === 'bath' ? await this.store.locked(tx, id) : null;
      if (kind === 'bath' && bath === null) throw new AppError('not_found', 'This bath is not known here.');
      const lot = kind === 'bottle' ? await this.bottle(tx, id) : null;
      const first = { ...fault, changed: '', helped: 'not known yet' as const };
      if (!(await this.store.addFault(tx, first, this.clock.now()))) return;
      if (bath?.state === 'retired')
        throw new AppError('bad_input', undefined, [{ field: 'what', message: RETIRED }]);
      if (bath) await this.bathOff(tx, id, fault);
      if (lot?.state === 'good') await this.bottleOff(tx, lot, fault);
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  /** What may be off: baths in use first, then bottles of solutions and chemicals, then the test plate; as a form's choices. */
  suspects(studioId: string): Promise<{ value: string; label: string }[]> {
    return this.db.inStudio(studioId, async (tx) => {
      const baths = (await this.store.baths(tx)).filter((one) => one.state !== 'retired');
      const items = new Map((await this.stock.items(tx)).map((one) => [one.id, one]));
      const bottles = (await this.stock.lots(tx)).filter((lot) => {
        const unit = items.get(lot.itemId)?.unit;
        return lot.onHand > 0n && (unit === 'uL' || unit === 'mg');
      });
      return [
        ...baths.map((one) => ({ value: `bath:${one.id}`, label: one.name })),
        ...bottles.map((one) => ({ value: `bottle:${one.id}`, label: one.label })),
        { value: TEST_PLATE, label: 'The test plate failed, nobody knows yet why' },
      ];
    });
  }

  /** What was seen on a day, with the name of what was put aside; '' where nothing was. */
  async onDay(tx: Tx, day: Temporal.PlainDate): Promise<FaultOfDay[]> {
    const faults = await this.store.faultsOn(tx, day);
    if (faults.length === 0) return [];
    const names = new Map((await this.store.baths(tx)).map((one) => [one.id, one.name]));
    for (const lot of await this.stock.lots(tx)) names.set(lot.id, lot.label);
    return faults.map((one) => ({ ...one, name: names.get(one.bathId ?? one.lotId ?? '') ?? '' }));
  }

  /** What was changed, and whether it helped. @throws AppError bad_input, not_found */
  settle(
    studioId: string,
    faultId: string,
    input: unknown,
    check: (stands: Fault) => void = () => {},
  ): Promise<void> {
    const said = readInput(faultForm, input);
    return this.db.inStudio(studioId, async (tx) => {
      await editAlone(tx, 'fault');
      const stands = await this.store.fault(tx, faultId);
      if (!stands) throw new AppError('not_found', 'This entry is not in the log.');
      check(stands);
      await this.store.settleFault(tx, faultId, said);
    });
  }

  /** One entry, with whom it concerns. @throws AppError not_found */
  one(studioId: string, faultId: string): Promise<WholeFault> {
    return this.db.inStudio(studioId, async (tx) => {
      const today = this.room.today(await this.studios.load(tx));
      const fault = await this.store.fault(tx, faultId);
      if (!fault) throw new AppError('not_found', 'This entry is not in the log.');
      const around = await this.baths.around(tx, today);
      const bath = around.baths.find((one) => one.bath.id === fault.bathId)?.bath ?? null;
      const lots = await this.stock.lots(tx);
      const events = bath ? await this.store.events(tx, [bath.id]) : [];
      const poured = standing(events).filter((one) => one.kind === 'poured' && one.day.equals(fault.day));
      return {
        fault,
        today,
        bath,
        bottle: lots.find((one) => one.id === fault.lotId) ?? null,
        platesThatDay: poured.reduce((sum, one) => sum + (one.plates ?? 0), 0),
        days:
          bath?.state === 'suspect'
            ? dependingOn(bath.id, around.plates, around.baths, around.sizes, today)
            : [],
        concerned: fault.lotId === null ? [] : await this.concerned(tx, fault.id, fault.lotId, lots),
      };
    });
  }

  private async bathOff(
    tx: Tx,
    bathId: string,
    fault: Pick<Fault, 'id' | 'day' | 'seen' | 'note' | 'who'>,
  ): Promise<void> {
    const line = { id: fault.id, bathId, day: fault.day, who: fault.who };
    const note = [fault.seen, fault.note].filter((part) => part !== '').join(': ');
    await this.store.addEvent(
      tx,
      { ...plainEvent('state', line), state: 'suspect', note: note.slice(0, 1000) },
      this.clock.now(),
    );
    await this.store.setState(tx, bathId, { state: 'suspect', stateSince: fault.day, stateUntil: null });
  }

  private async bottleOff(
    tx: Tx,
    lot: Lot,
    { seen, note, who }: Pick<Fault, 'seen' | 'note' | 'who'>,
  ): Promise<void> {
    const words = [seen, note].filter((part) => part !== '').join(': ');
    const change = (lots: Lot[]) => {
      const acted = suspected(lots.find((one) => one.id === lot.id) ?? lot, words);
      return acted.ok ? acted.changes : [];
    };
    await this.acts.act(tx, { items: [lot.itemId], named: [lot.id], change, who });
  }

  private async bottle(tx: Tx, id: string): Promise<Lot> {
    const lot = (await this.stock.lots(tx)).find((one) => one.id === id);
    if (!lot) throw new AppError('not_found', 'This bottle is not on the shelf.');
    return lot;
  }

  /** Who had something set aside from a bottle when it was put aside, and what serves them now. */
  private async concerned(tx: Tx, faultId: string, lotId: string, lots: Lot[]): Promise<BottleConcern[]> {
    const concerned: BottleConcern[] = [];
    for (const heldFor of await this.store.heldFromBottle(tx, faultId, lotId)) {
      const itemId = lots.find((one) => one.id === lotId)?.itemId;
      const now = (await this.stock.setAside(tx, heldFor)).filter((one) => one.item.id === itemId);
      const [first] = now;
      if (!first) continue;
      const instead = now.flatMap((one) => one.lotLabel ?? []);
      concerned.push({
        heldFor,
        day: first.neededOn,
        instead,
        missing: now.some((one) => one.lotId === null),
      });
    }
    return concerned.sort((a, b) => Temporal.PlainDate.compare(a.day, b.day));
  }
}
