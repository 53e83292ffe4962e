// Writes the text of feeds in a thread of its own, so that a long one keeps no page waiting. It reads no rows.
import { setImmediate as othersTurn } from 'node:timers/promises';
import { Injectable, type OnModuleDestroy } from '@nestjs/common';
import { AppError } from '../platform/problems.js';
import { Thread } from '../platform/thread.js';
import { MOST_ENTRIES } from './feeds.calc.js';
import { type FeedData, type PlainEntry, type PlainFeed, toPlain } from './feed-plain.calc.js';

/** Seconds after which a feed is given up: a thousand times what an ordinary one takes (assumption). */
const LIMIT_SECONDS = 20;
/** Entries made plain before other requests have their turn. */
const AT_ONCE = 100;

@Injectable()
export class FeedBuilder implements OnModuleDestroy {
  private readonly thread = new Thread<{ feed: { asked: PlainFeed; found: string } }>(
    new URL('./feeds.worker.mjs', import.meta.url),
  );

  /** The file of a feed, of its first MOST_ENTRIES entries. @throws AppError busy when it takes too long */
  async build({ entries, ...feed }: FeedData): Promise<string> {
    const kept = entries.slice(0, MOST_ENTRIES);
    const plain: PlainEntry[] = [];
    for (let from = 0; from < kept.length; from += AT_ONCE) {
      plain.push(...kept.slice(from, from + AT_ONCE).map(toPlain));
      await othersTurn();
    }
    const text = await this.thread.ask('feed', { ...feed, entries: plain }, LIMIT_SECONDS);
    if (text === null) throw new AppError('busy');
    return text;
  }

  onModuleDestroy(): Promise<void> {
    return this.thread.end();
  }
}
