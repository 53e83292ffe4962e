// The day that has to move: calling a sitting off, or giving it another place for the one it has. Each person is an
// act of its own: what cannot be done for one stops nobody else. They are told once it is done, never before.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import type { Account } from '../accounts/accounts.schemas.js';
import { dayBounds } from '../lib/zoned-time.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import type { DateRange } from '../room/days.calc.js';
import { RoomService } from '../room/room.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { noticeNeeded } from '../waiting/expiry.calc.js';
import { WaitingService } from '../waiting/waiting.service.js';
import { urgencyOf } from './move-proposal.calc.js';
import { type MoveChoice, REASON_WORDS, type WhyMoved } from './moving.schemas.js';
import { PlacesService } from './places.service.js';
import type { Sitting } from './sittings.schemas.js';
import { next } from './states.calc.js';
import { SittingViews } from './views.service.js';

/** How it went for one of them. */
export interface Moved {
  sittingId: string;
  done: { to: Temporal.PlainDateTime } | 'called off' | 'called off for good' | 'called back';
}
/** Why it could not be done, for people. */
export interface NotMoved {
  sittingId: string;
  problem: string;
}

@Injectable()
export class MovingService {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly room: RoomService,
    private readonly places: PlacesService,
    private readonly views: SittingViews,
    private readonly waiting: WaitingService,
  ) {}

  /** The sittings that stand on some days and whose hour has not come, offered places too. */
  async standing(studioId: string, days: DateRange): Promise<string[]> {
    return this.db.inStudio(studioId, async (tx) => {
      const { zone } = await this.studios.load(tx);
      const from = dayBounds(zone, days.from).start;
      const places = await this.room.between(tx, from, dayBounds(zone, days.until).end, this.clock.now());
      return places
        .filter((one) => one.holds && one.kind === 'sitting' && !this.room.begun(one))
        .filter((one) => Temporal.Instant.compare(one.startsAt, from) >= 0)
        .map((one) => one.heldFor);
    });
  }

  /** Does for each what was chosen, one after the other; sending it again does nothing twice. */
  async carryOut(
    studioId: string,
    who: Account,
    why: WhyMoved,
    choices: MoveChoice[],
  ): Promise<(Moved | NotMoved)[]> {
    const outcomes: (Moved | NotMoved)[] = [];
    for (const { sittingId, from, act } of choices) {
      if (act === 'leave') continue;
      try {
        const how = { why, again: act === 'again' };
        const done =
          typeof act === 'string'
            ? await this.callOff(studioId, who, sittingId, from, how)
            : await this.move(studioId, who, sittingId, from, { why, to: act.to });
        outcomes.push({ sittingId, done });
      } catch (error) {
        if (!(error instanceof AppError)) throw error;
        outcomes.push({ sittingId, problem: error.detail });
      }
    }
    return outcomes;
  }

  /**
   * Calls off the place that a sitting has at `from`. With `again` it waits for another, first on the list and with
   * the date of its asking; without, it ends. An offered place is called back. Nobody else is asked for the hour.
   * @throws AppError wrong_state when it has no place at that time any more, or the hour has come
   */
  async callOff(
    studioId: string,
    who: Account,
    sittingId: string,
    from: Temporal.PlainDateTime,
    { why, again }: { why: WhyMoved; again: boolean },
  ): Promise<Moved['done']> {
    return this.db.inStudio(studioId, async (tx) => {
      const { studio, sitting } = await this.places.lock(tx, sittingId);
      await this.held(tx, sitting, from);
      const telephone = await this.isPressing(tx, studio, sittingId);
      if (sitting.state === 'offered') {
        await this.places.callBack(tx, studio, sitting, who.name, telephone);
        await this.studios.raiseCalendarCounter(tx);
        return 'called back';
      }
      if (!next(sitting.state, 'call_off')) throw gone();
      const place = await this.places.free(tx, studio, sitting, false);
      await this.places.turn(tx, sitting, {
        event: 'call_off',
        who: who.name,
        note: noteOf(why),
        change: { message: why.words, returnOwed: again, ...(again ? { occupancyId: null } : {}) },
        tell: again ? 'called off' : 'called off for good',
        occupancyId: place?.id,
        telephone,
      });
      const off = { ...sitting, state: 'called_off', occupancyId: null } as const;
      if (again) await this.places.turn(tx, off, { event: 'wait', who: who.name, tell: null });
      await this.studios.raiseCalendarCounter(tx);
      return again ? 'called off' : 'called off for good';
    });
  }

  /**
   * Gives a sitting another place for the one it has at `from`; any open start, since they are asked on the telephone
   * or may say on their page that it does not suit: then they stand first on the list. Nobody else is asked for the
   * old hour.
   * @throws AppError wrong_state as callOff does; not_an_opening, place_taken, short_of_stock
   */
  async move(
    studioId: string,
    who: Account,
    sittingId: string,
    from: Temporal.PlainDateTime,
    { why, to }: { why: WhyMoved; to: Temporal.PlainDateTime },
  ): Promise<Moved['done']> {
    return this.db.inStudio(studioId, async (tx) => {
      const { studio, sitting } = await this.places.lock(tx, sittingId);
      await this.held(tx, sitting, from);
      if (!next(sitting.state, 'move')) throw gone();
      const telephone = await this.isPressing(tx, studio, sittingId);
      const place = await this.places.move(tx, studio, sitting, to, false);
      await this.places.turn(tx, sitting, {
        event: 'move',
        who: who.name,
        note: `${minute(from)} to ${minute(to)}: ${noteOf(why)}`,
        change: { message: why.words, returnOwed: true },
        tell: 'moved',
        was: minute(from),
        telephone,
        occupancyId: place.id, // where it was moved, whatever became of it before the letter is written
      });
      await this.places.confirmed(tx, sitting, place);
      await this.studios.raiseCalendarCounter(tx);
      return { to };
    });
  }

  /** Whether they are on the way, or a letter may come too late, as long as they have the place that goes. */
  private async isPressing(tx: Tx, studio: Studio, sittingId: string): Promise<boolean> {
    const view = await this.views.byId(tx, studio, sittingId);
    const { notice } = await this.waiting.rules(tx);
    const noticeDays = noticeNeeded(view.journey?.farAway ?? null, view.sitting.marks.noticeDays, notice);
    return urgencyOf({ view, noticeDays }, this.room.today(studio)) !== 'in time';
  }

  private async held(tx: Tx, { occupancyId }: Sitting, from: Temporal.PlainDateTime): Promise<void> {
    const [place] = occupancyId ? await this.room.byIds(tx, [occupancyId]) : [];
    if (!place?.wallStart.equals(from) || this.room.begun(place)) throw gone();
  }
}

const minute = (start: Temporal.PlainDateTime) => start.toString({ smallestUnit: 'minute' });

const noteOf = ({ reason, words }: WhyMoved) =>
  words === '' ? REASON_WORDS[reason] : `${REASON_WORDS[reason]}: ${words}`;

const gone = () =>
  new AppError(
    'wrong_state',
    'They have no place at that time any more: it was given back, moved or called off, or its hour has come.',
  );
