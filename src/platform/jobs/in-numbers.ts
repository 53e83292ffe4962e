// Jobs that come in numbers, such as a morning's letters: whoever takes one takes along what waits of its kind, so that the
// queue is asked once for all, and their handlers begin together and share what they ask (see db/shared.ts). Each ends for
// itself, as the queue itself would end it: taken off when done, otherwise tried again later and later.
import { setTimeout as sleep } from 'node:timers/promises';
import type { Job, Task } from 'graphile-worker';
import type pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import type { Clock } from '../clock.js';
import { Together } from '../together.js';

/** So many of a kind are done together at most, and so many are under way at once: while some end, the next begin. */
const TOGETHER = 25;
const AT_ONCE = 2 * TOGETHER;
const RETRY_MS = 1_000;

type Handler = (payload: unknown) => Promise<void>;
type Taken = Pick<Job, 'id' | 'payload' | 'attempts' | 'max_attempts' | 'locked_by'>;
interface Ended {
  job: Taken;
  /** Null for one that is done. */
  error: unknown;
}

/** Of a kind. */
class Room {
  private underWay = 0;
  private readonly waiting: (() => void)[] = [];

  /** Waits until there is room for as many as are done together: few at a time would share nothing. */
  async enter(): Promise<void> {
    if (this.underWay + TOGETHER > AT_ONCE) await new Promise<void>((go) => this.waiting.push(go));
    else this.underWay += TOGETHER;
  }

  leave(places: number): void {
    this.underWay -= places;
    if (this.underWay + TOGETHER > AT_ONCE) return;
    const next = this.waiting.shift();
    if (!next) return;
    this.underWay += TOGETHER;
    next();
  }
}

export class InNumbers {
  private takenAt = 0;
  private readonly ended = new Together<Ended, void>(async (all) => {
    await this.asSoonAsItCan(() => this.note(all));
    return all.map(() => undefined);
  });

  /**
   * @param failed is told of each that failed; the one they were taken along with is the queue's to tell of
   * @param stop once it aborts, ends are noted only if the queue can be reached at once; what is not noted is done again
   */
  constructor(
    private readonly queue: pg.Pool,
    private readonly clock: Clock,
    private readonly failed: (name: string, job: Taken, error: unknown) => void,
    private readonly stop: AbortSignal,
  ) {}

  /** The task of a kind whose jobs are taken along with each other. It ends when all of them have. */
  task(name: string, handler: Handler): Task {
    const room = new Room();
    return async (payload, { job }) => {
      await room.enter();
      const along = await this.takeAlong(job);
      room.leave(TOGETHER - 1 - along.length);
      // none that rejects is left unheard while the first is being done: what was not noted is done again
      const others = Promise.allSettled(
        along.map(async (other) => {
          const error = await failure(handler(other.payload));
          room.leave(1);
          if (error !== null) this.failed(name, other, error);
          await this.ended.ask({ job: other, error });
        }),
      );
      try {
        await handler(payload);
      } finally {
        room.leave(1);
        await others;
      }
    };
  }

  /** Locks what is due of the same kind for whoever took `job`; none when the queue cannot be reached just now. */
  private async takeAlong(job: Job): Promise<Taken[]> {
    if (this.stop.aborted) return [];
    this.takenAt = Math.max(this.takenAt + 1, this.clock.now().epochMilliseconds);
    const at = Temporal.Instant.fromEpochMilliseconds(this.takenAt).toString();
    try {
      const { rows } = await this.queue.query<Taken>({
        name: 'take along',
        text: `update graphile_worker._private_jobs as j
          set attempts = j.attempts + 1, locked_by = $1, locked_at = $2
          where j.id in (
            select id from graphile_worker._private_jobs
            where is_available and run_at <= $2 and task_id = $3 and job_queue_id is null
            order by priority, run_at limit $4 for update skip locked)
          returning j.id, j.payload, j.attempts, j.max_attempts, j.locked_by`,
        values: [job.locked_by, at, job.task_id, TOGETHER - 1],
      });
      return rows;
    } catch {
      await this.asSoonAsItCan(() => this.giveBack(job, at));
      return [];
    }
  }

  /** What was taken at a moment, but the answer was lost; no two times of taking are of one moment. */
  private async giveBack(job: Job, at: string): Promise<void> {
    await this.queue.query(
      `update graphile_worker._private_jobs set attempts = attempts - 1, locked_by = null, locked_at = null
       where locked_by = $1 and locked_at = $2 and id <> $3`,
      [job.locked_by, at, job.id],
    );
  }

  private async asSoonAsItCan(act: () => Promise<void>): Promise<void> {
    for (;;)
      try {
        return await act();
      } catch (error) {
        if (this.stop.aborted) throw error;
        await sleep(RETRY_MS, undefined, { signal: this.stop }).catch(() => {});
      }
  }

  /** As graphile-worker does it; one that was freed meanwhile is no longer ours to note. */
  private async note(ended: Ended[]): Promise<void> {
    const done = ended.filter(({ error }) => error === null);
    const failed = ended.filter(({ error }) => error !== null);
    if (done.length > 0)
      await this.queue.query({
        name: 'done along',
        text: `delete from graphile_worker._private_jobs j using unnest($1::bigint[], $2::text[]) as d (id, locked_by)
          where j.id = d.id and j.locked_by = d.locked_by`,
        values: [done.map(({ job }) => job.id), done.map(({ job }) => job.locked_by)],
      });
    if (failed.length > 0)
      await this.queue.query(
        `update graphile_worker._private_jobs j set last_error = f.why, locked_by = null, locked_at = null,
           run_at = greatest($4::timestamptz, j.run_at) + exp(least(j.attempts, 10)) * interval '1 second'
         from unnest($1::bigint[], $2::text[], $3::text[]) as f (id, locked_by, why)
         where j.id = f.id and j.locked_by = f.locked_by`,
        [
          failed.map(({ job }) => job.id),
          failed.map(({ job }) => job.locked_by),
          failed.map(({ error }) => words(error)),
          this.clock.now().toString(),
        ],
      );
  }
}

/** What an act failed with; null when it did not. */
const failure = (act: Promise<void>): Promise<unknown> =>
  act.then(
    () => null,
    (error: unknown) => error ?? new Error('It failed without a word.'),
  );

export const words = (error: unknown) => (error instanceof Error ? error.message : String(error));
