// Undoing what the desk did last with a sitting, as long as nobody was told of it: the letters that wait are dropped
// in the same transaction. Once somebody was told it is refused; then only what is honest is left.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { Account } from '../accounts/accounts.schemas.js';
import { Clock } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { TelephoneService } from '../reminders/telephone.service.js';
import type { Undoable } from '../sittings/undo.schemas.js';
import { UndoService } from '../sittings/undo.service.js';

/** The undo is shown for so long; a place given weeks ago and never told is moved or called off like any other. */
const SHOWN_HOURS = 24 * 7;

/** What the desk did last with a sitting, and whether it can be undone. */
export interface LastAct {
  id: string;
  event: Undoable;
  at: Temporal.Instant;
  /** Until when no letter goes; null where none goes at all, or where it waits to be told by hand. */
  until: Temporal.Instant | null;
  /** Somebody was told: it cannot be undone. */
  told: boolean;
}

@Injectable()
export class UndoActs {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly config: Config,
    private readonly undo: UndoService,
    private readonly telephone: TelephoneService,
  ) {}

  /** Null where nothing was done, something happened since, or it was long ago. */
  async last(tx: Tx, sittingId: string): Promise<LastAct | null> {
    const act = await this.undo.last(tx, sittingId);
    const now = this.clock.now();
    if (!act || Temporal.Instant.compare(act.at.add({ hours: SHOWN_HOURS }), now) < 0) return null;
    const { id, event, at } = act;
    if (event === 'mark') return { id, event, at, until: null, told: false };
    const told = await this.telephone.wasTold(tx, sittingId, act.turns);
    const goes = at.add({ seconds: this.config.undoSeconds });
    return { id, event, at, until: Temporal.Instant.compare(now, goes) < 0 ? goes : null, told };
  }

  /** @throws AppError wrong_state when somebody was told, something happened since, or it was undone before */
  async takeBack(studioId: string, who: Account, sittingId: string, actId: string): Promise<Undoable> {
    return this.db.inStudio(studioId, async (tx) => {
      const { event, turns } = await this.undo.undo(tx, who, sittingId, actId);
      if (event !== 'mark' && !(await this.telephone.drop(tx, sittingId, turns)))
        throw new AppError('wrong_state', 'They have been told by now, so it cannot be undone.');
      return event;
    });
  }
}
