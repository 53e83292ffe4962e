// Every kind of job, with the shape of its payload. Jobs are put on the queue inside the transaction
// that causes them, so "booked" and "to be told" commit together; handlers must bear running twice.

import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';
import { Clock } from '../clock.js';
import { TogetherIn } from '../db/together-in.js';
import type { Tx } from '../db/tx.js';

const ofStudio = z.object({ studioId: z.uuid() });

export const JOBS = {
  /** Something happened to a sitting that its contact is to be told of. */
  'place.changed': ofStudio.extend({
    sittingId: z.uuid(),
    change: z.enum([
      'asked',
      'waiting',
      'offered',
      'refused',
      'lapsed',
      'run out',
      'called back',
      'called off',
      'called off for good',
      'moved',
      'another day',
      'confirmed',
      'declined',
      'withdrawn',
      'released',
    ]),
    /** Grows with every change of the sitting. */
    sequence: z.int().min(0),
    /** The place it was about, where the sitting has it no more. */
    occupancyId: z.uuid().optional(),
    /** The wall time it had before, where it was moved. */
    was: z.string().optional(),
    /** A letter may come too late: they are to be telephoned as well. */
    telephone: z.boolean().optional(),
  }),
  /** An offer may have run out; what takes a place lets it lapse before this job does. */
  'offer.lapsed': ofStudio.extend({ offerId: z.uuid() }),
  /** Something happened to a sign-up for a day of teaching that they are to be told of. */
  'teaching.changed': ofStudio.extend({
    signUpId: z.uuid(),
    change: z.enum([
      'asked',
      'waiting',
      'offered',
      'refused',
      'lapsed',
      'run out',
      'signed',
      'changed',
      'declined',
      'withdrawn',
      'released',
      'called off',
    ]),
    /** Grows with every change of the sign-up. */
    sequence: z.int().min(0),
    /** Who has told them of it on the telephone already, while it was typed in. */
    toldBy: z.string().optional(),
  }),
  /** An offer of a place at a day of teaching may have run out. */
  'teaching.lapsed': ofStudio.extend({ offerId: z.uuid() }),
  /** Places of a day of teaching came free. */
  'teaching.freed': ofStudio.extend({ sessionId: z.uuid() }),
  /** A day of teaching is over: what was private for the day is erased. */
  'teaching.ended': ofStudio.extend({ sessionId: z.uuid() }),
  /** A place came free that somebody on the waiting list may want. */
  'place.freed': ofStudio.extend({ wallStart: z.string() }),
  /** Somebody put their details right: what goes by where they come from is planned anew. */
  'details.corrected': ofStudio.extend({ sittingId: z.uuid() }),
  /** Somebody told another journey: what goes by how they come is planned anew, for all they come for. */
  'journey.told': ofStudio.extend({ contactId: z.uuid() }),
  /** A reminder of a place is due. */
  'reminder.due': ofStudio.extend({ reminderId: z.uuid() }),
  /** A voucher used on a sitting is no surprise any more: what was held back may go. */
  'surprise.over': ofStudio.extend({ sittingId: z.uuid() }),
  /** An owner or assistant asked for a sign-in link. */
  'sign-in.asked': ofStudio.extend({ linkId: z.uuid() }),
  /** The owner's letter about the day ahead is due, of a date; without one the next is seen to. */
  'day.letter': ofStudio.extend({ day: z.string().optional() }),
  /** It is an outside calendar's turn to be read. */
  'outside.due': ofStudio,
  /** What is seen to once a day, see night.ts. */
  night: ofStudio,
  /** What the studio's rules of keeping say is erased tonight. */
  'keep to rules': ofStudio,
  /** The night's copy of the studio is to be made. */
  copy: ofStudio,
  /** A mail row waits to be sent. */
  'mail.send': ofStudio.extend({ mailId: z.uuid() }),
} as const;

export type JobName = keyof typeof JOBS;
export type JobPayload<N extends JobName> = z.output<(typeof JOBS)[N]>;
export type JobHandler<N extends JobName> = (payload: JobPayload<N>) => Promise<void>;

interface Queued {
  name: JobName;
  payload: unknown;
  runAt: Temporal.Instant;
  key: string;
}

export class Jobs {
  private readonly handlers = new Map<JobName, (payload: unknown) => Promise<void>>();
  /** The kinds whose jobs a worker takes along with each other; see in-numbers.ts. */
  readonly inNumbers = new Set<string>();
  private readonly queued = new TogetherIn<Queued, void>(async (tx, jobs) => {
    await tx.run(
      'select plateday_queue.enqueue_all($1::text[], $2::jsonb[], $3::timestamptz[], $4::text[])',
      [
        jobs.map((one) => one.name),
        jobs.map((one) => JSON.stringify(one.payload)),
        jobs.map((one) => one.runAt),
        jobs.map((one) => one.key),
      ],
    );
    return jobs.map(() => undefined);
  });

  constructor(private readonly clock: Clock) {}

  /**
   * Puts a job on the queue as part of `tx`; it runs once `tx` has committed, and never if it rolls back.
   * A waiting job of the same studio and key is replaced. The studio is taken from the transaction.
   */
  async enqueue<N extends JobName>(
    tx: Tx,
    name: N,
    payload: Omit<JobPayload<N>, 'studioId'>,
    options: { key: string; runAt?: Temporal.Instant },
  ): Promise<void> {
    JOBS[name].parse({ ...payload, studioId: tx.studioId });
    const runAt = options.runAt ?? this.clock.now();
    await this.queued.ask(tx, { name, payload, runAt, key: `${name}:${options.key}` });
  }

  /**
   * Says who does the jobs of a kind; each kind has exactly one handler.
   * @param inNumbers whether many come at once, and are done together
   */
  handle<N extends JobName>(name: N, handler: JobHandler<N>, inNumbers = false): void {
    if (this.handlers.has(name)) throw new Error(`Two handlers for ${name}.`);
    if (inNumbers) this.inNumbers.add(name);
    this.handlers.set(name, async (payload) => handler(JOBS[name].parse(payload) as JobPayload<N>));
  }

  /** The handlers by job name, for the runner. A kind nobody handles is a programming error. */
  taskList(): Record<string, (payload: unknown) => Promise<void>> {
    for (const name of Object.keys(JOBS) as JobName[])
      if (!this.handlers.has(name)) throw new Error(`Nobody handles the job ${name}.`);
    return Object.fromEntries(this.handlers);
  }
}
