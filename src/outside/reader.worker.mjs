// The thread in which somebody's calendar is read, so that a hostile one holds up nobody and can be ended. Plain
// JavaScript, so that the same file runs from the source and from the build; it reads one calendar and ends.
import { existsSync } from 'node:fs';
import { register } from 'node:module';
import { parentPort, workerData } from 'node:worker_threads';

// in the build the reading beside it is JavaScript; from the source, where only tests run, it is read through a hook
if (!existsSync(new URL('./expand.calc.js', import.meta.url)))
  register('../../test/support/read-typescript.mjs', import.meta.url);

const { readBusyTimes } = await import('./expand.calc.js');
parentPort.postMessage(readBusyTimes(workerData));
