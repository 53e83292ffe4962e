// The thread in which the text of calendar feeds is written. Plain JavaScript, so that the same file runs from the source
// and from the build; takes one feed after the other, its owner ends it.
import { existsSync } from 'node:fs';
import { register } from 'node:module';
import { parentPort } from 'node:worker_threads';

// in the build what writes the text is JavaScript; from the source, where only tests run, it is read through a hook
if (!existsSync(new URL('./ics.calc.js', import.meta.url)))
  register('../../test/support/read-typescript.mjs', import.meta.url);

const { fromPlain } = await import('./feed-plain.calc.js');
const { buildFeed } = await import('./ics.calc.js');

parentPort.on('message', ({ number, asked }) => {
  try {
    parentPort.postMessage({ number, found: buildFeed({ ...asked, entries: asked.entries.map(fromPlain) }) });
  } catch (error) {
    parentPort.postMessage({ number, broke: String(error?.stack ?? error) });
  }
});
