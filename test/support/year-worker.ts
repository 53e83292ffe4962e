// A worker on the injected clock: takes due jobs from the real queue and runs the real handlers, some at once. Now and then
// it dies: before a job, in the middle of its transaction, while a letter is on its way, or before it noted that it
// was done. Its jobs stay locked until the house's own heartbeat frees them. And now and then it is taken for dead
// and lives: then another does the same job beside it.
import { AsyncLocalStorage } from 'node:async_hooks';
import type pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { SystemRandom } from '../../src/platform/clock.js';
import { Jobs } from '../../src/platform/jobs/registry.js';
import { heartbeat } from '../../src/platform/jobs/runner.js';
import type { Mailer } from '../../src/platform/mailer.js';
import type { TestHouse } from './house.js';
import { instead } from './instead.js';
import { queuePool } from './queue.js';

/** How a job's worker ends. */
type Death = 'before' | 'in the transaction' | 'before the mail server' | 'after the mail server' | 'unnoted';
interface Doing {
  death: Death | null;
  die(): void;
}
interface Job {
  id: string;
  task: string;
  payload: unknown;
  attempts: number;
}

class Killed extends Error {}
const AT_ONCE = 25;
/** Of a thousand jobs so many end with their worker, in each way. */
const DEATHS_PER_MILLE = 12;

export class YearWorker {
  private readonly doing = new AsyncLocalStorage<Doing>();
  private readonly queue: pg.Pool;
  private readonly handlers: Record<string, (payload: unknown) => Promise<void>>;
  private readonly revive: () => void;
  /** Its jobs that are still locked by dead ones, and how many there ever were. */
  private dead = 0;
  private buriedEver = 0;
  private readonly nameOfDead: string;
  private completed: string[] = [];
  /** The Message-IDs that a mail server took while nobody was left to hear it. */
  readonly unheard: string[] = [];
  /** How often it died in each way, and how often two did one job. */
  readonly deaths = new Map<string, number>();
  /** Jobs of the last step that failed, and all it did. */
  failed = 0;
  done = 0;

  constructor(
    private readonly house: TestHouse,
    /** Whose jobs it takes. */
    private readonly studioId: string,
    private readonly chance: () => number,
    /** How many of its mail jobs another does beside it, having taken it for dead. */
    private readonly taken: number,
  ) {
    this.queue = queuePool(house.database.url, 2);
    this.handlers = house.app.get(Jobs).taskList();
    const { doing } = this;
    this.nameOfDead = `dead of ${studioId}`;
    this.revive = instead(
      SystemRandom.prototype,
      'id',
      (id) =>
        function (this: SystemRandom) {
          if (doing.getStore()?.death === 'in the transaction') throw new Killed('killed');
          return id.call(this);
        },
    );
  }

  close(): Promise<void> {
    this.revive();
    return this.queue.end();
  }

  /** Wraps how a letter is sent, so that a worker can die beside the mail server. */
  mortal(send: Mailer['send']): Mailer['send'] {
    return async (message, signal) => {
      const { death, die } = this.doing.getStore() ?? { death: null, die: () => {} };
      if (death === 'before the mail server') {
        die();
        return new Promise(() => {});
      }
      await send(message, signal);
      if (death !== 'after the mail server') return;
      this.unheard.push(message.messageId);
      die();
      await new Promise(() => {});
    };
  }

  /** When there is something to do next; null for never. */
  async next(): Promise<Temporal.Instant | null> {
    const { rows } = await this.queue.query<{ at: Date | null }>({
      name: 'next',
      text: `select least((select run_at from graphile_worker._private_jobs where is_available and starts_with(key, $2)
           order by priority, run_at limit 1),
         case when $1 then (select min(locked_at) + interval '61 seconds' from graphile_worker._private_jobs
           where locked_at is not null and starts_with(key, $2)) end) as at`,
      values: [this.dead > 0, this.studioId],
    });
    const at = rows[0]?.at;
    return at ? Temporal.Instant.fromEpochMilliseconds(at.getTime()) : null;
  }

  /** Frees what the dead left, and works until nothing is due. */
  async work(): Promise<void> {
    this.failed = 0;
    this.done = 0;
    if (this.dead > 0) await this.free();
    for (let jobs = await this.take(); jobs.length > 0; jobs = await this.take()) {
      const left = [...jobs];
      this.done += jobs.length;
      const lane = async () => {
        for (let job = left.shift(); job; job = left.shift()) await this.run(job);
      };
      await Promise.all(Array.from({ length: AT_ONCE }, lane));
    }
  }

  /** Another process of the house may have done it already, by its own clock. */
  private async free(): Promise<void> {
    await heartbeat(this.queue, ['living'], this.house.clock);
    const { rows } = await this.queue.query<{ dead: number }>(
      `select count(*)::int as dead from graphile_worker._private_jobs where starts_with(locked_by, $1)`,
      [this.nameOfDead],
    );
    this.dead = rows[0]?.dead ?? 0;
  }

  /** What is due next; what is done is taken off in the same go. */
  private async take(): Promise<Job[]> {
    const { rows } = await this.queue.query<Job>({
      name: 'take',
      text: `with done as (
          delete from graphile_worker._private_jobs where id = any($2::bigint[]) and locked_by = 'living')
        update graphile_worker._private_jobs j set locked_at = $1, locked_by = 'living', attempts = j.attempts + 1
        from graphile_worker._private_tasks t where t.id = j.task_id and j.id in (
          select id from graphile_worker._private_jobs
          where run_at <= $1 and is_available and starts_with(key, $3)
          order by priority, run_at, id limit 100 for update skip locked)
        returning j.id, t.identifier as task, j.payload, j.attempts`,
      values: [this.house.clock.now().toString(), this.completed.splice(0), this.studioId],
    });
    return rows;
  }

  private async run(job: Job): Promise<void> {
    const handler = this.handlers[job.task];
    if (!handler) throw new Error(`Nobody handles ${job.task}.`);
    const death = this.death(job);
    if (death === 'before') return this.buried(job, death);
    let die = () => {};
    const died = new Promise<'died'>((done) => {
      die = () => done('died');
    });
    const store: Doing = { death, die };
    const act = () => handler(job.payload);
    const twice = job.task === 'mail.send' && this.chance() < this.taken;
    if (twice) this.count('taken for dead');
    const first = this.doing.run(store, act);
    const second = twice ? act() : null;
    // whoever is not dead ends before the clock goes on: in truth an attempt is cut off before its lease is over
    const ends = Promise.allSettled([first, second]);
    if ((await Promise.race([ends, died])) === 'died') {
      await Promise.allSettled([second]);
      return this.buried(job, death);
    }
    const errors = (await ends).flatMap((one) => (one.status === 'rejected' ? [one.reason as Error] : []));
    if (errors.some((error) => error instanceof Killed)) return this.buried(job, death);
    if (errors.length > 0) this.failed++;
    else if (death === 'unnoted') return this.buried(job, death);
    await this.settle(job, errors[0] ?? null);
  }

  private death({ task }: Job): Death | null {
    const ways: Death[] =
      task === 'mail.send'
        ? ['before', 'before the mail server', 'after the mail server', 'unnoted']
        : ['before', 'in the transaction', 'unnoted'];
    const drawn = this.chance() * 1000;
    return ways[Math.floor(drawn / DEATHS_PER_MILLE)] ?? null;
  }

  /** Leaves a job locked by one who is heard of no more. */
  private async buried({ id }: Job, how: Death | null): Promise<void> {
    this.count(how ?? 'none');
    this.dead++;
    this.buriedEver++;
    await this.queue.query(`update graphile_worker._private_jobs set locked_by = $2 where id = $1`, [
      id,
      `${this.nameOfDead} ${this.buriedEver}`,
    ]);
  }

  /** As the queue does (graphile-worker's failJobs), on our clock; what is done is taken off in one go, as there. */
  private async settle({ id }: Job, error: Error | null): Promise<void> {
    if (!error) this.completed.push(id);
    else
      await this.queue.query(
        `update graphile_worker._private_jobs set last_error = $2, locked_by = null, locked_at = null,
           run_at = greatest($3::timestamptz, run_at) + exp(least(attempts, 10)) * interval '1 second' where id = $1`,
        [id, error.message, this.house.clock.now().toString()],
      );
  }

  private count(what: string): void {
    this.deaths.set(what, (this.deaths.get(what) ?? 0) + 1);
  }
}
