// Reads a calendar in a thread of its own, which is ended when it takes too long or too much.
import { Worker } from 'node:worker_threads';
import { Injectable } from '@nestjs/common';
import type { Asked, Reading } from './expand.calc.js';

/** Assumptions: a calendar of 2 MB is read in about a second, within some 100 MB. */
const MOST = { milliseconds: 6_000, megabytes: 256 };

@Injectable()
export class CalendarReader {
  private last: Promise<unknown> = Promise.resolve();

  /** One calendar after the other; never throws. */
  read(asked: Asked, most = MOST): Promise<Reading> {
    const next = this.last.then(() => readInThread(asked, most));
    this.last = next;
    return next;
  }
}

function readInThread(asked: Asked, most: typeof MOST): Promise<Reading> {
  const tooLong: Reading = { ok: false, reason: 'too long' };
  return new Promise((resolve) => {
    const thread = new Worker(new URL('./reader.worker.mjs', import.meta.url), {
      workerData: asked,
      resourceLimits: { maxOldGenerationSizeMb: most.megabytes },
    });
    const timer = setTimeout(() => end(tooLong), most.milliseconds);
    function end(reading: Reading) {
      clearTimeout(timer);
      resolve(reading);
      void thread.terminate();
    }
    thread.on('message', (reading: Reading) => end(reading)); // of our own making
    thread.on('error', () => end(tooLong)); // out of memory, or a stack without end
    thread.on('exit', () => end(tooLong));
  });
}
