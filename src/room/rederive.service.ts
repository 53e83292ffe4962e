// Re-derives the instants of all places ahead after a zone's law changed, one transaction per studio.
import { Injectable } from '@nestjs/common';
import { zoneDataVersion } from '../lib/zoned-time.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import { StudiosService } from '../studios/studios.service.js';
import { type Rederived, rederive } from './rederive.calc.js';
import { RederiveStore } from './rederive.store.js';

@Injectable()
export class RederiveService {
  private readonly store = new RederiveStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
  ) {}

  /**
   * Re-derives a studio's places ahead; running it again changes nothing. A place that clashes gives the room
   * up to the one booked before it and is listed on the desk as to be moved; a place whose hour the clock
   * skips keeps its instant and is reported.
   */
  async studio(studioId: string): Promise<Rederived[]> {
    return this.db.inStudio(studioId, async (tx) => {
      const now = this.clock.now();
      const changed = rederive(await this.store.ahead(tx, now));
      const rewritten = changed.filter(({ outcome }) => outcome !== 'clock gap');
      await this.store.letGo(
        tx,
        rewritten.map(({ place }) => place.id),
      );
      for (const { now: place, outcome } of rewritten) {
        await this.store.write(tx, place, outcome === 'moved', now);
        await recordHistory(tx, this.clock, {
          who: 'Plateday',
          aboutKind: place.kind,
          aboutId: place.heldFor,
          event: outcome === 'moved' ? 'rederive' : 'clash',
          note: `zone data ${zoneDataVersion}`,
        });
      }
      if (rewritten.length > 0) await this.studios.raiseCalendarCounter(tx);
      return changed;
    });
  }

  /** All studios, one after the other. */
  async all(report: (studioId: string, changed: Rederived[]) => void): Promise<void> {
    for (const studioId of await this.db.studioIds()) report(studioId, await this.studio(studioId));
  }
}
