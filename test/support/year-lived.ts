// What came of a year of a studio's mail: lived in this process, or in another one of the same house beside it, as a house
// runs that has two workers.
import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { TestHouse } from './house.js';
import { type Broken, judge } from './year-judge.js';
import { liveYear, type Plot } from './year-run.js';

/** As one process tells it the other. */
export interface Lived {
  broken: Broken[];
  /** What the mail server did, each once. */
  fates: unknown[];
  /** What was done with places, and what was begun and failed, each once. */
  acts: string[];
  attempts: number;
  /** How long the living took, on the machine's clock. */
  seconds: number;
  deaths: number;
}

/** What another process is told to live. */
export interface Errand {
  now: string;
  url: string;
  adminUrl: string;
  plot: Plot;
}

/** One year in this process, and another beside it at the same time. */
export async function liveSideBySide(house: TestHouse, here: Plot, beside: Plot): Promise<Lived[]> {
  const over = new AbortController();
  try {
    return await Promise.all([liveAndJudge(house, here), liveBeside(house, beside, over.signal)]);
  } finally {
    over.abort();
  }
}

export async function liveAndJudge(house: TestHouse, plot: Plot): Promise<Lived> {
  const began = performance.now();
  const year = await liveYear(house, plot);
  const seconds = (performance.now() - began) / 1_000;
  const acts = year.lives.flatMap(({ happened }) => happened.map(({ kind, failed }) => `${kind} ${failed}`));
  return {
    broken: await judge(house, year),
    fates: [...new Set(year.handed.map(({ fate }) => fate))],
    acts: [...new Set(acts)],
    attempts: year.handed.length,
    seconds,
    deaths: [...year.deaths.values()].reduce((sum, n) => sum + n, 0),
  };
}

/** The same in a process of its own, with a clock of its own, on the house's database. */
function liveBeside({ clock, database }: TestHouse, plot: Plot, signal: AbortSignal): Promise<Lived> {
  const loader = fileURLToPath(new URL('./plain-node.mjs', import.meta.url));
  const child = fork(new URL('./year-beside.ts', import.meta.url), {
    execArgv: ['--enable-source-maps', '--import', loader],
    signal,
  });
  const { url, adminUrl } = database;
  const errand: Errand = { now: clock.now().toString(), url, adminUrl, plot };
  child.send(errand);
  return new Promise((done, failed) => {
    child.once('message', (lived) => done(lived as Lived));
    child.once('error', failed);
    child.once('exit', (code) => failed(new Error(`The year beside ended with ${code}.`)));
  });
}
