// Undoing what the desk did last with a sign-up: a no, a place given back, a sign-up typed in. Whether anybody was told
// is not known here: whoever calls looks at the letters in the same transaction.
import { Injectable } from '@nestjs/common';
import { Clock } from '../platform/clock.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import { StudiosService } from '../studios/studios.service.js';
import { SeatsService } from './seats.service.js';
import { SignUpsStore } from './sign-ups.store.js';
import { hasPlaces, stands } from './states.calc.js';

@Injectable()
export class TeachingUndo {
  private readonly store = new SignUpsStore();

  constructor(
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly seats: SeatsService,
  ) {}

  /** Whether a turn of a sign-up was undone, so that nobody is to be told of it; it cannot be undone meanwhile. */
  isUndone(tx: Tx, signUpId: string, turn: number): Promise<boolean> {
    return this.store.isUndone(tx, signUpId, turn);
  }

  /**
   * Undoes the last act of the desk. Places given back are taken again with what they need; a sign-up typed in leaves
   * no trace in any calendar. @returns the turn that is undone
   * @throws AppError wrong_state when something happened since, place_taken, short_of_stock
   */
  async undo(tx: Tx, who: { name: string }, signUpId: string): Promise<number> {
    const first = await this.store.byId(tx, signUpId);
    if (!first) throw new AppError('not_found', 'This sign-up is not known here.');
    const locked = first.sessionId ? await this.seats.lock(tx, first.sessionId) : null;
    const signUp = await this.store.byId(tx, signUpId);
    if (!signUp?.undoTo || (locked && !stands(locked.session.state))) throw since();
    const students = await this.store.students(tx, [signUpId]);
    const typedIn = signUp.undoTo === 'withdrawn';
    if (typedIn && hasPlaces(signUp.state)) await this.seats.free(tx, await this.studios.load(tx), signUp);
    if (signUp.undoTo === 'signed' && locked) await this.seats.take(tx, locked, students);
    if (!(await this.store.undo(tx, signUpId, this.clock.now(), typedIn))) throw since();
    if (locked) await this.seats.revise(tx, locked.session.id);
    const about = { aboutKind: 'sign-up', aboutId: signUpId, event: 'undo', note: signUp.state };
    await recordHistory(tx, this.clock, { who: who.name, ...about });
    await this.studios.raiseCalendarCounter(tx);
    return signUp.turns;
  }
}

const since = () =>
  new AppError('wrong_state', 'This cannot be undone any more: something happened with it since.');
