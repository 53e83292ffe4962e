// A clock that the demo turns back while it tells what happened before, and then leaves alone.
import type { Temporal } from 'temporal-polyfill';
import { SystemClock } from '../src/platform/clock.js';

export class StoryClock extends SystemClock {
  private told: Temporal.Instant | null = null;

  override now(): Temporal.Instant {
    return this.told ?? super.now();
  }

  /** Sets the moment that the story tells of; null for the present. */
  tell(moment: Temporal.Instant | null): void {
    this.told = moment;
  }
}
