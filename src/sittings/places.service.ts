// A sitting's place: holding it, freeing it, and each turn of its state with what is recorded and told of it.
// Every act on a sitting begins with `lock`: offers that have run out lapse first, whoever comes. Its methods take
// the caller's transaction; whoever calls raises the calendar's counter at the end.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { LinksService } from '../accounts/links.service.js';
import { ActualsService } from '../chemistry/actuals.service.js';
import { PeopleService } from '../people/people.service.js';
import { Clock, Random } from '../platform/clock.js';
import { Config } from '../platform/config.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { type JobPayload, Jobs } from '../platform/jobs/registry.js';
import { AppError } from '../platform/problems.js';
import type { Occupancy } from '../room/occupancy.schemas.js';
import { RemovalService } from '../room/removal.service.js';
import { RoomService } from '../room/room.service.js';
import { DaysService } from '../stock/days.service.js';
import { StockService } from '../stock/stock.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import type { OfferAnswer } from '../waiting/offers.schemas.js';
import { WaitingService } from '../waiting/waiting.service.js';
import { bottleFor, needsOf } from './needs.calc.js';
import type { Sitting } from './sittings.schemas.js';
import { SittingsStore, type StateChange } from './sittings.store.js';
import { next, type SittingEvent } from './states.calc.js';
import { beforeOf, type Undoable } from './undo.schemas.js';
import { UndoStore } from './undo.store.js';

/** A place link lives until so many days after the day of the sitting, and so long without a day. */
const LINK_DAYS_AFTER = 30;
export const LINK_DAYS_WITHOUT_A_DAY = 400;

/** Whether who waits may be asked for a place that comes free; `later` only once that can be undone no more. */
type PassOn = boolean | 'later';

interface Turn {
  event: SittingEvent;
  /** An account's name, or 'contact'. */
  who: string;
  note?: string;
  change?: Omit<StateChange, 'at'>;
  /** What is told of it; null for nothing. */
  tell: JobPayload<'place.changed'>['change'] | null;
  /** The place it is about, where the sitting has it no more. */
  occupancyId?: string | undefined;
  /** The wall time it had before, where it was moved. */
  was?: string | undefined;
  /** A letter may come too late: they are to be telephoned as well. */
  telephone?: boolean | undefined;
  /** It can be undone for a while, in which nobody is told. */
  undoable?: Undoable;
}

@Injectable()
export class PlacesService {
  private readonly store = new SittingsStore();
  private readonly acts = new UndoStore();

  constructor(
    private readonly config: Config,
    private readonly clock: Clock,
    private readonly random: Random,
    private readonly jobs: Jobs,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly people: PeopleService,
    private readonly room: RoomService,
    private readonly removal: RemovalService,
    private readonly stock: StockService,
    private readonly days: DaysService,
    private readonly actuals: ActualsService,
    private readonly waiting: WaitingService,
  ) {}

  /**
   * Locks a sitting for an act, and lets every offer that has run out by then lapse.
   * @returns the sitting as it stands after that, and how many offers lapsed: then the calendar's counter must rise
   * @throws AppError not_found
   */
  async lock(
    tx: Tx,
    sittingId: string,
    at = this.clock.now(),
  ): Promise<{ studio: Studio; sitting: Sitting; lapsed: number }> {
    const studio = await this.studios.load(tx);
    const lapsed = await this.lapse(tx, studio, at, [sittingId]);
    const sitting = await this.store.byId(tx, sittingId, true);
    if (!sitting) throw new AppError('not_found', 'This request is not known here.');
    return { studio, sitting, lapsed };
  }

  /**
   * Lets all offers lapse that ran out by an instant: the places are free, and whoever did not answer waits again,
   * or is asked no more. `also` are locked with them, in one order.
   * @returns how many lapsed
   */
  async lapse(tx: Tx, studio: Studio, at: Temporal.Instant, also: string[] = []): Promise<number> {
    const expired = await this.waiting.expired(tx, at);
    const sittings = await this.store.lockAll(tx, [...expired.map((one) => one.forId), ...also]);
    if (expired.length === 0) return 0;
    const { mostUnanswered } = await this.waiting.rules(tx);
    let lapsed = 0;
    for (const offer of expired) {
      const sitting = sittings.get(offer.forId);
      if (!sitting || !(await this.waiting.lapse(tx, offer.id, at))) continue; // settled meanwhile
      const unanswered = sitting.offersUnanswered + 1;
      const ranOut = unanswered >= mostUnanswered;
      await this.free(tx, studio, sitting);
      await this.turn(tx, sitting, {
        event: ranOut ? 'run_out' : 'lapse',
        who: 'contact',
        change: { occupancyId: null, offersUnanswered: unanswered },
        tell: ranOut ? 'run out' : 'lapsed',
        occupancyId: offer.occupancyId ?? undefined,
      });
      lapsed += 1;
    }
    return lapsed;
  }

  /**
   * Takes the room for a sitting and sets aside what its plates need; tentative for an offer.
   * @throws AppError not_an_opening, place_taken, short_of_stock
   */
  async take(
    tx: Tx,
    studio: Studio,
    sitting: Pick<Sitting, 'id' | 'kindId' | 'contactId'>,
    wallStart: Temporal.PlainDateTime,
    tentative = false,
  ): Promise<Occupancy> {
    const { asked, needs } = await this.wanted(tx, studio, sitting);
    const place = await this.room.take(tx, studio, { ...asked, wallStart, tentative });
    await this.days.reserve(tx, studio, sitting.id, needs, wallStart.toPlainDate());
    return place;
  }

  /**
   * Gives a sitting another place for the one it has: the room, what is set aside, and in calendars the same entry.
   * `passOn` is false where the old one is not free for others.
   * @throws AppError wrong_state without a place, not_an_opening, place_taken, short_of_stock
   */
  async move(
    tx: Tx,
    studio: Studio,
    sitting: Sitting,
    wallStart: Temporal.PlainDateTime,
    passOn: boolean,
  ): Promise<Occupancy> {
    const given = await this.free(tx, studio, sitting, passOn);
    if (!given) throw new AppError('wrong_state', 'There is no place to move any more.');
    return this.takeInstead(tx, studio, sitting, given, wallStart);
  }

  /** The same for a place that was given back before. @throws AppError not_an_opening, place_taken, short_of_stock */
  async takeInstead(
    tx: Tx,
    studio: Studio,
    sitting: Sitting,
    given: Occupancy,
    wallStart: Temporal.PlainDateTime,
  ): Promise<Occupancy> {
    const { asked, needs } = await this.wanted(tx, studio, sitting);
    const place = await this.room.takeInstead(tx, studio, given, { ...asked, wallStart });
    await this.days.reserve(tx, studio, sitting.id, needs, wallStart.toPlainDate());
    return place;
  }

  /** Sets aside anew what a sitting needs, after its ending was taken back. @throws AppError short_of_stock */
  async setAsideAgain(tx: Tx, studio: Studio, sitting: Sitting, day: Temporal.PlainDate): Promise<void> {
    const { needs } = await this.wanted(tx, studio, sitting);
    await this.days.reserve(tx, studio, sitting.id, needs, day);
  }

  /** What a sitting asks of the room and of the shelf. */
  private async wanted(tx: Tx, studio: Studio, sitting: Pick<Sitting, 'id' | 'kindId' | 'contactId'>) {
    const plates = (await this.store.plates(tx, [sitting.id])).get(sitting.id) ?? [];
    const onPlates = new Set(plates.flatMap((one) => one.sitterIds));
    const asking = (await this.people.withSitters(tx, [sitting.contactId])).get(sitting.contactId);
    const needs = needsOf(
      plates,
      await this.stock.plateSizes(tx),
      await this.stock.items(tx),
      studio.reserveQuantity,
      await this.actuals.figures(tx),
      bottleFor((asking?.sitters ?? []).filter(({ id }) => onPlates.has(id))),
    );
    const { id: heldFor, kindId } = sitting;
    return { asked: { plates: plates.length, sitters: onPlates.size, kindId, heldFor }, needs };
  }

  /**
   * Gives the room and what was set aside back; whoever waits may be asked. Nothing where a sitting has no place.
   * `passOn` is false where the studio itself calls it off or moves it: the room is not free for others.
   */
  async free(tx: Tx, studio: Studio, sitting: Sitting, passOn: PassOn = true): Promise<Occupancy | null> {
    const place = sitting.occupancyId
      ? await this.room.giveBack(tx, sitting.occupancyId, passOn !== false)
      : null;
    await this.days.release(tx, studio, sitting.id, place?.wallStart.toPlainDate() ?? null);
    if (place && passOn) {
      const wallStart = place.wallStart.toString();
      const told = { key: wallStart, ...(passOn === 'later' && { runAt: this.undoEnds() }) };
      await this.jobs.enqueue(tx, 'place.freed', { wallStart }, told);
    }
    return place;
  }

  private undoEnds(): Temporal.Instant {
    return this.clock.now().add({ seconds: this.config.undoSeconds });
  }

  /** Settles the offer a sitting has open, if it has one. */
  async settle(
    tx: Tx,
    sitting: Sitting,
    answer: OfferAnswer,
    at: Temporal.Instant,
    who: string,
  ): Promise<void> {
    const offer = sitting.state === 'offered' ? await this.waiting.openFor(tx, sitting.id) : null;
    if (offer) await this.waiting.settle(tx, offer.id, answer, at, who);
  }

  /**
   * Calls an offered place back, since its day cannot be held; they wait again, and nobody else is asked for it.
   * @throws AppError wrong_state when nothing is offered
   */
  async callBack(tx: Tx, studio: Studio, sitting: Sitting, who: string, telephone = false): Promise<void> {
    if (sitting.state !== 'offered')
      throw new AppError('wrong_state', 'No place is offered to them any more.');
    await this.settle(tx, sitting, 'called off', this.clock.now(), who);
    const place = await this.free(tx, studio, sitting, false);
    const change = { occupancyId: null };
    await this.turn(tx, sitting, {
      event: 'call_off',
      who,
      change,
      tell: 'called back',
      occupancyId: place?.id,
      telephone,
    });
  }

  /**
   * One turn of a sitting: its state, its line of history, and the job that tells of it.
   * @throws AppError wrong_state when the event cannot happen in its state
   */
  async turn(tx: Tx, sitting: Sitting, turn: Turn): Promise<void> {
    const state = next(sitting.state, turn.event);
    const now = this.clock.now();
    const change = { at: now, ...turn.change };
    const turns = state && (await this.store.setState(tx, sitting.id, sitting.state, state, change));
    if (turns === null)
      throw new AppError('wrong_state', 'This request was answered or given up in the meantime.');
    if (turn.undoable) await this.noteAct(tx, sitting, turn.undoable, turns, turn.who);
    if (state === 'waiting' || state === 'offered') {
      const expires = now.add({ hours: 24 * LINK_DAYS_WITHOUT_A_DAY });
      await this.links.setExpiry(tx, 'place', sitting.id, expires);
    }
    if (turn.tell) {
      const told = { sittingId: sitting.id, change: turn.tell, sequence: turns };
      const about = turn.occupancyId === undefined ? {} : { occupancyId: turn.occupancyId };
      const was = turn.was === undefined ? {} : { was: turn.was };
      const payload = { ...told, ...about, ...was, ...(turn.telephone ? { telephone: true } : {}) };
      const runAt = turn.undoable ? this.undoEnds() : now;
      await this.jobs.enqueue(tx, 'place.changed', payload, { key: `${sitting.id}:${turns}`, runAt });
    }
    const about = { aboutKind: 'sitting', aboutId: sitting.id, event: turn.event, note: turn.note ?? '' };
    await recordHistory(tx, this.clock, { who: turn.who, ...about });
  }

  /** What calendars show of some sittings reads otherwise now. */
  async revise(tx: Tx, sittingIds: string[]): Promise<void> {
    await this.room.revise(tx, sittingIds);
  }

  /** Keeps what a sitting was before an act of the desk, so that it can be undone. */
  async noteAct(tx: Tx, before: Sitting, event: Undoable, turns: number, who: string): Promise<void> {
    const about = { sittingId: before.id, event, turns, before: beforeOf(before) };
    await this.acts.insert(tx, { id: this.random.id(), ...about, at: this.clock.now(), who });
  }

  /** Takes a place away as if it had never been given; the sitting must not have it any more. */
  async neverGiven(tx: Tx, studio: Studio, sittingId: string, place: Occupancy): Promise<void> {
    await this.removal.remove(tx, place);
    await this.days.release(tx, studio, sittingId, place.wallStart.toPlainDate());
    const expires = this.clock.now().add({ hours: 24 * LINK_DAYS_WITHOUT_A_DAY });
    await this.links.setExpiry(tx, 'place', sittingId, expires);
  }

  /** What a firm place brings: the page lives beyond the day, and there is a calendar to follow. */
  async confirmed(tx: Tx, sitting: Sitting, place: Occupancy): Promise<void> {
    await this.links.setExpiry(tx, 'place', sitting.id, place.endsAt.add({ hours: 24 * LINK_DAYS_AFTER }));
    await this.links.ensure(tx, 'feed', sitting.contactId, 'sitter');
  }
}
