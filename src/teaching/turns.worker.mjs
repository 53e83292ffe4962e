// The thread in which turns are planned, so that the web process goes on answering. Plain JavaScript, so that the same
// file runs from the source and from the build; takes one question after the other, its owner ends it.
import { existsSync } from 'node:fs';
import { register } from 'node:module';
import { parentPort } from 'node:worker_threads';

// in the build the planning beside it is JavaScript; from the source, where only tests run, it is read through a hook
if (!existsSync(new URL('./rota.calc.js', import.meta.url)))
  register('../../test/support/read-typescript.mjs', import.meta.url);

const { planRota } = await import('./rota.calc.js');
const { smallestChanges } = await import('./rota-changes.calc.js');
const { replanRota } = await import('./rota-replan.calc.js');

const answers = {
  plan: ({ bench }) => planRota(bench),
  changes: ({ bench }) => smallestChanges(bench),
  replan: ({ bench, rota, meanwhile }) => replanRota(bench, rota, meanwhile),
};

parentPort.on('message', ({ number, what, asked }) => {
  try {
    parentPort.postMessage({ number, found: answers[what](asked) });
  } catch (error) {
    parentPort.postMessage({ number, broke: String(error?.stack ?? error) });
  }
});
