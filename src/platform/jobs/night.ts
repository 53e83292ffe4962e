// The night's work: one job a studio, which puts itself on the queue again for the next night. Begun when a worker
// starts, so that a studio whose job was lost gets it back.
import { Temporal } from 'temporal-polyfill';
import type { Clock } from '../clock.js';
import type { Db } from '../db/db.js';
import type { Tx } from '../db/tx.js';
import type { Jobs } from './registry.js';

const DAY_MS = 86_400_000;
/** Three o'clock in UTC, an assumption: most who ask for anything in Europe and America sleep or work. */
const NIGHT_MS = 3 * 3_600_000;

/** The first beginning of a night's work after an instant. */
export function nextNight(now: Temporal.Instant): Temporal.Instant {
  const nights = Math.floor((now.epochMilliseconds - NIGHT_MS) / DAY_MS) + 1;
  return Temporal.Instant.fromEpochMilliseconds(nights * DAY_MS + NIGHT_MS);
}

/** Puts the next night's job of a studio on the queue, in place of one that waits there. */
export function enqueueNight(tx: Tx, jobs: Jobs, clock: Clock): Promise<void> {
  return jobs.enqueue(tx, 'night', {}, { key: 'night', runAt: nextNight(clock.now()) });
}

/** The same for every studio there is. */
export async function beginNights(db: Db, jobs: Jobs, clock: Clock): Promise<void> {
  for (const studioId of await db.studioIds())
    await db.inStudio(studioId, (tx) => enqueueNight(tx, jobs, clock));
}
