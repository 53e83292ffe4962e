// Takes the room for what follows no rhythm: a day of teaching, from a wall time for so many minutes. The exclusion
// constraint keeps it apart from sittings and closures. Methods take the caller's transaction.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { timeInWords } from '../lib/words.js';
import { instantToWall, wallToInstant } from '../lib/zoned-time.js';
import { Clock, Random } from '../platform/clock.js';
import type { Tx } from '../platform/db/tx.js';
import { AppError } from '../platform/problems.js';
import type { Studio } from '../studios/studios.schemas.js';
import type { Occupancy } from './occupancy.schemas.js';
import { RoomStore } from './room.store.js';
import { RulesStore } from './rules.store.js';

export interface Holding {
  heldFor: string;
  title: string;
  wallStart: Temporal.PlainDateTime;
  minutes: number;
}

@Injectable()
export class HoldingService {
  private readonly store = new RoomStore();
  private readonly rules = new RulesStore();

  constructor(
    private readonly clock: Clock,
    private readonly random: Random,
  ) {}

  /** @throws AppError not_an_opening at an hour that clocks skip or show twice, or that is past; place_taken */
  async take(tx: Tx, studio: Studio, asked: Holding): Promise<Occupancy> {
    await this.rules.lockShared(tx);
    const now = this.clock.now();
    const place: Occupancy = {
      id: this.random.id(),
      resource: 'room',
      kind: 'teaching',
      heldFor: asked.heldFor,
      holds: true,
      tentative: false,
      zone: studio.zone,
      ...this.times(studio, asked),
      title: asked.title,
      plates: 0,
      kindId: null,
      uid: this.random.id(),
      sequence: 0,
      revisedAt: now,
      createdAt: now,
    };
    await this.refuseHeld(tx, place);
    await this.store.insert(tx, place);
    return place;
  }

  /** Another time for what was given back a moment ago; in calendars it stays the same entry. @throws as `take` */
  async takeInstead(tx: Tx, studio: Studio, given: Occupancy, asked: Holding): Promise<Occupancy> {
    await this.rules.lockShared(tx);
    const to = { ...given, ...this.times(studio, asked), zone: studio.zone };
    await this.refuseHeld(tx, to);
    return this.store.move(tx, to, this.clock.now());
  }

  /** What holds the room at that time already is told by name; who is faster meanwhile meets the constraint. */
  private async refuseHeld(tx: Tx, { startsAt, busyUntil }: Occupancy): Promise<void> {
    const all = await this.store.holding(tx, startsAt, busyUntil);
    const held = all.find(({ kind }) => kind !== 'closure') ?? all[0];
    if (!held) return;
    const message =
      held.kind === 'closure'
        ? 'The studio is closed at that time.'
        : `The room holds ${held.kind === 'sitting' ? 'a sitting' : 'a teaching day'} at that time, from ${timeInWords(held.wallStart)} to ${timeInWords(held.wallEnd)}.`;
    throw new AppError('place_taken', message, [{ field: 'day', message }]);
  }

  private times({ zone }: Studio, { wallStart, minutes }: Holding) {
    const starts = wallToInstant(zone, wallStart);
    if (!starts.ok)
      throw new AppError('not_an_opening', 'The clocks change at that hour; please choose another time.');
    if (starts.instant.epochMilliseconds <= this.clock.now().epochMilliseconds)
      throw new AppError('not_an_opening', 'That time is past.');
    const endsAt = starts.instant.add({ minutes });
    const wallEnd = instantToWall(zone, endsAt);
    return { wallStart, wallEnd, startsAt: starts.instant, endsAt, busyUntil: endsAt };
  }
}
