// When each feed was last fetched, and by what kind of program. Gathered in memory, since calendars come far more often than anybody looks, and
// written each minute; a process that dies forgets its last minute.
import { Injectable, Logger, type OnModuleDestroy, type OnModuleInit } from '@nestjs/common';
import type { Temporal } from 'temporal-polyfill';
import type { Client } from '../accounts/accounts.schemas.js';
import { LinksService } from '../accounts/links.service.js';
import { Clock } from '../platform/clock.js';
import { Db } from '../platform/db/db.js';

const FLUSH_MS = 60_000;

interface Fetch {
  at: Temporal.Instant;
  by: Client;
}

@Injectable()
export class FeedFetches implements OnModuleInit, OnModuleDestroy {
  private readonly log = new Logger('Feeds');
  /** Studio -> link. */
  private gathered = new Map<string, Map<string, Fetch>>();
  private timer: NodeJS.Timeout | undefined;

  constructor(
    private readonly db: Db,
    private readonly clock: Clock,
    private readonly links: LinksService,
  ) {}

  onModuleInit(): void {
    this.timer = setInterval(() => void this.flush(), FLUSH_MS);
    this.timer.unref();
  }

  async onModuleDestroy(): Promise<void> {
    clearInterval(this.timer);
    await this.flush();
  }

  note({ studioId, linkId }: { studioId: string; linkId: string }, by: Client): void {
    const ofStudio = this.gathered.get(studioId) ?? new Map<string, Fetch>();
    this.gathered.set(studioId, ofStudio.set(linkId, { at: this.clock.now(), by }));
  }

  /** Writes what was gathered, in one transaction a studio. What cannot be written is forgotten, and told. */
  async flush(): Promise<void> {
    const gathered = this.gathered;
    this.gathered = new Map();
    for (const [studioId, links] of gathered)
      try {
        await this.db.inStudio(studioId, async (tx) => {
          // In one order, so that two processes never wait for each other.
          for (const [linkId, { at, by }] of [...links].sort(([a], [b]) => (a < b ? -1 : 1)))
            await this.links.fetched(tx, linkId, at, by);
        });
      } catch (error) {
        this.log.warn(`When feeds were fetched could not be noted: ${(error as Error).message}`);
      }
  }
}
