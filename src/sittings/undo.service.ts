// Undoing what the desk did last with a sitting, as if it had not been done. Whether anybody was told of it is not
// known here: whoever calls looks at the letters in the same transaction.
import { Injectable } from '@nestjs/common';
import { Clock } from '../platform/clock.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { PlacesService } from './places.service.js';
import type { Sitting } from './sittings.schemas.js';
import { SittingsStore } from './sittings.store.js';
import type { SittingAct } from './undo.schemas.js';
import { UndoStore } from './undo.store.js';

@Injectable()
export class UndoService {
  private readonly store = new UndoStore();
  private readonly sittings = new SittingsStore();

  constructor(
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly places: PlacesService,
  ) {}

  /** What the desk did last with a sitting, while nothing happened since; else null. */
  async last(tx: Tx, sittingId: string): Promise<SittingAct | null> {
    const act = await this.store.newest(tx, sittingId);
    const sitting = act && (await this.sittings.byId(tx, sittingId, false));
    return act && act.undoneAt === null && sitting?.turns === act.turns ? act : null;
  }

  /** Whether a turn of a sitting was undone, so that nobody is to be told of it; it cannot be undone meanwhile. */
  isUndone(tx: Tx, sittingId: string, turns: number): Promise<boolean> {
    return this.store.isUndone(tx, sittingId, turns);
  }

  /** Whether anything came of a sitting since a turn; what was undone, and its undoing, count for nothing. */
  async wentOn(tx: Tx, { id, turns: now }: Sitting, turns: number): Promise<boolean> {
    return now > turns && now > turns + 2 * (await this.store.undoneSince(tx, id, turns));
  }

  /**
   * Undoes an act: state, message and marks as before; a place that was given is as never given, so nobody is asked
   * for it and it stands in no calendar; one that was given back is theirs again, with what it needs. The line of
   * history stays, with one more.
   * @throws AppError wrong_state when something happened since, or the hour of the place has come; not_an_opening,
   * place_taken, short_of_stock where a place cannot be had again
   */
  async undo(tx: Tx, who: { name: string }, sittingId: string, actId: string): Promise<SittingAct> {
    const { studio, sitting } = await this.places.lock(tx, sittingId);
    const act = await this.last(tx, sittingId);
    if (act?.id !== actId || !(await this.store.undo(tx, actId, this.clock.now()))) throw since();
    const { before } = act;
    if (act.event === 'mark') await this.sittings.setMarks(tx, sittingId, before.marks);
    else {
      const [place] = sitting.occupancyId ? await this.room.byIds(tx, [sitting.occupancyId]) : [];
      const again = act.event === 'release';
      if ((again || act.event === 'approve') && place && this.room.begun(place)) throw since();
      if (again && place)
        await this.places.takeInstead(tx, { ...studio, leastNoticeDays: 0 }, sitting, place, place.wallStart);
      const change = { ...before, at: (again && before.decidedAt) || this.clock.now() };
      if ((await this.sittings.setState(tx, sittingId, sitting.state, before.state, change)) === null)
        throw since();
      if (act.event === 'approve' && place) await this.places.neverGiven(tx, studio, sittingId, place);
    }
    const about = { aboutKind: 'sitting', aboutId: sittingId, event: 'undo', note: act.event };
    await recordHistory(tx, this.clock, { who: who.name, ...about });
    await this.studios.raiseCalendarCounter(tx);
    return act;
  }
}

const since = () =>
  new AppError('wrong_state', 'This cannot be undone any more: something happened with it since.');
