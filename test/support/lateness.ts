// How late the loop of events was while something went on.
import { monitorEventLoopDelay } from 'node:perf_hooks';

/** Milliseconds: nineteen in twenty times, and at worst. */
export async function lateness(act: () => Promise<unknown>): Promise<{ usual: number; worst: number }> {
  const delays = monitorEventLoopDelay({ resolution: 5 });
  delays.enable();
  await moment(); // the measuring has begun
  await act();
  await moment(); // what was held up to the last is counted too
  delays.disable();
  return { usual: delays.percentile(95) / 1e6, worst: delays.max / 1e6 };
}

const moment = () => new Promise((done) => setTimeout(done, 15));
