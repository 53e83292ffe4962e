// Offers of a place: made by the studio, answered by the contact or noted for them, lapsing by the clock, passed on.
// An offer is honoured exactly until it runs out. An answer that comes too late is told so, after the lapse is saved.
import { Injectable } from '@nestjs/common';
import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import type { Account } from '../accounts/accounts.schemas.js';
import { LinksService } from '../accounts/links.service.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import type { Tx } from '../platform/db/tx.js';
import { once } from '../platform/idempotency.js';
import { AppError, type ProblemCode } from '../platform/problems.js';
import { RoomService } from '../room/room.service.js';
import type { Studio } from '../studios/studios.schemas.js';
import { StudiosService } from '../studios/studios.service.js';
import { WaitingService } from '../waiting/waiting.service.js';
import { ListService } from './list.service.js';
import { PlacesService } from './places.service.js';
import type { Sitting } from './sittings.schemas.js';
import { next } from './states.calc.js';

/** Who answers: the contact by the secret of their page, or the studio for somebody who said it by telephone. */
export type Answering = { token: string; key?: string | undefined } | { who: Account; sittingId: string };

const outcome = z.enum(['done', 'ran out', 'nothing open', 'begun']);
type Outcome = z.output<typeof outcome>;

/** The name under which the studio's own rule makes offers. */
const BY_RULE = 'the waiting list';
/** What is an answer about one person and a place, and no fault: with others it may go. */
export const NOT_GIVEN: readonly ProblemCode[] = [
  'wrong_state',
  'not_an_opening',
  'place_taken',
  'short_of_stock',
];

@Injectable()
export class OffersService {
  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly links: LinksService,
    private readonly room: RoomService,
    private readonly waiting: WaitingService,
    private readonly list: ListService,
    private readonly places: PlacesService,
  ) {}

  /**
   * Offers a place: the room and what is needed from the shelf are held until the offer runs out.
   * @throws AppError wrong_state, not_an_opening (also for who needs longer notice), place_taken, short_of_stock
   */
  async make(
    studioId: string,
    who: Account,
    sittingId: string,
    wallStart: Temporal.PlainDateTime,
  ): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const { studio, sitting } = await this.places.lock(tx, sittingId);
      await this.offer(tx, studio, sitting, wallStart, who.name);
      await this.studios.raiseCalendarCounter(tx);
    });
  }

  /** Takes the place offered; once more is no mistake. @throws AppError offer_ran_out, wrong_state, place_taken */
  async accept(studioId: string, by: Answering): Promise<void> {
    await this.answer(studioId, by, 'accept', async (tx, { sitting, who, at }) => {
      if (sitting.state === 'confirmed') return 'done';
      const offer = await this.waiting.openFor(tx, sitting.id);
      if (sitting.state !== 'offered' || !offer || !sitting.occupancyId) return this.tooLate(tx, sitting);
      await this.waiting.settle(tx, offer.id, 'accepted', at, who);
      const place = await this.room.confirm(tx, sitting.occupancyId);
      await this.places.turn(tx, sitting, {
        event: 'accept',
        who,
        note: place.wallStart.toString({ smallestUnit: 'minute' }),
        change: { offersUnanswered: 0, returnOwed: false },
        tell: 'confirmed',
      });
      await this.places.confirmed(tx, sitting, place);
      return 'done';
    });
  }

  /** Says no to the place offered and stays on the list. @throws AppError offer_ran_out, wrong_state */
  async refuse(studioId: string, by: Answering): Promise<void> {
    await this.answer(studioId, by, 'refuse', async (tx, { studio, sitting, who, at }) => {
      if (sitting.state !== 'offered') return this.tooLate(tx, sitting);
      return this.backToList(tx, studio, sitting, { event: 'refuse', answer: 'refused', who, at });
    });
  }

  /**
   * Gives an offered or confirmed place back and waits for another day, with the date of asking kept.
   * @throws AppError offer_ran_out, wrong_state, also once the hour has come
   */
  async askAnotherDay(studioId: string, by: Answering): Promise<void> {
    await this.answer(studioId, by, 'another day', async (tx, { studio, sitting, who, at }) => {
      if (!next(sitting.state, 'ask_another_day')) return this.tooLate(tx, sitting);
      const [held] = sitting.occupancyId ? await this.room.byIds(tx, [sitting.occupancyId]) : [];
      if (held && this.room.begun(held)) return 'begun';
      return this.backToList(tx, studio, sitting, {
        event: 'ask_another_day',
        answer: 'another day',
        who,
        at,
      });
    });
  }

  /** Lets lapse what has run out. One that the queue brings too early is looked at again. */
  async lapse(studioId: string, offerId: string): Promise<void> {
    await this.db.inStudio(studioId, async (tx) => {
      const at = this.clock.now();
      const lapsed = await this.places.lapse(tx, await this.studios.load(tx), at);
      const offer = await this.waiting.byId(tx, offerId);
      if (offer && offer.answer === null) await this.waiting.watch(tx, offer);
      if (lapsed > 0) await this.studios.raiseCalendarCounter(tx);
    });
  }

  /**
   * Where the studio passes places on by rule: offers one that came free to the first on the list whom it suits and
   * who can be given it. Each is a transaction of their own, so that one who cannot stops nobody behind them.
   */
  async passOn(studioId: string, wallStart: Temporal.PlainDateTime): Promise<void> {
    const order = await this.db.inStudio(studioId, async (tx) => {
      if ((await this.waiting.rules(tx)).mode !== 'automatic') return [];
      return (await this.list.candidates(tx, await this.studios.load(tx), wallStart)).order;
    });
    for (const sittingId of order) if (await this.offerByRule(studioId, sittingId, wallStart)) return;
  }

  /** False where they cannot be given the place. */
  private async offerByRule(
    studioId: string,
    sittingId: string,
    wallStart: Temporal.PlainDateTime,
  ): Promise<boolean> {
    try {
      return await this.db.inStudio(studioId, async (tx) => {
        const { studio, sitting, lapsed } = await this.places.lock(tx, sittingId);
        const waits = sitting.state === 'waiting';
        if (waits) await this.offer(tx, studio, sitting, wallStart, BY_RULE);
        if (waits || lapsed > 0) await this.studios.raiseCalendarCounter(tx);
        return waits;
      });
    } catch (error) {
      if (error instanceof AppError && NOT_GIVEN.includes(error.code)) return false;
      throw error;
    }
  }

  private async offer(
    tx: Tx,
    studio: Studio,
    sitting: Sitting,
    wallStart: Temporal.PlainDateTime,
    who: string,
  ): Promise<void> {
    if (!next(sitting.state, 'offer'))
      throw new AppError('wrong_state', 'This request was answered or given up in the meantime.');
    const place = await this.places.take(tx, studio, sitting, wallStart, true);
    const expiry = await this.list.expiryFor(tx, studio, sitting, place.startsAt);
    if (!expiry.ok) throw new AppError('not_an_opening', NOT_ASKED[expiry.reason]);
    await this.waiting.make(tx, { forId: sitting.id, occupancyId: place.id, expiry, who });
    await this.places.turn(tx, sitting, {
      event: 'offer',
      who,
      note: wallStart.toString({ smallestUnit: 'minute' }),
      change: { message: '', occupancyId: place.id },
      tell: 'offered',
    });
  }

  private async backToList(
    tx: Tx,
    studio: Studio,
    sitting: Sitting,
    how: {
      event: 'refuse' | 'ask_another_day';
      answer: 'refused' | 'another day';
      who: string;
      at: Temporal.Instant;
    },
  ): Promise<Outcome> {
    await this.places.settle(tx, sitting, how.answer, how.at, how.who);
    const place = await this.places.free(tx, studio, sitting);
    const named = how.event === 'refuse' || sitting.state === 'confirmed';
    await this.places.turn(tx, sitting, {
      event: how.event,
      who: how.who,
      change: { occupancyId: null, offersUnanswered: 0 },
      tell: how.event === 'refuse' ? 'refused' : 'another day',
      occupancyId: named ? place?.id : undefined,
    });
    return 'done';
  }

  /** Why there is nothing to answer: an offer that ran out, or none. */
  private async tooLate(tx: Tx, sitting: Sitting): Promise<Outcome> {
    const newest = await this.waiting.newest(tx, sitting.id);
    return newest?.answer === 'lapsed' ? 'ran out' : 'nothing open';
  }

  /** The moment that counts is when the answer arrived, however long it then had to wait for others. */
  private async answer(
    studioId: string,
    by: Answering,
    name: string,
    act: (
      tx: Tx,
      on: { studio: Studio; sitting: Sitting; who: string; at: Temporal.Instant },
    ) => Promise<Outcome>,
  ): Promise<void> {
    const at = this.clock.now();
    const came = await this.db.inStudio(studioId, async (tx) => {
      const answered = async (sittingId: string, who: string) => {
        const locked = await this.places.lock(tx, sittingId, at);
        const result = await act(tx, { ...locked, who, at });
        if (result === 'done' || locked.lapsed > 0) await this.studios.raiseCalendarCounter(tx);
        return result;
      };
      if ('who' in by) return answered(by.sittingId, by.who.name);
      const link = await this.links.open(tx, 'place', by.token);
      if (by.key === undefined) return answered(link.subjectId, 'contact');
      const keyed = { name, key: by.key, request: link.id };
      return once(tx, this.clock, keyed, outcome, () => answered(link.subjectId, 'contact'));
    });
    if (came === 'ran out') throw new AppError('offer_ran_out');
    if (came === 'nothing open')
      throw new AppError('wrong_state', 'There is no open offer any more: it was answered, or called back.');
    if (came === 'begun')
      throw new AppError(
        'wrong_state',
        'The hour of this sitting has come; the day cannot be changed any more.',
      );
  }
}

const NOT_ASKED = {
  'notice too long': 'They need longer notice than there is until that place, so they are not asked.',
  'no time to answer':
    'There is too little time left for an answer. If they say yes on the telephone, give the place instead.',
};
