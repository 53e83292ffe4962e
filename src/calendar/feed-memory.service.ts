// Feeds that were written a moment ago, so that many calendars that come after one change cost one feed. A tag stands
// for its bytes, so nothing here can be out of date; what is kept is bounded, the oldest is forgotten first.
import { Injectable } from '@nestjs/common';

/** A feed's text and the tag that stands for it. */
export interface Written {
  etag: string;
  text: string;
}

/** Characters kept, some twenty of the longest feeds. */
const MOST = 16_000_000;

@Injectable()
export class FeedMemory {
  private readonly kept = new Map<string, Written>();
  private readonly writing = new Map<string, Promise<Written>>();
  private size = 0;

  /** The feed of a tag: kept, being written already, or written now. What fails is not kept. */
  once(etag: string, write: () => Promise<Written>): Promise<Written> {
    const kept = this.kept.get(etag);
    if (kept) return Promise.resolve(kept);
    const begun = this.writing.get(etag);
    if (begun) return begun;
    const writing = write()
      .then((written) => {
        this.keep(written);
        return written;
      })
      .finally(() => this.writing.delete(etag));
    this.writing.set(etag, writing);
    return writing;
  }

  private keep(written: Written): void {
    if (written.text.length > MOST || this.kept.has(written.etag)) return;
    this.kept.set(written.etag, written);
    this.size += written.text.length;
    for (const [etag, { text }] of this.kept) {
      if (this.size <= MOST) return;
      this.kept.delete(etag);
      this.size -= text.length;
    }
  }
}
