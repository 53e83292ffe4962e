// Closures: they take the room in pieces around the places that stand, and nobody's place is lost. When a
// place under one is given back, the closure takes its time in the same transaction.
import { Injectable } from '@nestjs/common';
import { instantToWall } from '../lib/zoned-time.js';
import { Clock, Random } from '../platform/clock.js';
import type { Tx } from '../platform/db/tx.js';
import type { Occupancy } from './occupancy.schemas.js';
import { overlap, piecesAround, type Stretch } from './pieces.calc.js';
import { stretchOf } from './preview.calc.js';
import { RoomStore } from './room.store.js';
import type { Closure } from './rules.schemas.js';
import { RulesStore } from './rules.store.js';

@Injectable()
export class ClosuresService {
  private readonly store = new RoomStore();
  private readonly rules = new RulesStore();

  constructor(
    private readonly clock: Clock,
    private readonly random: Random,
  ) {}

  async close(tx: Tx, zone: string, closure: Closure): Promise<void> {
    await this.rules.lock(tx);
    await this.rules.insertClosure(tx, closure);
    await this.fill(tx, zone, stretchOf(zone, closure));
  }

  /** Takes a closure away and frees its pieces; what lies under another closure stays closed. */
  async reopen(tx: Tx, zone: string, closureId: string): Promise<void> {
    await this.rules.lock(tx);
    await this.rules.deleteClosure(tx, closureId);
    const freed = await this.store.giveBackAll(tx, closureId, this.clock.now());
    for (const { startsAt, busyUntil } of freed)
      await this.fill(tx, zone, { from: startsAt, until: busyUntil });
  }

  /** Keeps everybody else from taking, giving back or closing until the transaction ends. */
  hold(tx: Tx): Promise<void> {
    return this.rules.lock(tx);
  }

  /** Lifts the closures whose pieces these are, lets `act` rearrange what stands, and lays them again. */
  async layAnew(tx: Tx, pieces: Occupancy[], act: () => Promise<void>): Promise<void> {
    const ids = new Set(pieces.map(({ heldFor }) => heldFor));
    for (const id of ids) await this.store.giveBackAll(tx, id, this.clock.now());
    await act();
    const { closures } = await this.rules.load(tx);
    for (const closure of closures.filter(({ id }) => ids.has(id))) {
      const { zone } = pieces.find(({ heldFor }) => heldFor === closure.id) ?? {};
      if (zone !== undefined) await this.fill(tx, zone, stretchOf(zone, closure));
    }
  }

  /** Within a stretch of time: every closure takes what nothing else holds. */
  async fill(tx: Tx, zone: string, within: Stretch): Promise<void> {
    const { closures } = await this.rules.load(tx);
    for (const closure of closures) {
      const whole = stretchOf(zone, closure);
      if (!overlap(whole, within)) continue;
      const part = {
        from: whole.from.epochMilliseconds > within.from.epochMilliseconds ? whole.from : within.from,
        until: whole.until.epochMilliseconds < within.until.epochMilliseconds ? whole.until : within.until,
      };
      const holding = await this.store.holding(tx, part.from, part.until);
      const standing = holding.map((one) => ({ from: one.startsAt, until: one.busyUntil }));
      for (const piece of piecesAround(part, standing)) await this.lay(tx, zone, closure, piece);
    }
  }

  private async lay(tx: Tx, zone: string, closure: Closure, { from, until }: Stretch): Promise<void> {
    const now = this.clock.now();
    await this.store.insert(tx, {
      id: this.random.id(),
      resource: 'room',
      kind: 'closure',
      heldFor: closure.id,
      holds: true,
      tentative: false,
      zone,
      wallStart: instantToWall(zone, from),
      wallEnd: instantToWall(zone, until),
      startsAt: from,
      endsAt: until,
      busyUntil: until,
      title: closure.title,
      plates: 0,
      kindId: null,
      uid: this.random.id(),
      sequence: 0,
      revisedAt: now,
      createdAt: now,
    });
  }
}
