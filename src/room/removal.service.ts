// Takes a place away that nobody was told of, as if it had never been taken: nobody gave it back, and it stands in no
// calendar. Whoever has the sitting takes the place from it first.
import { Injectable } from '@nestjs/common';
import type { Tx } from '../platform/db/tx.js';
import { ClosuresService } from './closures.service.js';
import type { Occupancy } from './occupancy.schemas.js';
import { RoomStore } from './room.store.js';
import { RulesStore } from './rules.store.js';

@Injectable()
export class RemovalService {
  private readonly store = new RoomStore();
  private readonly rules = new RulesStore();

  constructor(private readonly closures: ClosuresService) {}

  /** A closure over the place takes its room. */
  async remove(tx: Tx, place: Occupancy): Promise<void> {
    await this.rules.lockShared(tx);
    await this.store.remove(tx, place.id);
    await this.closures.fill(tx, place.zone, { from: place.startsAt, until: place.busyUntil });
  }
}
