// The day that has to move: calling a sitting off, or giving it another place for the one it has. Each person is an
// act of its own: what cannot be done for one stops nobody else. They are told once it is done, never before.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Account } from '../accounts/accounts.schemas.js';
import { Db } from '../platform/db/db.js';
import { AppError } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import { StudiosService } from '../studios/studios.service.js';
import { REASON_WORDS, type WhyMoved } from './moving.schemas.js';
import { PlacesService } from './places.service.js';
import { next } from './states.calc.js';

@Injectable()
export class MovingService {
  constructor(
    private readonly db: Db,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly places: PlacesService,
  ) {}

  /**
   * Calls a sitting off by the studio. With `again` it waits for another place, first on the list and with the date
   * of its asking; without, it ends. Its place is free for others only with `passOn`.
   * @throws AppError wrong_state, also once the hour has come
   */
  async callOff(
    studioId: string,
    who: Account,
    sittingId: string,
    { why, again, passOn }: { why: WhyMoved; again: boolean; passOn: boolean },
  ): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const { studio, sitting } = await this.places.lock(tx, sittingId);
      if (sitting.state === 'offered') {
        await this.places.callBack(tx, studio, sitting, who.name);
        return this.studios.raiseCalendarCounter(tx);
      }
      const [held] = sitting.occupancyId ? await this.room.byIds(tx, [sitting.occupancyId]) : [];
      if (!next(sitting.state, 'call_off') || !held || this.room.begun(held)) throw gone();
      const place = await this.places.free(tx, studio, sitting, passOn);
      await this.places.turn(tx, sitting, {
        event: 'call_off',
        who: who.name,
        note: noteOf(why),
        change: { message: why.words, returnOwed: again, ...(again ? { occupancyId: null } : {}) },
        tell: again ? 'called off' : 'called off for good',
        occupancyId: place?.id,
      });
      if (again)
        await this.places.turn(
          tx,
          { ...sitting, state: 'called_off', occupancyId: null },
          { event: 'wait', who: who.name, tell: null },
        );
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  /**
   * Gives a sitting another place for the one it has; any open start, since they are asked on the telephone or may
   * say on their page that it does not suit.
   * @throws AppError wrong_state, also once the hour has come; not_an_opening, place_taken, short_of_stock
   */
  async move(
    studioId: string,
    who: Account,
    sittingId: string,
    wallStart: Temporal.PlainDateTime,
    { why, passOn }: { why: WhyMoved; passOn: boolean },
  ): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const { studio, sitting } = await this.places.lock(tx, sittingId);
      const [held] = sitting.occupancyId ? await this.room.byIds(tx, [sitting.occupancyId]) : [];
      if (!next(sitting.state, 'move') || !held || this.room.begun(held)) throw gone();
      const place = await this.places.move(tx, studio, sitting, wallStart, passOn);
      const was = held.wallStart.toString({ smallestUnit: 'minute' });
      await this.places.turn(tx, sitting, {
        event: 'move',
        who: who.name,
        note: `${was} to ${wallStart.toString({ smallestUnit: 'minute' })}: ${noteOf(why)}`,
        change: { message: why.words },
        tell: 'moved',
        was,
      });
      await this.places.confirmed(tx, sitting, place);
      await this.studios.raiseCalendarCounter(tx);
    });
  }
}

const noteOf = ({ reason, words }: WhyMoved) =>
  words === '' ? REASON_WORDS[reason] : `${REASON_WORDS[reason]}: ${words}`;

const gone = () =>
  new AppError(
    'wrong_state',
    'This place was given back or called off in the meantime, or its hour has come.',
  );
