// Re-derives the instants of all places ahead after a zone's law changed, one transaction per studio.
import { Injectable } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import { zoneDataVersion } from '../lib/zoned-time.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';
import { recordHistory } from '../platform/db/history.js';
import type { Tx } from '../platform/db/tx.js';
import { StudiosService } from '../studios/studios.service.js';
import { ClosuresService } from './closures.service.js';
import { isMislaid, type Rederived, rederive } from './rederive.calc.js';
import { RederiveStore } from './rederive.store.js';

@Injectable()
export class RederiveService {
  private readonly store = new RederiveStore();

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly studios: StudiosService,
    private readonly closures: ClosuresService,
  ) {}

  /**
   * Re-derives a studio's places ahead; running it again changes nothing. A place that clashes gives the room
   * up to the one booked before it and is listed on the desk as to be moved; a place whose hour the clock
   * skips keeps its instant and is reported. Closures are laid anew around what then stands.
   */
  async studio(studioId: string): Promise<Rederived[]> {
    return this.db.inStudio(studioId, async (tx) => {
      await this.closures.hold(tx);
      const now = this.clock.now();
      const ahead = await this.store.ahead(tx, now);
      const pieces = ahead.filter(({ kind }) => kind === 'closure');
      const changed = rederive(ahead.filter(({ kind }) => kind !== 'closure'));
      const rewritten = changed.filter(({ outcome }) => outcome !== 'clock gap');
      if (rewritten.length === 0 && !pieces.some(isMislaid)) return changed;
      await this.closures.layAnew(tx, pieces, async () => {
        await this.store.letGo(
          tx,
          rewritten.map(({ place }) => place.id),
        );
        for (const one of rewritten) await this.write(tx, one, now);
      });
      await this.studios.raiseCalendarCounter(tx);
      return changed;
    });
  }

  private async write(tx: Tx, { now: place, outcome }: Rederived, at: Temporal.Instant): Promise<void> {
    await this.store.write(tx, place, outcome === 'moved', at);
    await recordHistory(tx, this.clock, {
      who: 'Plateday',
      aboutKind: place.kind,
      aboutId: place.heldFor,
      event: outcome === 'moved' ? 'rederive' : 'clash',
      note: `zone data ${zoneDataVersion}`,
    });
  }

  /** All studios, one after the other. */
  async all(report: (studioId: string, changed: Rederived[]) => void): Promise<void> {
    for (const studioId of await this.db.studioIds()) report(studioId, await this.studio(studioId));
  }
}
